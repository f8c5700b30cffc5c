#include "Prediction.h"

#include "Units.h"

#include <algorithm>
#include <cmath>

namespace modal
{

namespace
{

HeadPrediction predictHead (const DrumSpec& drum, HeadSide side, const HeadNotes& notes, double tension)
{
    const auto& head = side == HeadSide::batter ? drum.batter : drum.resonant;

    HeadPrediction found;
    found.tension = tension;
    found.tapNote = notes.at (tension);
    found.stress = tension / head.loadBearingThickness();
    found.yieldShare = found.stress / Film::yieldStress;
    found.forcePerLug = tension * units::twoPi * drum.radius() / drum.lugs;

    found.semitoneTension = notes.semitoneTension (tension);
    return found;
}

/** The lowest two modes of order m that move the heads. */
ModePair pairOf (const std::vector<Mode>& modes, int m)
{
    ModePair pair;

    for (int i = 0; i < static_cast<int> (modes.size()); ++i)
    {
        const auto& mode = modes[static_cast<std::size_t> (i)];

        if (mode.m != m || mode.isAirMode)
            continue;

        if (pair.lower < 0)
        {
            pair.lower = i;
        }
        else
        {
            pair.upper = i;
            break;
        }
    }

    return pair;
}

} // namespace

Prediction predict (const DrumTuner& tuner, const DrumSolver& solver, const Tuning& tuning)
{
    const auto& drum = solver.drum();
    const auto tensions = tuner.tensionsFor (tuning);
    const auto solved = solver.solve (tensions);

    Prediction result;
    result.drum = drum;
    result.tuning = tuning;
    result.batter = predictHead (drum, HeadSide::batter, tuner.notes (HeadSide::batter), tensions.batter);
    result.isUniform = solved.isUniform;
    result.highestFrequency = solved.highestFrequency;

    std::copy_if (solved.modes.begin(), solved.modes.end(), std::back_inserter (result.modes),
                  [&] (const Mode& mode) { return ! solved.isUniform || mode.parity == Parity::cosine; });
    result.breathing = pairOf (result.modes, 0);
    result.rocking = pairOf (result.modes, 1);
    result.drumNote = drumNote (solved);

    const auto sounding =
        std::find_if (result.modes.begin(), result.modes.end(), [] (const Mode& mode) { return ! mode.isAirMode; });

    if (sounding != result.modes.end())
        result.sustain = sounding->decay.t60();

    auto raised = tensions;
    raised.batter *= 1.0 + result.batter.semitoneTension;
    result.drumNotePerBatterSemitone = centsBetween (result.drumNote, solver.drumNote (raised));

    if (drum.hasResonantHead())
    {
        result.resonant = predictHead (drum, HeadSide::resonant, tuner.notes (HeadSide::resonant), tensions.resonant);
        result.interval.semitones = centsBetween (result.batter.tapNote, result.resonant.tapNote) / 100.0;

        raised = tensions;
        raised.resonant *= 1.0 + result.resonant.semitoneTension;
        result.drumNotePerResonantSemitone = centsBetween (result.drumNote, solver.drumNote (raised));
    }
    else
    {
        result.interval.semitones = 0.0;
    }

    return result;
}

Prediction predict (const DrumSpec& drum, const Tuning& tuning, const SolveOptions& options)
{
    return predict (DrumTuner (drum), DrumSolver (drum, options), tuning);
}

} // namespace modal
