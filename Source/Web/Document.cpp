#include "Document.h"

#include "Engine/Bank.h"
#include "Engine/PlayedBand.h"
#include "Modal/InputError.h"
#include "Reports/Label.h"

#include <algorithm>
#include <cmath>

namespace web
{

using namespace modal;

std::string TunedDrum::label() const
{
    return reports::labelOf (drum, tuning);
}

TunedDrum readDocument (const files::Json& document)
{
    const auto file = files::readDrum (document.dump(), documentName);

    if (file.tunings.empty())
        throw InputError::fault (std::string (documentName) + ": tunings", "is missing", "a list with a tuning");

    return { file.drum, file.tunings.front(), { file.wires, file.hoop, file.stick }, file.place };
}

Prediction predictionOf (const TunedDrum& tuned, double highest)
{
    auto prediction = predict (tuned.drum, tuned.tuning, { .highestFrequency = highest });

    if (prediction.drumNote <= 0.0 || ! std::isfinite (prediction.drumNotePerBatterSemitone) ||
        ! std::isfinite (prediction.drumNotePerResonantSemitone))
        throw InputError ("highest_hz", asText (highest) + " Hz", "a semitone above this drum's note or more");

    return prediction;
}

engine::DrumSetup setUpToPlay (const TunedDrum& tuned, double modes, double sampleRate)
{
    const auto tensions = tensionsFor (tuned.drum, tuned.tuning);
    SolveOptions options;
    options.highestFrequency =
        std::min (engine::playedBand (tuned.drum, tensions, modes), engine::highestShareOfRate * sampleRate);
    auto setup = engine::setUp (tuned.drum, tensions, solve (tuned.drum, tensions, options), tuned.fittings);
    setup.microphones = engine::defaultMicrophones (tuned.drum.depth);
    setup.sampleRate = sampleRate;
    return setup;
}

} // namespace web
