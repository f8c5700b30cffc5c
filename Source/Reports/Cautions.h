#pragma once

#include "Modal/Prediction.h"

#include <string>
#include <vector>

namespace reports
{

/** Cautions about head stress and force per rod; empty if both are moderate. */
std::vector<std::string> cautions (const modal::Prediction&);

/** Cautions that belong on every sheet, lesson and page. */
const std::vector<std::string>& usualCautions();

} // namespace reports
