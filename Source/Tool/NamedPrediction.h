#pragma once

#include "Modal/Prediction.h"

#include <string>

namespace tool
{

/** A prediction and what to call it beside others. */
struct NamedPrediction
{
    std::string label;
    modal::Prediction prediction;
};

} // namespace tool
