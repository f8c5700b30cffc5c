#include "FontFace.h"

#include <FontData.h>

#include <cairo-ft.h>

#include <stdexcept>

namespace sheets
{
namespace
{

/** @throws std::runtime_error if the data is no font */
cairo_font_face_t* load (const char* data, int size)
{
    static const FT_Library library = []
    {
        FT_Library made = nullptr;
        if (FT_Init_FreeType (&made) != 0)
            throw std::runtime_error ("FreeType cannot be started");
        return made;
    }();
    FT_Face face = nullptr;
    if (FT_New_Memory_Face (library, reinterpret_cast<const FT_Byte*> (data), size, 0, &face) != 0)
        throw std::runtime_error ("the built-in font cannot be read");
    return cairo_ft_font_face_create_for_ft_face (face, 0);
}

} // namespace

cairo_font_face_t* fontFace (bool isBold)
{
    static auto* const regular = load (FontData::regular, FontData::regularSize);
    static auto* const bold = load (FontData::bold, FontData::boldSize);
    return isBold ? bold : regular;
}

} // namespace sheets
