#pragma once

#include "Atlas.h"
#include "Canvas.h"

#include "Files/Json.h"

namespace sheets
{

/** Four maps on one sheet: drum note, sustain, wire response, film stress. Batter note to the right, interval upwards; darker is
   more; the figures in the cells carry the values, so that it reads in black and white. Crossed-out cells cannot be tuned. */
void draw (Canvas&, const Atlas&, const std::string& title);

/** A heading and a row a tuning (RFC 4180). */
std::string asCsv (const Atlas&);
files::Json asJson (const Atlas&);

inline constexpr double atlasWidth = 842.0, atlasHeight = 595.0; ///< points, A4 on its side

} // namespace sheets
