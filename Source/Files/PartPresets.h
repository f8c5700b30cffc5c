#pragma once

#include "NearestWord.h"

#include "Modal/InputError.h"
#include "Modal/hardware/Stick.h"
#include "Modal/hardware/Wires.h"
#include "Modal/heads/Head.h"
#include "Place/Place.h"

#include <string>
#include <string_view>
#include <vector>

namespace files
{

/** A head, a set of wires, a stick or a place that comes with the program, from Presets/heads, wires, sticks or places. */
template <class Part>
struct PartPreset
{
    std::string name;        ///< of its file without ".json": what a person types
    std::string description; ///< in plain trade words
    Part part;
    std::string_view text; ///< the document
};

/** All of them, by name. */
const std::vector<PartPreset<modal::HeadConstruction>>& headPresets();
const std::vector<PartPreset<modal::WireSpec>>& wirePresets();
const std::vector<PartPreset<modal::StickSpec>>& stickPresets();
const std::vector<PartPreset<place::Place>>& placePresets();

/** The one of that name, or nullptr. */
template <class Part>
const PartPreset<Part>* findPart (const std::vector<PartPreset<Part>>& presets, std::string_view name)
{
    for (const auto& preset : presets)
        if (preset.name == name)
            return &preset;

    return nullptr;
}

/** Their names. */
template <class Part>
std::vector<std::string> namesOf (const std::vector<PartPreset<Part>>& presets)
{
    std::vector<std::string> names;

    for (const auto& preset : presets)
        names.push_back (preset.name);

    return names;
}

/** The preset of that name, or InputError on `path`. @param whatItIs  "wires": for the message */
template <class Part>
const Part& partNamed (const std::vector<PartPreset<Part>>& presets, const std::string& name, const char* whatItIs,
                       const std::string& path)
{
    if (const auto* preset = findPart (presets, name))
        return preset->part;

    throw modal::InputError (path, '"' + name + '"', std::string (whatItIs) + " by name: " + listedFor (name, namesOf (presets)));
}

/** A place by the name of a preset, or else from a file of that path. Throws modal::InputError, on `field` where there is
 * neither. */
place::Place openPlace (const std::string& presetOrPath, const std::string& field);

} // namespace files
