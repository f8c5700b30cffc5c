#pragma once

#include "Modal/heads/Head.h"
#include "Modal/hardware/Stick.h"
#include "Modal/hardware/Wires.h"

#include <string>
#include <string_view>
#include <vector>

namespace files
{

/** A head, a set of wires or a stick that comes with the program, from Presets/heads, wires or sticks. */
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

/** The one of that name, or nullptr. */
template <class Part>
const PartPreset<Part>* findPart (const std::vector<PartPreset<Part>>& presets, std::string_view name)
{
    for (const auto& preset : presets)
        if (preset.name == name)
            return &preset;

    return nullptr;
}

} // namespace files
