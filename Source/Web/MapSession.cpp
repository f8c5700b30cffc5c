#include "MapSession.h"

#include "Modal/pitch/Interval.h"

#include <cmath>

namespace web
{

using namespace modal;
using files::Json;

MapSession::MapSession (const DrumSpec& drum, double step) : tuner (drum), solver (finding::solverFor (tuner))
{
    const auto whole = finding::areaOf (tuner);
    const auto prudent = finding::areaOf (tuner, finding::prudentStrength, finding::prudentStrength);
    batter = headOf (HeadSide::batter, whole.batter, prudent.batter, step);
    resonant = headOf (HeadSide::resonant, whole.resonant, prudent.resonant, step);
}

MapSession::Head MapSession::headOf (HeadSide side, NoteRange whole, NoteRange prudent, double step) const
{
    constexpr double nearYield = 0.95;
    const auto& drum = tuner.drum();
    Head head{ finding::notesBetween (whole, step), {}, prudent.highest, false };

    for (const double note : head.notes)
        head.tensions.push_back (tuner.notes (side).tensionNear (note));

    head.endsAtYield = head.tensions.back() > nearYield * yieldTension (side == HeadSide::batter ? drum.batter : drum.resonant);
    return head;
}

Json MapSession::asJson (const Head& head)
{
    return { { "notes_hz", head.notes }, { "half_of_yield_hz", head.halfOfYield }, { "ends_at_yield", head.endsAtYield } };
}

Json MapSession::column (std::size_t index, double lowestInterval, double highestInterval) const
{
    constexpr double rounding = 1.0e-6; // semitones
    Json tunings = Json::array();

    for (std::size_t r = 0; r < resonant.notes.size(); ++r)
    {
        const double interval = centsBetween (batter.notes[index], resonant.notes[r]) / 100.0;

        if (interval < lowestInterval - rounding || interval > highestInterval + rounding)
        {
            tunings.push_back (nullptr);
            continue;
        }

        Json lowest = Json::array();

        for (const auto& mode : finding::solved (solver, { batter.tensions[index], resonant.tensions[r] }).lowest)
            lowest.push_back (std::isfinite (mode.frequency) ? Json{ { "frequency_hz", mode.frequency }, { "t60_s", mode.ring } }
                                                             : Json{});

        tunings.push_back (std::move (lowest));
    }

    return { { "batter", asJson (batter) }, { "resonant", asJson (resonant) }, { "column", index }, { "tunings", tunings } };
}

} // namespace web
