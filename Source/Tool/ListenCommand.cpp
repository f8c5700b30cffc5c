#include "AudioFile.h"
#include "Command.h"
#include "Results.h"
#include "TextTable.h"

#include "Files/Json.h"
#include "Listening/Partials.h"
#include "Modal/InputError.h"
#include "Modal/Note.h"

#include <algorithm>

namespace tool
{

using files::Json;

namespace
{
constexpr std::size_t partialsShown = 4;

struct HeardFile
{
    std::string name;
    std::vector<listening::Tap> taps;
    std::vector<std::vector<modal::Partial>> partials;
};

HeardFile listenTo (const std::string& path)
{
    const auto recording = loadRecording (path, "recording");
    HeardFile heard{ path, listening::findTaps (recording), {} };
    const auto quiet = listening::quietestMoment (recording);

    for (const auto& tap : heard.taps)
        heard.partials.push_back (listening::partialsOf (recording, tap, quiet));

    return heard;
}

/** The strongest few, by how far they stand out, in order of frequency. */
std::vector<modal::Partial> strongest (std::vector<modal::Partial> partials)
{
    std::sort (partials.begin(), partials.end(), [] (const auto& a, const auto& b) { return a.signalToNoise > b.signalToNoise; });
    partials.resize (std::min (partials.size(), partialsShown));
    std::sort (partials.begin(), partials.end(), [] (const auto& a, const auto& b) { return a.frequency < b.frequency; });
    return partials;
}

/** A file made by a program may have no noise at all, of which no figure says anything. */
std::string overNoise (const listening::Tap& tap)
{
    constexpr double quieterThanAnyRoom = 120.0; // dB
    return tap.signalToNoise > quieterThanAnyRoom ? "no noise" : fixed (tap.signalToNoise, 0) + " dB";
}

std::string textOf (const HeardFile& heard)
{
    auto text = heard.name + ": " + std::to_string (heard.taps.size()) + (heard.taps.size() == 1 ? " tap\n" : " taps\n");
    TextTable table ({ Align::right, Align::right, Align::right, Align::left, Align::right, Align::right });
    table.add ({ "TAP", "AT", "OVER NOISE", "NOTE", "HZ", "RINGS" });
    std::string remarks;

    for (std::size_t i = 0; i < heard.taps.size(); ++i)
    {
        const auto& tap = heard.taps[i];
        bool isFirst = true;

        for (const auto& partial : strongest (heard.partials[i]))
        {
            table.add ({ isFirst ? std::to_string (i + 1) : "", isFirst ? fixed (tap.start, 2) + " s" : "",
                         isFirst ? overNoise (tap) : "", modal::Note::fromFrequency (partial.frequency).nameWithCents(),
                         fixed (partial.frequency, 1), fixed (partial.t60(), 2) + " s" });
            isFirst = false;
        }

        if (isFirst)
            table.add ({ std::to_string (i + 1), fixed (tap.start, 2) + " s", overNoise (tap), "nothing to read" });

        for (const auto trouble : tap.troubles)
            remarks += "Tap " + std::to_string (i + 1) + ": " + listening::explained (trouble) + ".\n";
    }

    return text + (heard.taps.empty() ? "Nothing in it starts suddenly.\n" : table.written()) + remarks;
}

Json jsonOf (const HeardFile& heard)
{
    Json::Array taps;

    for (std::size_t i = 0; i < heard.taps.size(); ++i)
    {
        const auto& tap = heard.taps[i];
        Json::Array partials, troubles;

        for (const auto& p : heard.partials[i])
            partials.push_back (Json::Object{ { "frequency_hz", p.frequency },
                                              { "frequency_error_hz", p.frequencyError },
                                              { "decay_per_s", p.decay },
                                              { "decay_error_per_s", p.decayError },
                                              { "t60_s", p.t60() },
                                              { "amplitude", std::abs (p.amplitude) },
                                              { "note", modal::Note::fromFrequency (p.frequency).nameWithCents() } });

        for (const auto trouble : tap.troubles)
            troubles.emplace_back (listening::explained (trouble));

        taps.push_back (Json::Object{ { "start_s", tap.start },
                                      { "end_s", tap.end },
                                      { "over_noise_db", tap.signalToNoise },
                                      { "is_usable", ! tap.isUnusable() },
                                      { "troubles", troubles },
                                      { "partials", partials } });
    }

    return Json::Object{ { "file", heard.name }, { "taps", taps } };
}

void run (const std::vector<std::string>& words, const Command& command)
{
    const Arguments arguments (words, command.allOptions());

    if (arguments.freeWords().empty())
        throw modal::InputError::fault ("recording", "is missing", "a WAV, AIFF or FLAC file");

    Json::Array all;
    std::string text;

    for (const auto& path : arguments.freeWords())
    {
        const auto heard = listenTo (path);
        all.push_back (jsonOf (heard));
        text += textOf (heard);
    }

    writeJsonOrText (arguments, Json::Object{ { "recordings", all } }, text);
}
} // namespace

const Command& listenCommand()
{
    static const Command command{
        "listen",
        "Finds taps in recordings: which notes ring, and for how long",
        "FILE... [--json [FILE]]",
        "Reads WAV, AIFF and FLAC. For a walk round a head, damp the other head with a cloth, throw the wires off, hold the "
        "microphone a\n"
        "hand's breadth over the place that you tap (turn the drum, not the microphone), tap 25 mm from the edge beside each lug "
        "in "
        "turn,\n"
        "and wait a second after each. \"snarewright fit\" makes a head's tension of it.\n",
        { { "Output:", { { "json", "FILE", "every partial, as JSON", true } } } },
        false,
        run
    };
    return command;
}

} // namespace tool
