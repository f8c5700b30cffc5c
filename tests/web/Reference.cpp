// What the native instrument plays, for the test in a browser to compare with: samples as text, one stereo frame a line.
//   web-reference DOCUMENT.json KERNEL STROKE SPEED FRAMES CHANNELS    plays it, with a place as its listener with so many
//   channels hears it web-reference answer NAME REQUEST.json                             answers a request of the page
//   web-reference map REQUEST.json                                     says how many seconds the request takes for every column
//   of the map web-reference DOCUMENT.json KERNEL                                 says how many times as fast as real time it
//   plays

#include "Engine/Drum.h"
#include "Engine/KernelDispatch.h"
#include "Files/TextFile.h"
#include "Place/Room.h"
#include "Score/StrokeEnergy.h"
#include "Score/UsualMix.h"
#include "Web/Document.h"
#include "Web/Requests.h"

#include <chrono>
#include <cmath>
#include <cstdio>
#include <cstring>
#include <memory>
#include <optional>
#include <string>

namespace
{
constexpr double rate = 48000.0, modes = 400.0;
constexpr int block = 128;

/** Plays `frames` samples, heard in the room if there is one, and hands each block of left and right to `use`. */
template <class Before, class Use>
void play (engine::Drum& drum, place::Room* room, bool isMono, int frames, Before&& before, Use&& use)
{
    std::array<std::array<float, block>, score::UsualMix::microphones + 2> buffers{};
    const std::array<float*, score::UsualMix::microphones> heard{ buffers[0].data(), buffers[1].data(), buffers[2].data() };
    const score::UsualMix mixer;
    float *left = buffers[3].data(), *right = buffers[4].data();

    for (int done = 0; done < frames; done += block)
    {
        before (done);
        drum.process (heard.data(), block);

        if (room == nullptr)
            mixer.mix (heard.data(), left, right, block);
        else
            room->process (heard.back(), left, isMono ? nullptr : right, block);

        use (left, room != nullptr && isMono ? left : right);
    }
}
} // namespace

int main (int argumentCount, char** arguments)
{
    try
    {
        if (argumentCount == 4 && std::strcmp (arguments[1], "answer") == 0)
        {
            const auto request = files::parseJson (files::loadText (arguments[3]), arguments[3]);
            std::puts (web::answer (arguments[2], request).report.dump().c_str());
            return 0;
        }

        if (argumentCount == 3 && std::strcmp (arguments[1], "map") == 0)
        {
            auto request = files::parseJson (files::loadText (arguments[2]), arguments[2]);
            std::size_t columns = 1;
            const auto start = std::chrono::steady_clock::now();

            for (std::size_t column = 0; column < columns; ++column)
            {
                request["column"] = column;
                columns = web::answer ("map", request).report["batter"]["notes_hz"].size();
            }

            const std::chrono::duration<double> taken = std::chrono::steady_clock::now() - start;
            std::printf ("%.4f\n", taken.count());
            return 0;
        }

        if (argumentCount != 3 && argumentCount != 7)
            throw std::runtime_error ("web-reference DOCUMENT.json KERNEL [STROKE SPEED FRAMES CHANNELS]");

        const auto tuned = web::readDocument (files::parseJson (files::loadText (arguments[1]), arguments[1]));
        engine::Drum drum (std::make_shared<const engine::DrumModel> (web::setUpToPlay (tuned, modes, rate)));
        const auto kernel = engine::kernelNamed (arguments[2]);
        drum.setKernel (kernel.run);

        std::optional<place::Room> room;

        if (tuned.place)
            room.emplace (*tuned.place, score::distanceOf (engine::defaultMicrophones (tuned.drum.depth).back()), rate);

        auto* const heardIn = room ? &*room : nullptr;

        if (argumentCount == 7)
        {
            engine::Stroke stroke;
            stroke.kind = std::strcmp (arguments[3], "rimshot") == 0 ? engine::StrokeKind::rimshot : engine::StrokeKind::tip;
            stroke.speed = std::stod (arguments[4]);
            drum.strike (stroke);
            const double gain = room ? score::usualPlaceGain() : 1.0;
            play (
                drum, heardIn, std::strcmp (arguments[6], "1") == 0, std::stoi (arguments[5]), [] (int) {},
                [gain] (const float* left, const float* right)
                {
                    for (int i = 0; i < block; ++i)
                        std::printf ("%.9g %.9g\n", gain * static_cast<double> (left[i]), gain * static_cast<double> (right[i]));
                });
            return 0;
        }

        // As the test in the browser does: a stroke of 3 m/s 16 times a second.
        constexpr double seconds = 5.0;
        const auto begun = std::chrono::steady_clock::now();
        play (
            drum, heardIn, false, static_cast<int> (seconds * rate),
            [&] (int frame)
            {
                if (frame % (24 * block) == 0)
                    drum.strike (engine::Stroke{});
            },
            [] (const float*, const float*) {});
        const std::chrono::duration<double> taken = std::chrono::steady_clock::now() - begun;
        std::printf ("%.2f %s\n", seconds / taken.count(), kernel.name);
        return 0;
    }
    catch (const std::exception& error)
    {
        std::fprintf (stderr, "%s\n", error.what());
        return 1;
    }
}
