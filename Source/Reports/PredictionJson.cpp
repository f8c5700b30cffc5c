#include "PredictionJson.h"

#include "Cautions.h"
#include "Label.h"
#include "PlaceJson.h"
#include "PlayedJson.h"

#include "Files/DrumFile.h"
#include "Modal/Units.h"

namespace reports
{

using namespace modal;
using files::Json;

namespace
{
Json headJson (const HeadPrediction& head, const Prediction& p)
{
    return Json{
        { "tension_n_per_m", head.tension },
        { "tap_note_hz", head.tapNote },
        { "tap_note", noteOf (head.tapNote, p) },
        { "stress_mpa", head.stress / units::megapascal },
        { "yield_share", head.yieldShare },
        { "force_per_rod_n", head.forcePerLug },
        { "semitone_tension_percent", 100.0 * head.semitoneTension },
    };
}

Json modeJson (const Mode& mode, const Prediction& p)
{
    const auto& d = mode.decay;
    return Json{
        { "name", nameOf (mode) },
        { "m", mode.m },
        { "n", mode.n },
        { "purity", mode.purity },
        { "frequency_hz", mode.frequency },
        { "ratio", mode.frequency / p.drumNote },
        { "note", noteOf (mode.frequency, p) },
        { "t60_s", d.t60() },
        { "decay_per_s", Json{ { "radiation", d.radiation },
                               { "film", d.film },
                               { "bending", d.bending },
                               { "ply", d.ply },
                               { "edge", d.edge },
                               { "air", d.air },
                               { "muffling", d.muffling } } },
        { "batter_share", mode.shares.batter },
        { "resonant_share", mode.shares.resonant },
        { "air_share", mode.shares.air },
        { "head_correlation", mode.headCorrelation },
        { "is_air_mode", mode.isAirMode },
        { "degenerate", p.isUniform && mode.m > 0 ? 2 : 1 },
    };
}

/** The two modes' frequencies, null where there is none in the band. */
Json pairJson (const ModePair& pair, const Prediction& p)
{
    const auto frequency = [&] (int index)
    { return index < 0 ? Json() : Json (p.modes[static_cast<std::size_t> (index)].frequency); };
    return Json{ { "lower_hz", frequency (pair.lower) }, { "upper_hz", frequency (pair.upper) } };
}
} // namespace

Json modesJson (const Prediction& p)
{
    Json modes = Json::array();

    for (const auto& mode : p.modes)
        modes.push_back (modeJson (mode, p));

    return modes;
}

Json predictionJson (const NamedPrediction& named)
{
    const auto& p = named.prediction;
    Json heads{ { "batter", headJson (p.batter, p) } };
    Json sensitivity{ { "drum_note_cents_per_batter_semitone", p.drumNotePerBatterSemitone } };
    Json result{
        { "label", named.label },
        { "drum_note_hz", p.drumNote },
        { "drum_note", noteOf (p.drumNote, p) },
        { "drum_note_t60_s", p.sustain },
    };

    if (named.ringWiresOn)
        result["drum_note_t60_wires_on_s"] = *named.ringWiresOn;

    if (p.drum.hasResonantHead())
    {
        heads["resonant"] = headJson (p.resonant, p);
        sensitivity["drum_note_cents_per_resonant_semitone"] = p.drumNotePerResonantSemitone;
        result["interval"] = p.interval.name();
        result["interval_semitones"] = p.interval.semitones;
    }

    Json warnings = Json::array();

    for (const auto& caution : cautions (p))
        warnings.emplace_back (caution);

    result["heads"] = heads;
    result["sensitivity"] = sensitivity;
    result["pairs"] = Json{ { "breathing", pairJson (p.breathing, p) }, { "rocking", pairJson (p.rocking, p) } };
    result["cautions"] = warnings;
    result["highest_frequency_hz"] = p.highestFrequency;

    if (named.played)
        result["played"] = playedJson (*named.played);
    if (named.inPlace)
        result.update (placeJson (*named.inPlace));

    result["drum"] = files::drumAsJson (p.drum);
    result["tuning"] = files::tuningAsJson (p.tuning, p.drum);
    result["modes"] = modesJson (p);
    return result;
}

} // namespace reports
