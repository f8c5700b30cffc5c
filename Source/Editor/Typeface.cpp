#include "Typeface.h"

#include "Fonts/Fonts.h"

namespace editor
{

juce::Typeface::Ptr typeface (bool isBold)
{
    // One typeface per weight for as long as the program runs: JUCE caches glyphs by typeface.
    static const auto load = [] (std::string_view font)
    { return juce::Typeface::createSystemTypefaceFor (font.data(), font.size()); };
    static const auto regular = load (files::fontData (false)), bold = load (files::fontData (true));
    return isBold ? bold : regular;
}

} // namespace editor
