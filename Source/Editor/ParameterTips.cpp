#include "Strings.h"

#include <map>

namespace editor::strings
{

juce::String tipFor (const juce::String& id)
{
    static const std::map<juce::String, juce::String> tips{
        { "batter_note", "Tap note of the batter. The interval stays, so the resonant head moves along." },
        { "interval", "How far the resonant head's tap note is above the batter's." },
        { "batter_cents", "Fine tuning of the batter alone; 100 cents are a semitone." },
        { "resonant_cents", "Fine tuning of the resonant head alone; 100 cents are a semitone." },
        { "concert_pitch", "Frequency of A4. Note names refer to it." },
        { "tuning_channel", "Notes on this MIDI channel tune the batter instead of striking it." },
        { "diameter", "At the same tension a wider head sounds lower." },
        { "depth", "The air between the heads couples them: more strongly in a shallow shell, less in a deep one." },
        { "bottom", "A resonant head, a closed bottom as on a kettle drum, or an open one." },
        { "lugs", "With more lugs each rod pulls less and the head is tuned more evenly." },
        { "vent_diameter", "Diameter of the air hole in the shell. A larger hole softens the air spring inside." },
        { "shell_material", "A stiff shell with low losses takes less energy from the heads." },
        { "shell_thickness", "A thicker shell is stiffer and rings higher." },
        { "hoop", "A heavier, stiffer hoop rings higher and longer in rimshots." },
        { "batter_film", "Thickness of each ply. A thicker head needs more tension for the same note." },
        { "batter_plies", "Two plies rub against each other, so overtones fade sooner." },
        { "batter_coating", "Coating adds weight and damping." },
        { "batter_dot", "A centre dot lowers the modes that move in the centre and leaves the others." },
        { "batter_dot_film", "Thickness of the centre dot." },
        { "batter_ring", "A ring bonded along the edge, where the high modes move most." },
        { "batter_ring_film", "Thickness of the edge ring." },
        { "resonant_film", "A thin resonant head gives the most sensitive snare response." },
        { "resonant_plies", "Resonant heads are single ply almost always; a second ply slows the snare response." },
        { "resonant_coating", "Coating adds weight and damping to the resonant head." },
        { "wires_on", "Strainer on: the wires lie against the resonant head. Off: they hang clear." },
        { "wire_strands", "More strands give a fuller, louder snare sound." },
        { "wire_mass", "A heavier strand leaves the head later and lands harder." },
        { "wire_tension", "Tight strands return at once and sound short; slack ones rattle on." },
        { "wire_press",
          "How far the strainer presses the wires into the head. Too far chokes them; below 0 is a gap, which rattles." },
        { "wire_unevenness", "Unequal strand tension blurs the snare sound." },
        { "patch_mass", "Gel or tape on the batter: it lowers and shortens the modes that move under it." },
        { "patch_size", "Diameter of the gel or tape." },
        { "patch_place", "Modes lose most where they move most: in the centre for (0,1), near the edge for the high ones." },
        { "patch_rub", "Damping of the material: a higher figure shortens the ring more." },
        { "muffle_ring_mass", "A loose ring on the edge damps the high modes more than the drum note." },
        { "muffle_ring_width", "A wider ring also damps the lower modes." },
        { "resonant_patch_mass", "Gel or tape on the resonant head: it shortens the drum note, which both heads share." },
        { "stick_mass", "A heavier stick stays on the head longer, which gives a darker sound." },
        { "stick_tip", "A harder tip leaves the head sooner and sounds brighter." },
        { "shaft_mass", "Weight of the shaft that meets the hoop in a rimshot or a cross-stick." },
        { "stroke_place", "The centre sounds only the (0,n) modes; towards the edge the others join." },
        { "stroke_angle", "Direction from the centre to the stroke, clockwise from lug 1, where the wires end." },
        { "rim_lag", "In a rimshot the shaft meets the hoop this long after the tip meets the head." },
        { "press_force", "How hard the hand presses in a buzz: more force gives faster bounces." },
        { "press_time", "How long the hand presses before it lifts the stick." },
        { "double_delay", "Time between the two strokes of a double." },
        { "double_share", "Speed of the second stroke, as a percentage of the first." },
        { "stroke_notes", "MIDI notes that strike the drum." },
        { "position_controller", "The MIDI controller that moves strokes between centre and edge." },
        { "above_level", "Level of the microphone above the batter head." },
        { "above_pan", "Pan of the microphone above." },
        { "above_inverted", "Inverts polarity. Above and below hear the drum note with opposite polarity." },
        { "above_height", "Distance above the batter head." },
        { "above_offset", "Distance from the centre. Over the centre the (0,n) modes dominate, near the edge the others." },
        { "below_level", "Level of the microphone below, which hears the wires." },
        { "below_pan", "Pan of the microphone below." },
        { "below_inverted", "Inverts polarity, so that the microphones below and above add up." },
        { "below_distance", "Distance below the resonant head." },
        { "distant_level", "Level of the distant microphone." },
        { "distant_pan", "Pan of the distant microphone." },
        { "distant_inverted", "Inverts the polarity of the distant microphone." },
        { "distant_distance", "Distance from the drum." },
        { "temperature", "Warm air is lighter and the drum sounds slightly higher." },
        { "humidity", "Humid air is slightly lighter than dry air." },
        { "pattern", "A short pattern, to hear the tuning in use." },
        { "pattern_on", "Plays the pattern in a loop." },
        { "pattern_synced", "Takes tempo and position from the host." },
        { "pattern_tempo", "Tempo of the pattern when it does not follow the host." },
        { "morph_on", "Plays a drum between A and B instead of the current one." },
        { "morph", "Position from A to B; notes move in equal intervals." },
        { "gain", "Output level. A drum at full level can harm your hearing: start low on headphones." },
        { "bypass", "Mutes the drum while the host plays on." },
    };
    if (id.contains ("_lug_"))
        return lug (id.startsWith ("batter"), id.getTrailingIntValue()).tip;
    const auto found = tips.find (id);
    return found != tips.end() ? found->second : juce::String();
}

} // namespace editor::strings
