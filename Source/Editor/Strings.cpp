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

ControlText shading()
{
    return { "Shade by", "name",
             "Which figure the map is shaded by: darker is more. Those of played strokes take some seconds." };
}

ControlText wish (finding::Figure figure)
{
    using finding::Figure;
    switch (figure)
    {
    case Figure::drumNote:
        return { "Drum note", "note", "A note, or two with a colon between: D3:E3 for from D3 to E3, :E3 for at most E3." };
    case Figure::ring:
        return { "Ring", "s",
                 "Time for the drum note to fall by 60 dB, wires off: :0.6s for at most 0.6 s, 0.3s:0.6s for a range." };
    case Figure::lasts:
        return { "Lasts at listener", "s",
                 "Time for the drum note to fall by 60 dB at the listener of the place, wires off: :1beat for at most a beat of "
                 "the song's tempo, or of the pattern's; :0.6s for at most 0.6 s." };
    case Figure::interval:
        return { "Interval", "interval", "Resonant over batter: P4:P5 for from a fourth to a fifth, :P4 for at most a fourth." };
    case Figure::softestStroke:
        return { "Snare response", "m/s",
                 "The softest stroke that wakes the wires, at the strike point that is set: :0.2m/s for at most 0.2 m/s." };
    case Figure::batterMove:
        return { "Batter moves", "semitones", "From where it is: stays, or -4:4 for at most four semitones either way." };
    case Figure::resonantMove:
        return { "Resonant moves", "semitones", "From where it is: stays, for a change between songs with one head; or -2:2." };
    case Figure::batterStrength:
        return { "Batter stress", "%",
                 "Share of the batter's yield strength: :50 for at most half. The maker's limit comes first." };
    case Figure::resonantStrength:
        return { "Resonant stress", "%",
                 "Share of the resonant head's yield strength: :50 for at most half. The maker's limit comes first." };
    default:
        return { finding::infoOf (figure).name, "", finding::infoOf (figure).meaning };
    }
}

juce::String wishExample (finding::Figure figure)
{
    using finding::Figure;
    switch (figure)
    {
    case Figure::drumNote:
        return "e.g. D3:E3";
    case Figure::ring:
        return "e.g. :0.6s";
    case Figure::lasts:
        return "e.g. :1beat";
    case Figure::interval:
        return "e.g. P4:P5";
    case Figure::softestStroke:
        return "e.g. :0.2m/s";
    case Figure::batterMove:
        return "e.g. -4:4";
    case Figure::resonantMove:
        return "e.g. stays";
    default:
        return "e.g. :50";
    }
}

ControlText songKey()
{
    return { "Song's key", "key",
             "D minor, Bb, F#m: the drum note on a tone of its chord, unless you type a drum note. Common practice, no source." };
}

ControlText songTempo()
{
    return { "Song's tempo", "beats per minute",
             "The ring ends before the next eighth note at this tempo, unless you type a ring. Common practice, no source." };
}

juce::String noSuchShading (const juce::StringArray& names)
{
    return "Shade by one of these: " + names.joinIntoString (", ") + ".";
}

juce::String foundName (int number, const juce::String& kind)
{
    return "Tuning " + juce::String (number) + ", " + kind;
}

juce::String foundTip (const juce::String& kind, const juce::String& notes, const juce::String& sounding)
{
    return kind.substring (0, 1).toUpperCase() + kind.substring (1) + ": batter / resonant " + notes + ", drum note " + sounding +
           ".";
}

juce::String heads (const juce::String& batterMove, const juce::String& resonantMove)
{
    return "Batter " + batterMove + ", resonant head " + resonantMove + ".";
}

juce::String allMet (int count)
{
    return count == 1 ? "One kind of tuning meets every wish." : juce::String (count) + " kinds of tunings meet every wish.";
}

juce::String movesFrom (const juce::String& batterTap, const juce::String& resonantTap)
{
    return "from " + batterTap + " / " + resonantTap;
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

juce::String patternTimes (int times)
{
    return times == 1 ? juce::String ("Pattern once") : "Pattern " + juce::String (times) + " times";
}

juce::String rendered (const juce::File& mix, int files, float peak)
{
    const auto decibels = juce::Decibels::gainToDecibels (static_cast<double> (peak));
    return "Written: " + mix.getFullPathName() + " and " + juce::String (files - 1) + " more files, peak " +
           withSign (decibels, 1) + " dB" + (peak > 1.0f ? ". Above full scale: lower the output gain for 16 or 24 bits." : ".");
}

ControlText batterNoteRead()
{
    return { "Batter note", "note",
             "The batter's tap note as you read it, the other head held still: G#3 -5. Leave it empty if you did not." };
}

ControlText resonantNoteRead()
{
    return { "Resonant note", "note",
             "The resonant head's tap note as you read it, the batter held still: C4. Leave it empty if you did not." };
}

juce::String spectrogramOf (const juce::String& file)
{
    return "Spectrogram of " + file;
}

juce::String doneOf (int done, int all)
{
    return juce::String (done) + " of " + juce::String (all);
}

ControlText strikePoint()
{
    return { "Strike point", "% of radius",
             "Click to strike: Shift for hard, Alt for soft. Where you strike decides how much each mode sounds." };
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
    return juce::String (modal::nameOf (mode)) + " " + fixed (mode.frequency, 0) + " Hz";
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
    return ! prediction.drum.hasResonantHead() ? juce::String() : mode.headCorrelation > 0.0 ? headsInPhase : headsOpposed;
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

juce::String filePattern (const char* endings)
{
    return "*." + juce::String (endings).replace (";", ";*.");
}

juce::String partIsCut (double seconds)
{
    return "Only the first " + juce::String (juce::roundToInt (seconds)) + " s of the part are played.";
}

juce::String turnRods (const juce::String& turns)
{
    return "Turn all rods: " + turns + ". This takes you to the tuning that is set; the tuning sheet has the full plan.";
}

juce::String sheetWritten (const juce::File& file)
{
    return "Written: " + file.getFullPathName() + ".";
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
