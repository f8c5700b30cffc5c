#include "NamedPart.h"

#include "StrikerPicture.h"
#include "Strings.h"

#include "Files/PartPresets.h"
#include "Plugin/DrumRequest.h"
#include "Plugin/SetValue.h"

#include <algorithm>
#include <cmath>

namespace editor
{
namespace
{
using plugin::Parameter;
using plugin::PartNumbers;

NamedPart::Option optionOf (const std::string& name, const PartNumbers& numbers)
{
    NamedPart::Option option{ juce::String::fromUTF8 (name.c_str()), {} };
    plugin::Values values{};
    for (const auto& [parameter, si] : numbers)
    {
        plugin::setSi (values, parameter, si);
        option.numbers.push_back ({ parameter, plugin::valueOf (values, parameter) });
    }
    return option;
}

/** A part without options yet. `numbers` are those of any of its kind. */
NamedPart partOf (const char* name, const char* tip, const PartNumbers& numbers)
{
    NamedPart part{ name, tip, {}, {} };
    for (const auto& number : numbers)
        part.numbers.push_back (number.first);
    return part;
}

PartNumbers without (std::initializer_list<Parameter> left, PartNumbers numbers)
{
    numbers.erase (std::remove_if (numbers.begin(), numbers.end(),
                                   [&] (const auto& number)
                                   { return std::find (left.begin(), left.end(), number.first) != left.end(); }),
                   numbers.end());
    return numbers;
}

NamedPart batterHead()
{
    auto part = partOf ("Batter head", strings::batterHeadTip, plugin::batterNumbers ({}));
    for (const auto& preset : files::headPresets())
    {
        const auto& head = preset.part;
        auto numbers = plugin::batterNumbers (head);
        // The thickness of a dot or ring that is not there does not matter.
        if (head.dotDiameter == 0.0)
            numbers = without ({ Parameter::batterDotFilm }, numbers);
        if (head.ringWidth == 0.0)
            numbers = without ({ Parameter::batterRingFilm }, numbers);
        part.options.push_back (optionOf (preset.description, numbers));
    }
    return part;
}

NamedPart resonantHead()
{
    auto part = partOf ("Resonant head", strings::resonantHeadTip, plugin::resonantNumbers ({}));
    for (const auto& preset : files::headPresets())
        if (preset.part.dotDiameter == 0.0 && preset.part.ringWidth == 0.0)
            part.options.push_back (optionOf (preset.description, plugin::resonantNumbers (preset.part)));
    return part;
}

/** The strainer is thrown by itself. */
PartNumbers setOfWires (const modal::WireSpec& wires)
{
    return without ({ Parameter::wiresOn }, plugin::wireNumbers (wires));
}

NamedPart snareWires()
{
    auto part = partOf ("Snare wires", strings::snareWiresTip, setOfWires ({}));
    for (const auto& preset : files::wirePresets())
        part.options.push_back (optionOf (preset.description, setOfWires (preset.part)));
    return part;
}

NamedPart stick()
{
    auto part = partOf ("Stick", strings::stickTip, plugin::stickNumbers ({}));
    for (const auto& preset : files::stickPresets())
        part.options.push_back (optionOf (preset.description, plugin::stickNumbers (preset.part)));
    part.picture = [] (juce::Graphics& g, const plugin::Processor& processor, int option, juce::Rectangle<float> area, juce::Colour colour)
    {
        const auto& presets = files::stickPresets();
        drawStriker (
            g, option >= 0 ? presets[static_cast<std::size_t> (option)].part : plugin::stickOf (processor.effectiveValues()),
            area, colour);
    };
    return part;
}

/** A place that is on. In the open air the reverberation times do not matter. */
PartNumbers placeInUse (const place::Place& place)
{
    auto numbers = plugin::placeNumbers (place);
    numbers.insert (numbers.begin(), { Parameter::placeOn, 1.0 });
    if (place.kind == place::Place::Kind::openAir)
        for (std::size_t octave = 0; octave < place.times.size(); ++octave)
            numbers = without ({ plugin::reverberation (octave) }, numbers);
    return numbers;
}

NamedPart placeToPlay()
{
    auto part = partOf ("Place", strings::placeTip, placeInUse ({}));
    part.options.push_back (optionOf (strings::noPlace, { { Parameter::placeOn, 0.0 } }));
    for (const auto& preset : files::placePresets())
        part.options.push_back (optionOf (preset.description, placeInUse (preset.part)));
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
