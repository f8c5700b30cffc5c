#pragma once

#include "Modal/Prediction.h"

#include <string>
#include <vector>

namespace reports
{

/** Cautions about heads that are nearly slack or near yield and about the force per rod; empty if all are moderate. */
std::vector<std::string> cautions (const modal::Prediction&);

/** Cautions that belong on every sheet, lesson and page. */
const std::vector<std::string>& usualCautions();

} // namespace reports
