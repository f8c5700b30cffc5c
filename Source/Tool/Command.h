#pragma once

#include "Arguments.h"

#include <string>
#include <vector>

namespace tool
{

/** One of the program's subcommands. */
struct Command
{
    const char* name;
    const char* summary;              ///< one line
    const char* usage;                ///< the arguments after the name
    const char* notes;                ///< paragraphs below the options
    std::vector<OptionGroup> options; ///< its own
    bool takesDrum = true;            ///< whether it also has tunedDrumOptions()
    void (*run) (const std::vector<std::string>& words, const Command&);

    std::vector<OptionGroup> allOptions() const;

    /** The words as arguments of this command. Throws modal::InputError. */
    Arguments read (const std::vector<std::string>& words) const;

    std::string help() const;
};

const Command& predictCommand();
const Command& compareCommand();
const Command& modesCommand();
const Command& renderCommand();
const Command& presetsCommand();
const Command& listenCommand();
const Command& fitCommand();
const Command& planCommand();
const Command& sheetCommand();
const Command& lessonCommand();
const Command& atlasCommand();
const Command& findCommand();

} // namespace tool
