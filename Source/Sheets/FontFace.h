#pragma once

#include <cairo.h>

namespace sheets
{

/** The built-in typeface, regular or bold, for as long as the program runs. */
cairo_font_face_t* fontFace (bool isBold);

} // namespace sheets
