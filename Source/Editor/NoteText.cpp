#include "NoteText.h"

#include "Modal/NumberText.h"
#include "Modal/pitch/Interval.h"
#include "Modal/pitch/MusicSigns.h"

#include <cmath>

namespace editor
{
namespace
{

const juce::juce_wchar minus = 0x2212, thinSpace = 0x2009, sharp = 0x266f;

juce::String pretty (const std::string& name)
{
    return withMusicSigns (juce::String (name));
}

} // namespace

juce::String withMusicSigns (const juce::String& text)
{
    return text.replaceCharacter ('#', sharp).replaceCharacter ('-', minus);
}

juce::String withNoteSigns (const juce::String& sentence)
{
    auto text = sentence.replaceCharacter ('#', sharp);
    for (const auto digit : juce::String ("0123456789"))
        text = text.replace (" -" + juce::String::charToString (digit), " " + juce::String::charToString (minus) + juce::String::charToString (digit));
    return text;
}

juce::String plusMinus (double value, int decimals)
{
    return juce::String::fromUTF8 ("\xc2\xb1 ") + fixed (value, decimals);
}

juce::String plainSigns (const juce::String& text)
{
    return juce::String::fromUTF8 (modal::plainSigns (text.toStdString()).c_str());
}

juce::String noteName (double hertz, modal::ConcertPitch pitch)
{
    return pretty (modal::Note::fromFrequency (hertz, pitch).name());
}

juce::String noteWithCents (double hertz, modal::ConcertPitch pitch)
{
    return noteOfMidi (midiOfHertz (hertz, pitch));
}

juce::String noteOfMidi (double midi)
{
    const int cents = juce::roundToInt (100.0 * (midi - std::round (midi)));
    const auto name = pretty (modal::Note{ juce::roundToInt (midi), 0.0 }.name());
    return cents == 0 ? name : name + " " + withSign (cents, 0);
}

double hertzOfMidi (double midi, modal::ConcertPitch pitch)
{
    return pitch.a4 * std::exp2 ((midi - 69.0) / 12.0);
}

bool isNatural (int midi)
{
    static constexpr bool natural[] = { true, false, true, false, true, true, false, true, false, true, false, true };
    return natural[midi % 12];
}

juce::String intervalName (double semitones)
{
    return juce::String (modal::Interval{ semitones }.longName()).replace (" cents", " c").replaceCharacter ('-', minus);
}

juce::String fixed (double value, int decimals)
{
    return juce::String (modal::fixedText (value, decimals));
}

juce::String withSign (double value, int decimals)
{
    const auto text = fixed (std::abs (value), decimals);
    if (text.containsOnly ("0."))
        return text;
    return (value < 0.0 ? juce::String::charToString (minus) : juce::String ("+")) + text;
}

juce::String grouped (double value, int decimals)
{
    auto text = fixed (std::abs (value), decimals);
    const int point = text.indexOfChar ('.');
    for (int at = (point < 0 ? text.length() : point) - 3; at > 0; at -= 3)
        text = text.substring (0, at) + juce::String::charToString (thinSpace) + text.substring (at);
    return value < 0.0 ? juce::String::charToString (minus) + text : text;
}

} // namespace editor
