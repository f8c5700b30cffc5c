#pragma once

#include "Atlas.h"
#include "Canvas.h"

#include "Files/Json.h"

namespace sheets
{

/** Four maps on one sheet: drum note, ring, snare response, head stress. Batter note to the right, interval upwards; darker is
   more. The cells hold the values as figures, so that the page can be printed in black and white. Crossed-out cells cannot be
   tuned. */
void draw (Canvas&, const Atlas&, const std::string& title);

/** A heading and one row per tuning (RFC 4180). */
std::string asCsv (const Atlas&);
files::Json asJson (const Atlas&);

inline constexpr double atlasWidth = 842.0, atlasHeight = 595.0; ///< points, A4 landscape

} // namespace sheets
