#include "Typeface.h"

#if SNAREWRIGHT_HAS_LETTERS
#include "LettersData.h"
#endif

namespace editor
{

juce::Typeface::Ptr typefaceFor (const juce::Font& font)
{
#if SNAREWRIGHT_HAS_LETTERS
    // One typeface for each weight and as long as the program runs: JUCE caches glyphs by typeface.
    static const juce::Typeface::Ptr regular =
        juce::Typeface::createSystemTypefaceFor (LettersData::regular, static_cast<size_t> (LettersData::regularSize));
    static const juce::Typeface::Ptr bold =
        juce::Typeface::createSystemTypefaceFor (LettersData::bold, static_cast<size_t> (LettersData::boldSize));
    return font.isBold() ? bold : regular;
#else
    juce::ignoreUnused (font);
    return nullptr;
#endif
}

} // namespace editor
