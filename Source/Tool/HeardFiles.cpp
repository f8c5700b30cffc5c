#include "HeardFiles.h"

#include "OptionText.h"
#include "PlanOptions.h"

#include "Modal/InputError.h"
#include "Sheets/Canvas.h"
#include "SoundFiles/AudioFile.h"
#include "Wording/TapText.h"

#include <algorithm>
#include <filesystem>

namespace tool
{

using namespace modal;

listening::RecordedLugCheck hearLugCheck (const std::string& path, const std::string& field, const DrumSpec& drum, bool hasPatch)
{
    return listening::hearLugCheck (soundfiles::loadRecording (path, field), drum.lugs, hasPatch, field);
}

namespace
{
/** Files with commas between, or the recordings in a folder by name. */
std::vector<std::string> recordingsIn (const std::string& paths)
{
    if (! std::filesystem::is_directory (paths))
        return splitAt (paths, ',');

    std::vector<std::string> found;

    for (const auto& entry : std::filesystem::directory_iterator (paths))
        for (const auto* ending : { ".wav", ".aif", ".aiff", ".flac", ".mp3" })
            if (sheets::endsIn (entry.path().string(), ending))
                found.push_back (entry.path().string());

    std::sort (found.begin(), found.end());
    return found;
}
} // namespace

HeardStrikes hearStrikes (const std::string& paths, const std::string& field)
{
    HeardStrikes heard;
    int count = 0, withWires = 0;

    for (const auto& path : recordingsIn (paths))
    {
        const auto recording = std::make_shared<const listening::Recording> (soundfiles::loadRecording (path, field));
        const auto quiet = listening::quietestMoment (*recording);

        for (const auto& tap : listening::findTaps (*recording))
        {
            ++count;
            withWires += tap.has (listening::Trouble::wiresOn) ? 1 : 0;

            if (tap.canBeStrike())
                heard.strikes.push_back ({ recording, tap, quiet });
            else
                heard.remarks += wording::remarks (tap.troubles, "Strike " + std::to_string (count), false);
        }
    }

    // If one strike has the wires on, all have; wires load the head even where they are not heard.
    if (withWires > 0)
        throw InputError::fault (field, "was recorded with the wires on",
                                 "strikes with the wires off: wires on the resonant head change its notes");

    if (heard.strikes.empty())
        throw InputError::fault (field, "has " + std::to_string (count) + " strikes, none of which can be used",
                                 "strikes that ring for half a second each\n" + heard.remarks);

    return heard;
}

} // namespace tool
