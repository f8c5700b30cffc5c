#pragma once

#include "Engine/PlayedResponse.h"
#include "Modal/Prediction.h"
#include "Place/AtListener.h"

#include <optional>
#include <string>

namespace reports
{

/** A drum in its place. */
struct InPlace
{
    place::Place place;
    place::AtListener atListener;
    double drumAlone; ///< s, the drum note's ring without the place
    bool hasWires;
    std::optional<double> tempo; ///< beats per minute
};

/** A prediction with its name in a comparison. */
struct NamedPrediction
{
    std::string label;
    modal::Prediction prediction;
    std::optional<double> ringWiresOn;            ///< s, engine::playedRing(); none for a drum without wires, or with the wires off
    std::optional<engine::PlayedResponse> played; ///< if it was asked for
    std::optional<InPlace> inPlace = std::nullopt; ///< if there is a place
};

} // namespace reports
