#pragma once

#include "Engine/PlayedResponse.h"
#include "Modal/Prediction.h"

#include <optional>
#include <string>

namespace reports
{

/** A prediction with its name in a comparison. */
struct NamedPrediction
{
    std::string label;
    modal::Prediction prediction;
    std::optional<double> ringWiresOn;            ///< s, engine::playedRing(); none for a drum without wires, or with the wires off
    std::optional<engine::PlayedResponse> played; ///< if it was asked for
};

} // namespace reports
