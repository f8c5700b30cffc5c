#include "Typeface.h"

#include <FontData.h>

namespace editor
{

juce::Typeface::Ptr typeface (bool isBold)
{
    // One typeface per weight for as long as the program runs: JUCE caches glyphs by typeface.
    static const auto regular =
        juce::Typeface::createSystemTypefaceFor (FontData::regular, static_cast<size_t> (FontData::regularSize));
    static const auto bold = juce::Typeface::createSystemTypefaceFor (FontData::bold, static_cast<size_t> (FontData::boldSize));
    return isBold ? bold : regular;
}

} // namespace editor
