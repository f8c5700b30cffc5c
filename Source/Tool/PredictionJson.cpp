#include "PredictionJson.h"

#include "PlayedText.h"
#include "PredictionText.h"

#include "Files/DrumFile.h"
#include "Modal/Units.h"

namespace tool
{

using namespace modal;
using files::Json;

namespace
{
Json headJson (const HeadPrediction& head, const Prediction& p)
{
    return Json::Object{
        { "tension_n_per_m", head.tension },
        { "tap_note_hz", head.tapNote },
        { "tap_note", noteOf (head.tapNote, p) },
        { "stress_mpa", head.stress / units::megapascal },
        { "yield_share", head.yieldShare },
        { "force_per_lug_n", head.forcePerLug },
        { "semitone_tension_percent", 100.0 * head.semitoneTension },
    };
}

Json modeJson (const Mode& mode, const Prediction& p)
{
    const auto& d = mode.decay;
    return Json::Object{
        { "m", mode.m },
        { "n", mode.n },
        { "frequency_hz", mode.frequency },
        { "ratio", mode.frequency / p.drumNote },
        { "note", noteOf (mode.frequency, p) },
        { "t60_s", d.t60() },
        { "decay_per_s", Json::Object{ { "radiation", d.radiation },
                                       { "film", d.film },
                                       { "ply", d.ply },
                                       { "edge", d.edge },
                                       { "air", d.air },
                                       { "muffling", d.muffling } } },
        { "batter_share", mode.shares.batter },
        { "resonant_share", mode.shares.resonant },
        { "air_share", mode.shares.air },
        { "togetherness", mode.togetherness },
        { "is_air_mode", mode.isAirMode },
        { "degenerate", p.isUniform && mode.m > 0 ? 2 : 1 },
    };
}

/** The two modes' frequencies, null where there is none in the band. */
Json pairJson (const ModePair& pair, const Prediction& p)
{
    const auto frequency = [&] (int index)
    { return index < 0 ? Json() : Json (p.modes[static_cast<std::size_t> (index)].frequency); };
    return Json::Object{ { "lower_hz", frequency (pair.lower) }, { "upper_hz", frequency (pair.upper) } };
}
} // namespace

Json modesJson (const Prediction& p)
{
    Json::Array modes;

    for (const auto& mode : p.modes)
        modes.push_back (modeJson (mode, p));

    return modes;
}

Json predictionJson (const NamedPrediction& named)
{
    const auto& p = named.prediction;
    Json::Object heads{ { "batter", headJson (p.batter, p) } };
    Json::Object sensitivity{ { "drum_note_cents_per_batter_semitone", p.drumNotePerBatterSemitone } };
    Json::Object result{
        { "label", named.label },
        { "drum_note_hz", p.drumNote },
        { "drum_note", noteOf (p.drumNote, p) },
        { "drum_note_t60_s", p.sustain },
    };

    if (p.drum.hasResonantHead())
    {
        heads.emplace_back ("resonant", headJson (p.resonant, p));
        sensitivity.emplace_back ("drum_note_cents_per_resonant_semitone", p.drumNotePerResonantSemitone);
        result.emplace_back ("interval", p.interval.name());
        result.emplace_back ("interval_semitones", p.interval.semitones);
    }

    Json::Array warnings;

    for (const auto& caution : cautions (p))
        warnings.emplace_back (caution);

    result.emplace_back ("heads", heads);
    result.emplace_back ("sensitivity", sensitivity);
    result.emplace_back ("pairs",
                         Json::Object{ { "breathing", pairJson (p.breathing, p) }, { "rocking", pairJson (p.rocking, p) } });
    result.emplace_back ("cautions", warnings);
    result.emplace_back ("highest_frequency_hz", p.highestFrequency);

    if (named.played)
        result.emplace_back ("played", playedJson (*named.played));

    result.emplace_back ("drum", files::drumAsJson (p.drum));
    result.emplace_back ("tuning", files::tuningAsJson (p.tuning, p.drum));
    result.emplace_back ("modes", modesJson (p));
    return result;
}

} // namespace tool
