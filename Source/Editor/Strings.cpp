#include "Strings.h"

#include "NoteText.h"

#include <cmath>
#include <map>

namespace editor::strings
{

ControlText batterNote()
{
    return { "Batter tap note", "note",
             "The pitch of the batter tapped near a lug, the other head held still. Drag by semitones, with Shift by cents; the "
             "resonant head stays." };
}

ControlText resonantNote()
{
    return {
        "Resonant tap note", "note",
        "The pitch of the resonant head tapped near a lug, the batter held still. Drag by semitones, with Shift by cents; higher "
        "is drier."
    };
}

ControlText interval()
{
    return {
        "Interval", "semitones",
        "How far the resonant head stands above the batter. Drag to move both heads by semitones, with Shift by cents; type P4 "
        "or fifth to set it."
    };
}

ControlText lug (bool isBatter, int number)
{
    return {
        juce::String (isBatter ? "Batter" : "Resonant") + " lug " + juce::String (number), "cents",
        "How far a tap beside this lug stands above the head's note: unequal lugs split each paired mode in two that beat."
    };
}

ControlText lugSpot (int number)
{
    return { "Tap beside lug " + juce::String (number), "cents over the mean of the lugs",
             "Cents over the mean. Press to choose this lug next. Behind a sign of plus or minus: how sure, for a head's notes "
             "hardly tell a "
             "lug from the one opposite." };
}

ControlText strikePoint()
{
    return { "Strike point", "% of radius",
             "Where the stick lands decides how much each mode gets: a mode is silent when struck on its nodal line." };
}

ControlText spectrumMode()
{
    return {
        "Mode", "mode",
        "Each mode is one way the two heads and the air can swing together, at one frequency: choose one to see its shape."
    };
}

ControlText strokeSpeed()
{
    return { "Stroke speed", "m/s",
             "How fast the tip lands: harder strokes stretch the head, so they start sharp, and throw the wires further." };
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

juce::String ofYield (double stress, double yieldStress)
{
    return fixed (1.0e-6 * stress, 0) + " of " + fixed (1.0e-6 * yieldStress, 0) + " MPa";
}

juce::String sharing (const modal::Prediction& prediction, const modal::Mode& mode)
{
    return ! prediction.drum.hasResonantHead() ? juce::String() : mode.togetherness > 0.0 ? headsTogether : headsOpposed;
}

juce::String splitPair (double hertz)
{
    return "split, beats " + fixed (hertz, 1) + " Hz";
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
    return juce::String (isBatter ? "The batter head" : "The resonant head") + " reaches from " + lowest + " to " + highest +
           ": above, its film would yield.";
}

juce::String drumWithoutName (const juce::String& diameter, const juce::String& depth, const juce::String& material)
{
    return diameter.upToFirstOccurrenceOf (" ", false, false) + juce::String::fromUTF8 (" \xc3\x97 ") + depth + ", " + material;
}

juce::String tapBeside (int lug)
{
    return "Tap beside lug " + juce::String (lug);
}

juce::String meanOfLugs (int count)
{
    return count == 1 ? juce::String ("One lug") : "Mean of " + juce::String (count) + " lugs";
}

juce::String tipFor (const juce::String& id)
{
    static const std::map<juce::String, juce::String> tips{
        { "batter_note", "The batter's tap note: with the film's mass and the air it sets the tension." },
        { "interval",
          "How far the resonant head's tap note stands above the batter's: it decides how the heads share the drum note." },
        { "batter_cents",
          "A fine change of the batter's tap note; 100 cents are a semitone and cost about an eighth of the tension." },
        { "resonant_cents", "A fine change of the resonant head's tap note; the thin head needs little tension to move." },
        { "concert_pitch",
          "The frequency that is called A4; it names the notes and moves nothing by itself except heads tuned by note." },
        { "tuning_channel", "Notes on this MIDI channel set the batter's note instead of striking." },
        { "diameter", "A wider head at the same tension sounds lower, in inverse proportion without air." },
        { "depth",
          "The air between the heads is a spring: a shallow shell couples them stiffly, a deep one lets them go their own way." },
        { "bottom",
          "A second head, a rigid end as on a kettle, or nothing: it decides what the air behind the batter pushes against." },
        { "lugs", "More rods share the same tension with less force on each, and hold the head's edge more evenly." },
        { "vent_diameter", "The hole lets the slowest swings of the enclosed air out and softens its spring." },
        { "shell_material", "A stiffer, less lossy shell takes less energy from the heads at the bearing edge." },
        { "shell_thickness", "A thicker shell rings higher and moves less." },
        { "hoop", "A heavier, stiffer hoop answers a rimshot with higher, longer ringing." },
        { "batter_film",
          "A thicker film is heavier: it needs more tension for the same note and rings lower in its overtones' loss." },
        { "batter_plies", "Two plies rub on each other, so overtones die sooner." },
        { "batter_coating", "Coating adds mass without carrying tension, and loses energy as it bends." },
        { "batter_dot", "Extra film in the middle lowers the modes that move there and leaves the others." },
        { "batter_dot_film", "The thickness of the dot: the mass it adds per area." },
        { "batter_ring", "A strip of extra film along the rim, where the high modes move most." },
        { "batter_ring_film", "The thickness of the strip: the mass it adds per area." },
        { "resonant_film", "A thin resonant head moves with the least push of air, which is what lets the wires answer softly." },
        { "resonant_plies", "A second ply makes the resonant head heavier and slower to answer." },
        { "resonant_coating", "Coating makes the resonant head heavier and lossier." },
        { "wires_on", "On, the wires lie against the resonant head; off, they hang clear of it." },
        { "wire_strands", "More wires mean more collisions with the head, and more mass lying on it." },
        { "wire_mass", "A heavier strand leaves the head later and lands harder." },
        { "wire_tension", "Tight strands come back to the head at once and sound short; slack ones rattle on." },
        { "wire_press", "How far the end plates draw the wires into the head: pressed they choke, with a gap they only rattle." },
        { "wire_unevenness", "Strands of unequal tension land at different moments and blur the sound." },
        { "patch_mass", "Something laid on the batter slows the modes that move under it." },
        { "patch_size", "A larger patch also reaches the modes with small parts." },
        { "patch_place", "Modes lose most where they move most: the middle for (0,1), the edge for the high ones." },
        { "patch_rub", "How much the patch's material rubs as it moves: this turns motion into heat." },
        { "muffle_ring_mass", "A ring along the rim loads the high modes more than the drum note." },
        { "muffle_ring_width", "A wider ring reaches further in and takes more of the low modes." },
        { "resonant_patch_mass", "Something laid on the resonant head shortens the drum note that both heads share." },
        { "stick_mass", "A heavier stick stays on the head longer, which leaves out the highest modes." },
        { "stick_tip", "A harder tip leaves sooner and sounds brighter." },
        { "shaft_mass", "What the hoop feels of the shaft in a rimshot or a cross-stick." },
        { "stroke_place", "The middle drives the (0,n) modes only; toward the edge all the others join." },
        { "stroke_angle", "Along the wires or across them: it decides which partner of each pair is struck." },
        { "rim_lag", "In a rimshot the shaft meets the hoop this long after the tip meets the head." },
        { "press_force", "A buzz is a stick pressed into the head so that it bounces: more force, faster bounces." },
        { "press_time", "How long the hand presses before it lifts the stick." },
        { "double_delay", "The time between the two strokes of one motion." },
        { "double_share", "The second stroke's speed against the first." },
        { "stroke_notes", "Which MIDI notes strike the drum." },
        { "position_controller", "The MIDI controller that moves the strokes between centre and edge." },
        { "above_level", "How much of the microphone above the batter head is in the mix." },
        { "above_pan", "Where the microphone above stands between left and right." },
        { "above_inverted", "Turns the sign of the pressure: above and below hear the drum note with opposite signs." },
        { "above_height", "Close to the head each mode is heard by its own shape; further off only what radiates." },
        { "above_offset", "Over the middle the (0,n) modes dominate, toward the rim the others." },
        { "below_level", "How much of the microphone below is in the mix: it hears the wires." },
        { "below_pan", "Where the microphone below stands between left and right." },
        { "below_inverted", "Below, the same motion of the heads makes the opposite pressure: inverting brings both into line." },
        { "below_distance", "How far below the resonant head the microphone stands." },
        { "distant_level", "How much of the distant microphone is in the mix." },
        { "distant_pan", "Where the distant microphone stands between left and right." },
        { "distant_inverted", "Turns the sign of the distant microphone." },
        { "distant_distance", "At a distance opposed heads radiate well and heads that move together hardly at all." },
        { "temperature", "Warm air is lighter and carries sound faster, so the drum rises a little." },
        { "humidity", "Moist air is slightly lighter than dry air." },
        { "pattern", "A short phrase to hear the tuning in use." },
        { "pattern_on", "Plays the pattern over and over." },
        { "pattern_synced", "Takes tempo and position from the host." },
        { "pattern_tempo", "Tempo while the pattern runs free: fast strokes land on what still rings." },
        { "morph_on", "Plays a drum between the snapshots A and B instead of the one that is set." },
        { "morph", "How far from A to B: notes move by equal intervals." },
        { "gain", "Level of the output; a drum at its own level can harm hearing, so begin low on headphones." },
        { "bypass", "Silences the drum and lets the host go on." },
    };
    if (id.contains ("_lug_"))
        return lug (id.startsWith ("batter"), id.getTrailingIntValue()).tip;
    const auto found = tips.find (id);
    return found != tips.end() ? found->second : juce::String();
}

} // namespace editor::strings
