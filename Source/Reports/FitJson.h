#pragma once

#include "Files/Json.h"
#include "Fitting/Drum.h"
#include "Modal/pitch/Note.h"

#include <string>
#include <string_view>
#include <vector>

namespace reports
{

/** The measurement of one head. */
struct MeasuredHead
{
    modal::HeadSide side = modal::HeadSide::batter;
    fitting::HeadFit fit;
    std::string date{}; ///< as entered; may be empty
};

/** A head fit as JSON; lugs count from 1, every estimate has a value and an error. */
files::Json fitJson (const MeasuredHead&);

/** The same with the answer in a sentence. */
files::Json fitJson (const MeasuredHead&, const modal::DrumSpec&);

/** A fit of both heads as JSON: the list of heads, and the partials used. */
files::Json fitJson (const fitting::DrumFit&, const std::string& date, modal::ConcertPitch = {});

/** Reads either back, including heads without a result. Throws modal::InputError that begins with `source`. */
std::vector<MeasuredHead> readFit (std::string_view document, const std::string& source);

} // namespace reports
