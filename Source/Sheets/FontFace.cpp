#include "FontFace.h"

#include "Fonts/Fonts.h"

#include <cairo-ft.h>

#include <stdexcept>

namespace sheets
{
namespace
{

/** @throws std::runtime_error if the data is no font */
cairo_font_face_t* load (std::string_view font)
{
    static const FT_Library library = []
    {
        FT_Library made = nullptr;
        if (FT_Init_FreeType (&made) != 0)
            throw std::runtime_error ("FreeType cannot be started");
        return made;
    }();
    FT_Face face = nullptr;
    const auto* bytes = reinterpret_cast<const FT_Byte*> (font.data());
    if (FT_New_Memory_Face (library, bytes, static_cast<FT_Long> (font.size()), 0, &face) != 0)
        throw std::runtime_error ("the built-in font cannot be read");
    return cairo_ft_font_face_create_for_ft_face (face, 0);
}

} // namespace

cairo_font_face_t* fontFace (bool isBold)
{
    static auto* const regular = load (files::fontData (false));
    static auto* const bold = load (files::fontData (true));
    return isBold ? bold : regular;
}

} // namespace sheets
