#include "PlaceJson.h"

#include "Files/DrumFile.h"

#include <cmath>

namespace reports
{
namespace
{
files::Json finiteOrNull (double value)
{
    return std::isfinite (value) ? files::Json (value) : files::Json();
}
} // namespace

files::Json placeJson (const InPlace& in)
{
    const auto& at = in.atListener;
    files::Json result{ { "distance_m", at.distance },
                        { "drum_note_lasts_s", at.noteLasts },
                        { "level_dba", at.level },
                        { "direct_over_reverberant_db", finiteOrNull (at.directOverReverberant) } };

    if (in.tempo)
        result["drum_note_lasts_beats"] = at.noteLasts * *in.tempo / 60.0;

    if (in.hasWires)
    {
        result["wires_clear_to_m"] = finiteOrNull (at.wiresClearTo);
        result["wires_heard_to_m"] = finiteOrNull (at.wiresHeardTo);
    }

    return files::Json{ { "place", files::placeAsJson (in.place) }, { "at_listener", result } };
}

} // namespace reports
