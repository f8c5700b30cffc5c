#include "HeardFiles.h"

#include "AudioFile.h"
#include "BenchOptions.h"

#include "Listening/Partials.h"
#include "Modal/InputError.h"

#include <algorithm>

namespace tool
{

using namespace modal;

namespace
{
std::string remarksOn (const listening::Tap& tap, const std::string& name, bool isUsed)
{
    std::string remarks;

    for (const auto trouble : tap.troubles)
        remarks += name + ": " + listening::explained (trouble) + ".\n";

    return isUsed ? remarks : remarks + name + " is left out.\n";
}
} // namespace

HeardWalk hearWalk (const std::string& path, const std::string& field, const DrumSpec& drum, bool hasPatch)
{
    const auto recording = loadRecording (path, field);
    const auto taps = listening::findTaps (recording);
    const auto quiet = listening::quietestMoment (recording);

    if (taps.empty() || static_cast<int> (taps.size()) > drum.lugs)
        throw InputError (field, std::to_string (taps.size()) + " taps",
                          "1 to " + std::to_string (drum.lugs) + " taps: one beside each lug, lug 1 first, a second between");

    HeardWalk walk;

    for (std::size_t i = 0; i < taps.size(); ++i)
    {
        walk.remarks += remarksOn (taps[i], "Tap " + std::to_string (i + 1), ! taps[i].isUnusable());

        if (taps[i].isUnusable())
            continue;

        walk.taps.push_back (
            { .lug = static_cast<int> (i), .hasPatch = hasPatch, .partials = listening::partialsOf (recording, taps[i], quiet) });
    }

    return walk;
}

HeardStrikes hearStrikes (const std::string& paths, const std::string& field)
{
    HeardStrikes heard;
    int count = 0, withWires = 0;

    for (const auto& path : splitAt (paths, ','))
    {
        const auto recording = loadRecording (path, field);
        const auto quiet = listening::quietestMoment (recording);

        for (const auto& tap : listening::findTaps (recording))
        {
            ++count;
            withWires += tap.has (listening::Trouble::wiresOn) ? 1 : 0;

            if (tap.canBeStrike())
                heard.strikes.push_back (listening::partialsOf (recording, tap, quiet));
            else
                heard.remarks += remarksOn (tap, "Strike " + std::to_string (count), false);
        }
    }

    if (! heard.strikes.empty())
        return heard;

    if (withWires > 0)
        throw InputError (field, "a drum with its wires on",
                          "strikes with the strainer thrown off: wires that rattle on the resonant head change its notes");

    throw InputError (field, std::to_string (count) + " strikes, none of which can be used",
                      "strikes that ring for half a second each\n" + heard.remarks);
}

} // namespace tool
