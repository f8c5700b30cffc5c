#include "Strings.h"

#include "NoteText.h"

#include <algorithm>
#include <cmath>

namespace editor::strings
{

ControlText batterNote()
{
    return { "Batter tap note", "note",
             "Pitch of the batter head tapped near a lug, the other head held still. Drag by semitones, with Shift by cents. The "
             "resonant head keeps its note." };
}

ControlText resonantNote()
{
    return { "Resonant tap note", "note",
             "Pitch of the resonant head tapped near a lug, the batter held still. Drag by semitones, with Shift by cents. The "
             "batter head keeps its note." };
}

ControlText interval()
{
    return { "Interval", "semitones",
             "How far the resonant head is tuned above the batter. Drag to move both heads together; type P4 or fifth to set the "
             "interval." };
}

ControlText drumNoteHandle()
{
    return { "Drum note", "note",
             "Pitch of the finished drum. Drag by semitones, with Shift by cents, or type a note: both heads move and keep their "
             "interval." };
}

ControlText lug (bool isBatter, int number)
{
    return { juce::String (isBatter ? "Batter" : "Resonant") + " lug " + juce::String (number), "cents",
             "How far a tap beside this lug is above the head's note. Lug 1 is the one you mark; count clockwise, seen from "
             "above." };
}

ControlText lugSpot (int number)
{
    return {
        "Tap beside lug " + juce::String (number), "cents from the mean of the lugs",
        "Cents from the mean, with the uncertainty below: one head's notes hardly tell a lug from the one opposite. Press to "
        "tap this lug next."
    };
}

ControlText strikePoint()
{
    return { "Strike point", "% of radius",
             "Click to strike: Shift for hard, Alt for soft. The place decides how much each mode sounds." };
}

ControlText spectrumMode()
{
    return { "Mode", "mode",
             "Each mode is one pattern in which heads and air vibrate, at one frequency. Choose one to see its shape." };
}

ControlText strokeSpeed()
{
    return { "Stroke speed", "m/s",
             "Speed of the stick's tip as it lands. A hard stroke starts sharp and throws the wires further." };
}

juce::String modeName (const modal::Mode& mode)
{
    return "(" + juce::String (mode.m) + "," + juce::String (mode.n) + ") " + fixed (mode.frequency, 0) + " Hz";
}

int findMode (const modal::Prediction& prediction, const juce::String& typed)
{
    const auto numbers = juce::StringArray::fromTokens (typed.retainCharacters ("0123456789.,"), ",", "");
    if (numbers.size() == 2)
    {
        for (std::size_t i = 0; i < prediction.modes.size(); ++i)
            if (prediction.modes[i].m == numbers[0].getIntValue() && prediction.modes[i].n == numbers[1].getIntValue())
                return static_cast<int> (i);
        return -1;
    }
    const double wanted = numbers[0].getDoubleValue();
    int nearest = -1;
    double best = wanted * 0.0595; // a semitone
    for (std::size_t i = 0; i < prediction.modes.size(); ++i)
        if (const double away = std::abs (prediction.modes[i].frequency - wanted); away < best)
        {
            best = away;
            nearest = static_cast<int> (i);
        }
    return nearest;
}

juce::String sharing (const modal::Prediction& prediction, const modal::Mode& mode)
{
    return ! prediction.drum.hasResonantHead() ? juce::String() : mode.togetherness > 0.0 ? headsInPhase : headsOpposed;
}

juce::String splitPair (double hertz)
{
    return "split, beats at " + fixed (hertz, 1) + " Hz";
}

juce::String afterComma (const juce::String& words)
{
    return words.isEmpty() ? words : ", " + words;
}

juce::String modeCaption (const modal::Prediction& prediction, const modal::Mode& mode)
{
    return juce::String ("Mode ") + modeName (mode) + afterComma (sharing (prediction, mode));
}

juce::String strikeCaption (double milliseconds, double slowing)
{
    return juce::String (milliseconds, 1) + " ms after the stroke, slowed " +
           juce::String (juce::roundToInt (slowing / 5.0) * 5) + " times";
}

juce::String headReaches (bool isBatter, const juce::String& lowest, const juce::String& highest)
{
    return juce::String (isBatter ? "Batter" : "Resonant") + " head: the range is " + lowest + " to " + highest +
           ". Higher would exceed its yield strength.";
}

juce::String drumWithoutName (const juce::String& diameter, const juce::String& depth, const juce::String& material)
{
    return diameter.upToFirstOccurrenceOf (" ", false, false) + juce::String::fromUTF8 (" \xc3\x97 ") + depth + ", " + material;
}

juce::String keptName (const juce::String& letter)
{
    return "Tuning " + letter;
}

juce::String keepHere (const juce::String& letter)
{
    return "Keep the current tuning as " + letter;
}

juce::String clearKept (const juce::String& letter)
{
    return "Clear " + letter;
}

juce::String changeFrom (const juce::String& letter)
{
    return "Change from " + letter;
}

juce::String changeSince (const juce::String& letter)
{
    return juce::String (changeColumn) + " from " + letter;
}

juce::String youChose (const juce::String& letter, const juce::String& tuning)
{
    return "You chose " + letter + ": " + tuning + ".";
}

juce::String tapBeside (int lug)
{
    return "Tap beside lug " + juce::String (lug);
}

juce::String meanOfLugs (int count)
{
    return count == 1 ? juce::String ("1 lug") : "Mean of " + juce::String (count) + " lugs";
}

} // namespace editor::strings
