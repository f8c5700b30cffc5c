#pragma once

#include "Files/Json.h"
#include "Fitting/Drum.h"

#include <string>
#include <string_view>
#include <vector>

namespace sheets
{

/** What one head was found to be. */
struct MeasuredHead
{
    modal::HeadSide side = modal::HeadSide::batter;
    fitting::HeadFit fit;
    std::string date{}; ///< as the person writes it; may be empty
};

/** What taps said about a head; lugs count from 1, every estimate is a value and an error. */
files::Json fitJson (const MeasuredHead&);

/** What strikes said about both heads: a list of the same, and the partials that were heard. */
files::Json fitJson (const fitting::DrumFit&, const std::string& date);

/** Reads either back. Heads that were not found are there too, with why. Throws modal::InputError that begins with
 * `source`. */
std::vector<MeasuredHead> readFit (std::string_view document, const std::string& source);

} // namespace sheets
