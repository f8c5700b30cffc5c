#include "ParameterTable.h"

#include "PatternBook.h"

#include "Files/DrumWords.h"
#include "Files/Fields.h"
#include "Files/HoopNames.h"
#include "Modal/hardware/Material.h"
#include "Place/Place.h"
#include "Score/StereoMix.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace plugin
{
namespace
{
using files::Quantity;

const Quantity resistance{ "resistance", { { "n_s_per_m3", "N s/m3", 1.0, 0.0, { "N·s/m³" } } }, true };
const Quantity tempo{ "tempo", { { "bpm", "bpm", 1.0 } }, true };

const std::vector<std::string> bottoms{ "resonant head", "closed", "open" };
const std::vector<std::string> noteSets{ "all strokes", "37, 38 and 40 only" };

std::vector<std::string> hoopDescriptions()
{
    std::vector<std::string> all;
    for (const auto& hoop : files::hoopNames())
        all.emplace_back (hoop.description);
    return all;
}

/** A parameter with a physical unit. */
ParameterSpec measured (const char* id, const char* name, const char* group, Effect effect, const Quantity& quantity,
                        const char* unitKey, double low, double high, double initial, double step = 0.0, double middle = 0.0)
{
    return { id, name, group, Measure::quantity, effect, low, high, initial, step, middle, &quantity, unitKey };
}

/** A number of a drum with its limits and its default. */
template <class Owner>
ParameterSpec ofDrum (const char* id, const char* name, const char* group, Effect effect, double Owner::*member,
                      const char* unitKey, double step = 0.0, double middle = 0.0)
{
    const auto& number = modal::numberOf (member);
    auto spec = measured (id, name, group, effect, files::quantityOf (number.dimension), unitKey, 0.0, 0.0, 0.0, step, middle);
    // Conversion to the unit and back leaves a rounding error: 49.999999999999996 mm.
    const auto inUnit = [&] (double si) { return std::round (1.0e9 * spec.unit().fromSi (si)) / 1.0e9; };
    spec.low = inUnit (number.low);
    spec.high = inUnit (number.high);
    spec.initial = inUnit (Owner{}.*member);
    return spec;
}

/** A smaller range than a drum file may use, so that the slider is of use. */
ParameterSpec within (double low, double high, ParameterSpec spec)
{
    if (low < spec.low || high > spec.high)
        throw std::logic_error (std::string (spec.id) + " has a wider range than drums may have");

    spec.low = low;
    spec.high = high;
    return spec;
}

ParameterSpec startingAt (double initial, ParameterSpec spec)
{
    spec.initial = initial;
    return spec;
}

ParameterSpec plain (const char* id, const char* name, const char* group, Measure measure, Effect effect, double low, double high,
                     double initial, double step = 0.0)
{
    return { id, name, group, measure, effect, low, high, initial, step };
}

/** A whole number of a drum. */
template <class Owner>
ParameterSpec ofDrum (const char* id, const char* name, const char* group, Effect effect, const modal::Count<Owner>& count)
{
    return plain (id, name, group, Measure::whole, effect, count.low, count.high, Owner{}.*count.member, 1.0);
}

ParameterSpec choice (const char* id, const char* name, const char* group, Effect effect, std::vector<std::string> words)
{
    ParameterSpec spec{ id, name, group, Measure::choice, effect, 0.0, static_cast<double> (words.size()) - 1.0, 0.0, 1.0 };
    spec.words = std::move (words);
    return spec;
}

ParameterSpec renamed (std::vector<std::string> formerWords, ParameterSpec spec)
{
    spec.formerWords = std::move (formerWords);
    return spec;
}

ParameterSpec toggle (const char* id, const char* name, const char* group, Effect effect, bool initial)
{
    return { id, name, group, Measure::toggle, effect, 0.0, 1.0, initial ? 1.0 : 0.0, 1.0 };
}

ParameterSpec called (const char* lowestText, ParameterSpec spec)
{
    spec.lowestText = lowestText;
    return spec;
}

/** Identifiers of the lug parameters; static, as the table keeps pointers. */
const char* lugId (bool isBatter, int lug)
{
    static const auto ids = []
    {
        std::vector<std::string> all;
        for (const char* head : { "resonant", "batter" })
            for (int number = 1; number <= lugParameters; ++number)
                all.push_back (std::string (head) + "_lug_" + std::to_string (number));
        return all;
    }();
    return ids[static_cast<std::size_t> ((isBatter ? lugParameters : 0) + lug)].c_str();
}

std::vector<ParameterSpec> tuning()
{
    const auto* group = "Tuning";
    // The range of notes from the slackest thick head of 26 in to the yield strength of a thin one of 8 in. A note that the
    // chosen head cannot reach is refused when the drum is solved.
    return { plain ("batter_note", "Batter note", group, Measure::note, Effect::modes, 33.0, 84.0, 56.0, 0.01),
             plain ("interval", "Interval", group, Measure::interval, Effect::modes, -12.0, 24.0, 5.0, 0.01),
             plain ("batter_cents", "Batter fine", group, Measure::cents, Effect::modes, -100.0, 100.0, 0.0, 0.1),
             plain ("resonant_cents", "Resonant fine", group, Measure::cents, Effect::modes, -100.0, 100.0, 0.0, 0.1),
             ofDrum ("concert_pitch", "Concert pitch", group, Effect::modes, &modal::ConcertPitch::a4, "hz", 0.1),
             called ("off", plain ("tuning_channel", "Tuning MIDI channel", group, Measure::whole, Effect::playing, 0.0, 16.0,
                                   0.0, 1.0)) };
}

std::vector<ParameterSpec> drum()
{
    const auto* group = "Drum";
    return { within (8.0, 26.0,
                     ofDrum ("diameter", "Diameter", group, Effect::modes, &modal::DrumSpec::diameter, "in", 0.0, 14.0)),
             within (2.0, 20.0, ofDrum ("depth", "Depth", group, Effect::modes, &modal::DrumSpec::depth, "in", 0.0, 6.5)),
             choice ("bottom", "Bottom", group, Effect::modes, bottoms),
             ofDrum ("lugs", "Lugs", group, Effect::modes, modal::lugCount),
             called ("none", ofDrum ("vent_diameter", "Vent diameter", group, Effect::modes, &modal::Vent::diameter, "mm")),
             choice ("shell_material", "Shell material", group, Effect::modes, modal::materialNames()),
             ofDrum ("shell_thickness", "Shell thickness", group, Effect::modes, &modal::Shell::thickness, "mm", 0.0, 6.0),
             renamed ({ "steel flanged, 1.6 mm", "steel flanged, 2.3 mm", "cast", "wood" },
                      choice ("hoop", "Hoops", group, Effect::drum, hoopDescriptions())) };
}

std::vector<ParameterSpec> batterHead()
{
    const auto* group = "Batter head";
    return {
        within (1.0, 19.0,
                startingAt (10.0, ofDrum ("batter_film", "Batter thickness per ply", group, Effect::modes,
                                          &modal::HeadConstruction::plyThickness, "mil", 0.0, 8.0))),
        ofDrum ("batter_plies", "Batter plies", group, Effect::modes, modal::plyCount),
        called ("none", startingAt (30.0, ofDrum ("batter_coating", "Batter coating", group, Effect::modes,
                                                  &modal::HeadConstruction::coatingDensity, "g_per_m2", 0.0, 40.0))),
        called ("none",
                measured ("batter_dot", "Batter dot diameter", group, Effect::modes, Quantity::length, "mm", 0.0, 200.0, 0.0)),
        measured ("batter_dot_film", "Batter dot thickness", group, Effect::modes, Quantity::thickness, "mil", 0.0, 19.0, 7.5),
        called ("none",
                measured ("batter_ring", "Batter ring width", group, Effect::modes, Quantity::length, "mm", 0.0, 80.0, 0.0)),
        measured ("batter_ring_film", "Batter ring thickness", group, Effect::modes, Quantity::thickness, "mil", 0.0, 19.0, 10.0)
    };
}

std::vector<ParameterSpec> resonantHead()
{
    const auto* group = "Resonant head";
    return { within (1.0, 19.0,
                     startingAt (3.0, ofDrum ("resonant_film", "Resonant thickness per ply", group, Effect::modes,
                                              &modal::HeadConstruction::plyThickness, "mil", 0.0, 4.0))),
             ofDrum ("resonant_plies", "Resonant plies", group, Effect::modes, modal::plyCount),
             called ("none", startingAt (0.0, ofDrum ("resonant_coating", "Resonant coating", group, Effect::modes,
                                                      &modal::HeadConstruction::coatingDensity, "g_per_m2", 0.0, 40.0))) };
}

std::vector<ParameterSpec> lugCents()
{
    std::vector<ParameterSpec> specs;

    for (const bool isBatter : { true, false })
        for (int lug = 0; lug < lugParameters; ++lug)
        {
            auto spec = plain (lugId (isBatter, lug), "", isBatter ? "Batter lugs" : "Resonant lugs", Measure::cents,
                               Effect::modes, -200.0, 200.0, 0.0, 0.1);
            spec.name = (isBatter ? "Batter lug " : "Resonant lug ") + std::to_string (lug + 1);
            specs.push_back (std::move (spec));
        }

    return specs;
}

std::vector<ParameterSpec> wires()
{
    const auto* group = "Wires";
    return { toggle ("wires_on", "Wires on", group, Effect::drum, true),
             ofDrum ("wire_strands", "Strands", group, Effect::drum, modal::strandCount),
             ofDrum ("wire_mass", "Strand mass", group, Effect::drum, &modal::WireSpec::strandMass, "g", 0.0, 1.1),
             ofDrum ("wire_tension", "Strainer tension per strand", group, Effect::drum, &modal::WireSpec::strandTension, "n",
                     0.0, 4.0),
             ofDrum ("wire_press", "Wire pressure", group, Effect::drum, &modal::WireSpec::pressDepth, "mm"),
             ofDrum ("wire_unevenness", "Strand tension spread", group, Effect::drum, &modal::WireSpec::unevenness, "percent") };
}

std::vector<ParameterSpec> muffling()
{
    const auto* group = "Muffling";
    return { called ("none", startingAt (0.0, ofDrum ("patch_mass", "Patch mass", group, Effect::modes,
                                                      &modal::MufflingItem::mass, "g", 0.0, 5.0))),
             ofDrum ("patch_size", "Patch diameter", group, Effect::modes, &modal::MufflingItem::size, "mm", 0.0, 40.0),
             measured ("patch_place", "Patch distance from centre", group, Effect::modes, Quantity::share, "percent", 0.0, 100.0,
                       70.0),
             measured ("patch_rub", "Patch damping", group, Effect::modes, resistance, "n_s_per_m3", 0.0, 10000.0, 270.0, 0.0,
                       200.0),
             called ("none", startingAt (0.0, ofDrum ("muffle_ring_mass", "Muffling ring mass", group, Effect::modes,
                                                      &modal::MufflingItem::mass, "g", 0.0, 10.0))),
             measured ("muffle_ring_width", "Muffling ring width", group, Effect::modes, Quantity::length, "mm", 5.0, 80.0, 25.0),
             called ("none", startingAt (0.0, ofDrum ("resonant_patch_mass", "Resonant patch mass", group, Effect::modes,
                                                      &modal::MufflingItem::mass, "g", 0.0, 5.0))) };
}

std::vector<ParameterSpec> strokes()
{
    const auto* group = "Stick and stroke";
    using modal::StickSpec;
    return {
        ofDrum ("stick_length", "Stick: length", group, Effect::drum, &StickSpec::length, "mm", 0.1),
        ofDrum ("stick_diameter", "Stick: diameter", group, Effect::drum, &StickSpec::diameter, "mm", 0.1),
        ofDrum ("stick_taper", "Stick: taper", group, Effect::drum, &StickSpec::taperLength, "mm", 0.1),
        choice ("stick_tip_material", "Stick: tip", group, Effect::drum, files::tipMaterialWords),
        ofDrum ("stick_tip_diameter", "Stick: tip diameter", group, Effect::drum, &StickSpec::tipDiameter, "mm", 0.1),
        ofDrum ("stick_tip_length", "Stick: tip length", group, Effect::drum, &StickSpec::tipLength, "mm", 0.1),
        ofDrum ("stick_neck", "Stick: neck diameter", group, Effect::drum, &StickSpec::neckDiameter, "mm", 0.1),
        ofDrum ("stick_rods", "Stick: rods of a bundle", group, Effect::drum, &StickSpec::rodDiameter, "mm", 0.1),
        ofDrum ("stick_density", "Stick: wood density", group, Effect::drum, &StickSpec::woodDensity, "kg_per_m3", 1.0),
        ofDrum ("stick_modulus", "Stick: wood stiffness", group, Effect::drum, &StickSpec::woodModulus, "gpa", 0.1),
        measured ("stroke_place", "Stroke: distance from centre", group, Effect::playing, Quantity::share, "percent", 0.0, 98.0,
                  25.0),
        measured ("stroke_angle", "Stroke: angle from wires", group, Effect::playing, Quantity::angle, "deg", 0.0, 360.0, 34.0),
        measured ("rim_lag", "Rimshot: rim delay", group, Effect::playing, Quantity::time, "ms", -1.0, 1.0, 0.2),
        measured ("press_force", "Buzz: hand pressure", group, Effect::playing, Quantity::force, "n", 0.5, 40.0, 2.5, 0.0, 2.5),
        measured ("press_time", "Buzz: duration", group, Effect::playing, Quantity::time, "ms", 20.0, 2000.0, 250.0, 0.0, 250.0),
        measured ("double_delay", "Double stroke: delay", group, Effect::playing, Quantity::time, "ms", 20.0, 500.0, 70.0, 0.0,
                  90.0),
        measured ("double_share", "Double stroke: second stroke speed", group, Effect::playing, Quantity::share, "percent", 10.0,
                  120.0, 80.0),
        choice ("stroke_notes", "MIDI notes", group, Effect::playing, noteSets),
        called ("off", plain ("position_controller", "MIDI controller for position", group, Measure::whole, Effect::playing, 0.0,
                              119.0, 0.0, 1.0)),
        ofDrum ("brush_wires", "Brush: wires", group, Effect::drum, &StickSpec::brushWires, "", 1.0),
        ofDrum ("brush_wire_diameter", "Brush: wire diameter", group, Effect::drum, &StickSpec::brushWireDiameter, "mm", 0.01),
        ofDrum ("brush_wire_length", "Brush: wire length", group, Effect::drum, &StickSpec::brushWireLength, "mm", 1.0),
        ofDrum ("brush_width", "Brush: width of the fan", group, Effect::drum, &StickSpec::brushWidth, "mm", 1.0),
        choice ("brush_material", "Brush: wire", group, Effect::drum, files::brushMaterialWords),
        measured ("sweep_force", "Sweep: pressure", group, Effect::playing, Quantity::force, "n", 0.02, 3.0, 0.3, 0.0, 0.3)
    };
}

std::vector<ParameterSpec> microphones()
{
    const auto* group = "Microphones";
    const auto level = [&] (const char* id, const char* name, double initial)
    { return called ("silent", plain (id, name, group, Measure::decibels, Effect::playing, -60.0, 24.0, initial, 0.01)); };
    const auto pan = [&] (const char* id, const char* name)
    { return plain (id, name, group, Measure::pan, Effect::playing, -1.0, 1.0, 0.0, 0.01); };
    const auto inverted = [&] (const char* id, const char* name) { return toggle (id, name, group, Effect::playing, false); };
    const auto length = [&] (const char* id, const char* name, const char* unit, double low, double high, double initial)
    { return measured (id, name, group, Effect::drum, Quantity::length, unit, low, high, initial); };

    return { level ("above_level", "Above: level", 0.0),
             pan ("above_pan", "Above: pan"),
             inverted ("above_inverted", "Above: polarity inverted"),
             length ("above_height", "Above: height", "mm", 20.0, 1000.0, 80.0),
             length ("above_offset", "Above: offset from centre", "mm", 0.0, 500.0, 117.0),
             level ("below_level", "Below: level", -6.0),
             pan ("below_pan", "Below: pan"),
             inverted ("below_inverted", "Below: polarity inverted"),
             length ("below_distance", "Below: distance", "mm", 20.0, 1000.0, 100.0),
             level ("distant_level", "Distant: level", 6.0),
             pan ("distant_pan", "Distant: pan"),
             inverted ("distant_inverted", "Distant: polarity inverted"),
             length ("distant_distance", "Distant: distance", "m", 0.3, 15.0, 1.9) };
}

std::vector<ParameterSpec> air()
{
    return { ofDrum ("temperature", "Air temperature", "Air", Effect::modes, &modal::Weather::temperature, "c", 0.0, 20.0),
             ofDrum ("humidity", "Air humidity", "Air", Effect::modes, &modal::Weather::relativeHumidity, "percent") };
}

std::vector<ParameterSpec> places()
{
    const auto* group = "Place";
    using place::Place;
    const auto number = [&] (const char* id, const char* name, double Place::*member, const char* unit, double step, double middle = 0.0)
    { return ofDrum (id, name, group, Effect::place, member, unit, step, middle); };
    const auto time = [&] (const char* id, const char* name, std::size_t octave)
    {
        return measured (id, name, group, Effect::place, Quantity::time, "s", place::timeRange.low, place::timeRange.high, Place{}.times[octave],
                         0.01, 1.0);
    };
    const auto level = [&] (const char* id, const char* name, double high, double initial)
    { return called ("silent", plain (id, name, group, Measure::decibels, Effect::playing, -60.0, high, initial, 0.01)); };

    return { toggle ("place_on", "Place on", group, Effect::place, false),
             choice ("place_kind", "Place: kind", group, Effect::place, files::placeKindWords),
             number ("room_volume", "Room: volume", &Place::volume, "m3", 1.0, 2000.0),
             number ("length_to_height", "Room: length to height", &Place::lengthToHeight, "", 0.01, 3.0),
             number ("width_to_height", "Room: width to height", &Place::widthToHeight, "", 0.01, 2.0),
             time ("reverberation_125", "Reverberation at 125 Hz", 0),
             time ("reverberation_250", "Reverberation at 250 Hz", 1),
             time ("reverberation_500", "Reverberation at 500 Hz", 2),
             time ("reverberation_1000", "Reverberation at 1 kHz", 3),
             time ("reverberation_2000", "Reverberation at 2 kHz", 4),
             time ("reverberation_4000", "Reverberation at 4 kHz", 5),
             time ("reverberation_8000", "Reverberation at 8 kHz", 6),
             number ("drum_from_wall", "Drum: distance from wall", &Place::drumFromWall, "m", 0.01, 5.0),
             number ("drum_aside", "Drum: off the centre line", &Place::drumAside, "m", 0.01),
             number ("drum_height", "Drum: height", &Place::drumHeight, "m", 0.01, 2.0),
             number ("listener_distance", "Listener: distance from drum", &Place::listenerDistance, "m", 0.01, 15.0),
             number ("listener_aside", "Listener: off the centre line", &Place::listenerAside, "m", 0.01),
             number ("listener_height", "Listener: height", &Place::listenerHeight, "m", 0.01, 4.0),
             number ("noise_rating", "Background noise, NR", &Place::noiseRating, "", 0.1),
             level ("place_level", "Place: level", 48.0, score::usualPlaceLevel),
             level ("place_microphones", "Microphones in the place: level", 12.0, -60.0) };
}

std::vector<ParameterSpec> rest()
{
    return { renamed (formerPatternNames(), choice ("pattern", "Pattern", "Patterns", Effect::playing, patternNames())),
             toggle ("pattern_on", "Pattern on", "Patterns", Effect::playing, false),
             toggle ("pattern_synced", "Sync to host", "Patterns", Effect::playing, false),
             measured ("pattern_tempo", "Pattern tempo", "Patterns", Effect::playing, tempo, "bpm", 30.0, 300.0, 100.0),

             toggle ("morph_on", "Morph between A and B", "Output", Effect::modes, false),
             measured ("morph", "Morph from A to B", "Output", Effect::modes, Quantity::share, "percent", 0.0, 100.0, 0.0),
             called ("silent",
                     plain ("gain", "Output gain", "Output", Measure::decibels, Effect::playing, -60.0, 24.0, 0.0, 0.01)),
             toggle ("bypass", "Bypass", "Output", Effect::playing, false) };
}

/** Gives continuous parameters a decimal step of about 1e-5 of their range, which a float can represent, so that a value passed
   through a host comes back unchanged. */
ParameterSpec withStep (ParameterSpec spec)
{
    if (spec.step == 0.0)
        spec.step = std::pow (10.0, std::floor (std::log10 (1.0e-5 * (spec.high - spec.low))));
    return spec;
}
} // namespace

const files::Unit& ParameterSpec::unit() const
{
    for (const auto& candidate : quantity->units)
        if (std::string_view (candidate.key) == unitKey)
            return candidate;

    throw std::logic_error (std::string ("no unit ") + unitKey + " for " + id);
}

double ParameterSpec::toSi (double value) const
{
    return measure == Measure::quantity ? unit().toSi (value) : value;
}

double ParameterSpec::fromSi (double si) const
{
    return measure == Measure::quantity ? unit().fromSi (si) : si;
}

double ParameterSpec::snapped (double value) const noexcept
{
    // In steps per unit if there are many, so that decimals stay exact.
    const auto perUnit = std::round (1.0 / step);
    const auto stepped = step < 1.0 ? std::round (value * perUnit) / perUnit : std::round (value / step) * step;
    return std::clamp (stepped, low, high);
}

const std::array<ParameterSpec, parameterCount>& parameterTable()
{
    static const auto table = []
    {
        std::array<ParameterSpec, parameterCount> specs;
        std::size_t next = 0;

        for (const auto& group : { tuning(), drum(), batterHead(), resonantHead(), lugCents(), wires(), muffling(), strokes(),
                                   microphones(), air(), places(), rest() })
            for (const auto& spec : group)
                specs.at (next++) = withStep (spec);

        if (next != parameterCount)
            throw std::logic_error ("the table of parameters does not match their enumeration");

        return specs;
    }();

    return table;
}

const ParameterSpec& specOf (Parameter parameter)
{
    return parameterTable()[indexOf (parameter)];
}

Parameter findParameter (std::string_view id)
{
    const auto& table = parameterTable();
    const auto found = std::find_if (table.begin(), table.end(), [&] (const auto& spec) { return id == spec.id; });
    return static_cast<Parameter> (found - table.begin());
}

} // namespace plugin
