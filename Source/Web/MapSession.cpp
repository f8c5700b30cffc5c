#include "MapSession.h"

#include "Modal/pitch/Interval.h"

#include <cmath>

namespace web
{

using namespace modal;
using files::Json;

MapSession::MapSession (const DrumSpec& drum, double step)
    : tuner (drum), solver (finding::solverFor (tuner)), whole (finding::areaOf (tuner)),
      prudent (finding::areaOf (tuner, modal::prudentYieldShare, modal::prudentYieldShare)),
      batter (headOf (HeadSide::batter, step)), resonant (headOf (HeadSide::resonant, step)),
      points (batter.notes.size() * resonant.notes.size())
{
}

MapSession::Head MapSession::headOf (HeadSide side, double step) const
{
    constexpr double nearYield = 0.95;
    const bool isBatter = side == HeadSide::batter;
    Head head{ finding::notesBetween (isBatter ? whole.batter : whole.resonant, step), {}, false };

    for (const double note : head.notes)
        head.tensions.push_back (tuner.notes (side).tensionNear (note));

    head.endsAtYield = head.tensions.back() > nearYield * yieldTension (isBatter ? tuner.drum().batter : tuner.drum().resonant);
    return head;
}

const finding::MapPoint& MapSession::solvedPoint (std::size_t b, std::size_t r)
{
    auto& point = points[b * resonant.notes.size() + r];

    if (! point)
        point = finding::solved (solver, { batter.tensions[b], resonant.tensions[r] });

    return *point;
}

std::shared_ptr<const finding::TuningMap> MapSession::map() const
{
    std::vector<finding::MapPoint> all;

    for (std::size_t i = 0; i < points.size(); ++i)
        all.push_back (points[i].value_or (
            finding::MapPoint{ { batter.tensions[i / resonant.notes.size()], resonant.tensions[i % resonant.notes.size()] } }));

    return finding::TuningMap::fromPoints (tuner, whole, batter.notes, resonant.notes, std::move (all));
}

Json MapSession::asJson (const Head& head, double halfOfYield)
{
    return { { "notes_hz", head.notes }, { "half_of_yield_hz", halfOfYield }, { "ends_at_yield", head.endsAtYield } };
}

Json MapSession::column (std::size_t index, double lowestInterval, double highestInterval)
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

        for (const auto& mode : solvedPoint (index, r).lowest)
            lowest.push_back (std::isfinite (mode.frequency) ? Json{ { "frequency_hz", mode.frequency }, { "t60_s", mode.ring } }
                                                             : Json{});

        tunings.push_back (std::move (lowest));
    }

    return { { "batter", asJson (batter, prudent.batter.highest) },
             { "resonant", asJson (resonant, prudent.resonant.highest) },
             { "column", index },
             { "tunings", tunings } };
}

} // namespace web
