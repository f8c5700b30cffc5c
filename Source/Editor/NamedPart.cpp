#include "NamedPart.h"

#include "Strings.h"

#include "Files/PartPresets.h"
#include "Plugin/SetValue.h"

#include <algorithm>
#include <cmath>

namespace editor
{
namespace
{
using plugin::Parameter;
using Measures = std::vector<std::pair<Parameter, double>>; // SI

NamedPart::Option optionOf (const std::string& name, const Measures& measures)
{
    NamedPart::Option option{ juce::String::fromUTF8 (name.c_str()), {} };
    plugin::Values values{};
    for (const auto& [parameter, si] : measures)
    {
        plugin::setSi (values, parameter, si);
        option.numbers.push_back ({ parameter, plugin::valueOf (values, parameter) });
    }
    return option;
}

Measures measuresOfBatter (const modal::HeadConstruction& head)
{
    Measures measures{ { Parameter::batterFilm, head.plyThickness },
                       { Parameter::batterPlies, head.plies },
                       { Parameter::batterCoating, head.coatingDensity },
                       { Parameter::batterDot, head.dotDiameter },
                       { Parameter::batterRing, head.ringWidth } };
    // The thickness of a dot or ring that is not there does not matter.
    if (head.dotDiameter > 0.0)
        measures.push_back ({ Parameter::batterDotFilm, head.dotThickness });
    if (head.ringWidth > 0.0)
        measures.push_back ({ Parameter::batterRingFilm, head.ringThickness });
    return measures;
}

NamedPart batterHead()
{
    NamedPart part{ "Batter head",
                    strings::batterHeadTip,
                    { Parameter::batterFilm, Parameter::batterPlies, Parameter::batterCoating, Parameter::batterDot,
                      Parameter::batterDotFilm, Parameter::batterRing, Parameter::batterRingFilm },
                    {} };
    for (const auto& preset : files::headPresets())
        part.options.push_back (optionOf (preset.description, measuresOfBatter (preset.part)));
    return part;
}

NamedPart resonantHead()
{
    NamedPart part{ "Resonant head",
                    strings::resonantHeadTip,
                    { Parameter::resonantFilm, Parameter::resonantPlies, Parameter::resonantCoating },
                    {} };
    for (const auto& preset : files::headPresets())
        if (const auto& head = preset.part; head.dotDiameter == 0.0 && head.ringWidth == 0.0)
            part.options.push_back (optionOf (preset.description, { { Parameter::resonantFilm, head.plyThickness },
                                                                    { Parameter::resonantPlies, head.plies },
                                                                    { Parameter::resonantCoating, head.coatingDensity } }));
    return part;
}

NamedPart snareWires()
{
    NamedPart part{ "Snare wires",
                    strings::snareWiresTip,
                    { Parameter::wireStrands, Parameter::wireMass, Parameter::wireTension, Parameter::wirePress,
                      Parameter::wireUnevenness },
                    {} };
    for (const auto& preset : files::wirePresets())
        part.options.push_back (optionOf (preset.description, { { Parameter::wireStrands, preset.part.strands },
                                                                { Parameter::wireMass, preset.part.strandMass },
                                                                { Parameter::wireTension, preset.part.strandTension },
                                                                { Parameter::wirePress, preset.part.pressDepth },
                                                                { Parameter::wireUnevenness, preset.part.unevenness } }));
    return part;
}

NamedPart stick()
{
    NamedPart part{ "Stick",
                    strings::stickTip,
                    { Parameter::stickLength, Parameter::stickDiameter, Parameter::stickTaper, Parameter::tipMaterial,
                      Parameter::tipDiameter, Parameter::tipLength, Parameter::neckDiameter, Parameter::woodDensity,
                      Parameter::woodModulus },
                    {} };
    for (const auto& preset : files::stickPresets())
        part.options.push_back (optionOf (preset.description, { { Parameter::stickLength, preset.part.length },
                                                                { Parameter::stickDiameter, preset.part.diameter },
                                                                { Parameter::stickTaper, preset.part.taperLength },
                                                                { Parameter::tipMaterial, static_cast<double> (preset.part.tipMaterial) },
                                                                { Parameter::tipDiameter, preset.part.tipDiameter },
                                                                { Parameter::tipLength, preset.part.tipLength },
                                                                { Parameter::neckDiameter, preset.part.neckDiameter },
                                                                { Parameter::woodDensity, preset.part.woodDensity },
                                                                { Parameter::woodModulus, preset.part.woodModulus } }));
    return part;
}

NamedPart placeToPlay()
{
    NamedPart part{ "Place", strings::placeTip, {}, {} };
    for (auto i = plugin::indexOf (Parameter::placeOn); i <= plugin::indexOf (Parameter::noiseRating); ++i)
        part.numbers.push_back (static_cast<Parameter> (i));

    part.options.push_back (optionOf (strings::noPlace, { { Parameter::placeOn, 0.0 } }));
    for (const auto& preset : files::placePresets())
    {
        const auto& place = preset.part;
        Measures measures{ { Parameter::placeOn, 1.0 },
                           { Parameter::placeKind, static_cast<double> (place.kind) },
                           { Parameter::roomVolume, place.volume },
                           { Parameter::lengthToHeight, place.lengthToHeight },
                           { Parameter::widthToHeight, place.widthToHeight },
                           { Parameter::drumFromWall, place.drumFromWall },
                           { Parameter::drumAside, place.drumAside },
                           { Parameter::drumHeight, place.drumHeight },
                           { Parameter::listenerDistance, place.listenerDistance },
                           { Parameter::listenerAside, place.listenerAside },
                           { Parameter::listenerHeight, place.listenerHeight },
                           { Parameter::noiseRating, place.noiseRating } };
        if (place.kind == place::Place::Kind::room)
            for (std::size_t octave = 0; octave < place.times.size(); ++octave)
                measures.push_back ({ plugin::reverberation (octave), place.times[octave] });
        part.options.push_back (optionOf (preset.description, measures));
    }
    return part;
}

} // namespace

int NamedPart::find (const plugin::Processor& processor) const
{
    const auto isSet = [&] (const auto& number)
    {
        const auto& [parameter, wanted] = number;
        return std::abs (processor.parameter (parameter).plainValue() - static_cast<double> (wanted)) <
               0.6 * plugin::specOf (parameter).step;
    };
    const auto found =
        std::find_if (options.begin(), options.end(),
                      [&] (const Option& option) { return std::all_of (option.numbers.begin(), option.numbers.end(), isSet); });
    return found == options.end() ? -1 : static_cast<int> (found - options.begin());
}

juce::StringArray NamedPart::names() const
{
    juce::StringArray all;
    for (const auto& option : options)
        all.add (option.name);
    return all;
}

const std::vector<NamedPart>& namedParts()
{
    static const std::vector<NamedPart> parts{ batterHead(), resonantHead(), snareWires(), stick(), placeToPlay() };
    return parts;
}

ValueBinding bindingOf (plugin::Processor& processor, const NamedPart& part)
{
    ValueBinding binding;
    binding.low = 0.0;
    binding.high = static_cast<double> (part.options.size()) - 1.0;
    binding.step = binding.fineStep = 1.0;
    binding.get = [&] { return static_cast<double> (part.find (processor)); };
    binding.set = [&] (double index)
    {
        const auto& option = part.options[static_cast<std::size_t> (
            juce::jlimit (0, static_cast<int> (part.options.size()) - 1, juce::roundToInt (index)))];
        auto values = processor.state().live;
        for (const auto& [parameter, value] : option.numbers)
            values[plugin::indexOf (parameter)] = value;
        processor.setValues (values, option.name);
    };
    binding.toText = [&] (double index)
    { return index < 0.0 ? juce::String (strings::customPart) : part.options[static_cast<std::size_t> (index)].name; };
    binding.type = [&part, set = binding.set, get = binding.get] (const juce::String& typed) -> juce::String
    {
        const auto names = part.names();
        const int index = names.indexOf (typed.trim(), true);
        if (index >= 0)
            set (index);
        else if (! (get() < 0.0 && typed.trim().equalsIgnoreCase (strings::customPart)))
            return part.name + ": \"" + typed + "\" is not one of: " + names.joinIntoString ("; ");
        return {};
    };
    return binding;
}

} // namespace editor
