// The window's text is drawn with the built-in typeface alone. tests/editor/compare-fonts runs the last test twice.
#include "TestWindow.h"

#include "MessageThread.h"

#include "Editor/Typeface.h"
#include "tests/Catch.h"

TEST_CASE ("The built-in typeface has every sign that the window, sheets and pictures show")
{
    for (const bool isBold : { false, true })
    {
        const auto glyphOf = [&] (juce::juce_wchar sign)
        {
            juce::Array<int> glyphs;
            juce::Array<float> offsets;
            editor::typeface (isBold)->getGlyphPositions (juce::String::charToString (sign), glyphs, offsets);
            return glyphs[0];
        };
        const int missing = glyphOf (0xf8ff); // for private use: no typeface has it
        for (const juce::juce_wchar sign :
             { 0x266f, 0x266d, 0x25be, 0x25b8, 0x25b2, 0x25bc, 0x2192, 0x2190, 0x2009, 0x2212, 0xd7,
               0xb1,   0xb7,   0xb2,   0xb3,   0xbd,   0xbc,   0xbe,   0x215b, 0x2248, 0x2026, 0x2013 })
        {
            INFO (juce::String::toHexString (static_cast<int> (sign)));
            CHECK (glyphOf (sign) != missing);
        }
    }
}

// Run by compare-fonts, which compares the pictures.
TEST_CASE ("Pictures of every page", "[.pages]")
{
    TestWindow window (800, 500);
    REQUIRE (window.settle());
    for (const auto& [page, name] : { std::pair{ editor::Page::heads, "heads" }, std::pair{ editor::Page::sound, "sound" },
                                      std::pair{ editor::Page::setUp, "set-up" }, std::pair{ editor::Page::listen, "listen" } })
    {
        window.setPage (page);
        window.picture (name);
    }
}
