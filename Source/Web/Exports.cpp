// What WebAssembly exports. Threads of a browser share no memory: worker and worklet each run their own copy.

#include "Requests.h"
#include "Voice.h"

#include <emscripten/emscripten.h>

#include <cmath>
#include <cstring>
#include <string>

namespace
{

std::string reply;
std::vector<std::byte> replyBytes;
std::unique_ptr<web::Voice> voice;
float sound[2][web::Voice::mostFrames];
plugin::Pattern patternToCome;

int isTaken (void (web::Voice::*take)())
{
    try
    {
        (voice.get()->*take)();
        return 1;
    }
    catch (const std::exception&)
    {
        return 0;
    }
}

} // namespace

extern "C"
{

    // Solver's thread

    /** Answers a request; 1 if that went well. The reply, or the error, is at replyText(), numbers that belong to it at
     * replyData(). */
    EMSCRIPTEN_KEEPALIVE int answerRequest (const char* name, const char* request, const float* samples, int count)
    {
        replyBytes.clear();

        try
        {
            auto answer =
                web::answer (name, files::parseJson (request, "request"), { samples, static_cast<std::size_t> (count) });
            reply = answer.report.dump();
            replyBytes = std::move (answer.bytes);
            return 1;
        }
        catch (const std::exception& error)
        {
            reply = web::errorJson (error).dump();
            return 0;
        }
    }

    EMSCRIPTEN_KEEPALIVE const char* replyText()
    {
        return reply.data();
    }
    EMSCRIPTEN_KEEPALIVE int replyTextSize()
    {
        return static_cast<int> (reply.size());
    }
    EMSCRIPTEN_KEEPALIVE const std::byte* replyData()
    {
        return replyBytes.data();
    }
    EMSCRIPTEN_KEEPALIVE int replyDataSize()
    {
        return static_cast<int> (replyBytes.size());
    }

    // Audio thread

    EMSCRIPTEN_KEEPALIVE void startVoice (double sampleRate)
    {
        voice = std::make_unique<web::Voice> (sampleRate);
    }
    EMSCRIPTEN_KEEPALIVE std::byte* spaceFor (int size)
    {
        return voice->spaceFor (static_cast<std::size_t> (size)).data();
    }

    /** 1 if the model plays, 0 if its bytes are no model of this voice. */
    EMSCRIPTEN_KEEPALIVE int takeModel()
    {
        return isTaken (&web::Voice::takeModel);
    }

    /** 1 if the room, or none, is heard; 0 if its bytes are no room of this voice. */
    EMSCRIPTEN_KEEPALIVE int takeRoom()
    {
        return isTaken (&web::Voice::takeRoom);
    }

    /** A value that is NaN is engine::Stroke's usual one. */
    EMSCRIPTEN_KEEPALIVE void strike (int kind, double position, double angle, double speed, double rimLag, double pressForce,
                                      double pressTime, double secondDelay, double secondShare, double sweepForce, double sweepTime,
                                      int sweepsStraight, int offset)
    {
        constexpr engine::Stroke usual;
        const auto either = [] (double value, double otherwise) { return std::isnan (value) ? otherwise : value; };
        voice->strike ({ .kind = static_cast<engine::StrokeKind> (kind),
                         .position = either (position, usual.position),
                         .angle = either (angle, usual.angle),
                         .speed = either (speed, usual.speed),
                         .rimLag = either (rimLag, usual.rimLag),
                         .pressForce = either (pressForce, usual.pressForce),
                         .pressTime = either (pressTime, usual.pressTime),
                         .secondDelay = either (secondDelay, usual.secondDelay),
                         .secondShare = either (secondShare, usual.secondShare),
                         .sweepForce = either (sweepForce, usual.sweepForce),
                         .sweepTime = either (sweepTime, usual.sweepTime),
                         .sweepsStraight = sweepsStraight != 0 },
                       offset);
    }

    /** A pattern comes stroke by stroke; then playPattern(). */
    EMSCRIPTEN_KEEPALIVE void addToPattern (double beat, int kind, double position, double speed, double sweepBeats,
                                            int sweepsStraight)
    {
        engine::Stroke stroke;
        stroke.kind = static_cast<engine::StrokeKind> (kind);
        stroke.position = position;
        stroke.speed = speed;
        stroke.sweepTime = sweepBeats;
        stroke.sweepsStraight = sweepsStraight != 0;
        patternToCome.strokes.push_back ({ beat, stroke });
    }

    EMSCRIPTEN_KEEPALIVE void playPattern (double beats, int repeats)
    {
        patternToCome.beats = beats;
        voice->setPattern (std::exchange (patternToCome, {}), repeats != 0);
    }

    EMSCRIPTEN_KEEPALIVE void setTempo (double beatsPerMinute)
    {
        voice->setTempo (beatsPerMinute);
    }
    EMSCRIPTEN_KEEPALIVE double beat()
    {
        return voice->beat();
    }
    EMSCRIPTEN_KEEPALIVE void silence()
    {
        voice->silence();
    }
    EMSCRIPTEN_KEEPALIVE void setGain (double decibels)
    {
        voice->setGain (decibels);
    }

    /** Left samples, then right ones, each in a row of Voice::mostFrames. */
    EMSCRIPTEN_KEEPALIVE const float* play (int frames)
    {
        voice->process (sound[0], sound[1], frames);
        return sound[0];
    }

    EMSCRIPTEN_KEEPALIVE int rowLength()
    {
        return web::Voice::mostFrames;
    }

} // extern "C"
