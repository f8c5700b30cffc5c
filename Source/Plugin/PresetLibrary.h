#pragma once

#include "StateDocument.h"

#include <juce_core/juce_core.h>
#include <juce_data_structures/juce_data_structures.h>

namespace plugin
{

/** A preset in the list. */
struct PresetEntry
{
    juce::String name;    ///< of the tuning, or of a user's preset
    juce::String drum;    ///< name of the drum; empty for a user's preset
    bool isUsers = false; ///< saved by the user: can be renamed and deleted

    // Where it is stored: a built-in drum and the index of its tuning, or a file.
    std::string builtIn;
    std::size_t tuning = 0;
    juce::File file;
};

/** The presets included in the plugin, and the user's in the platform's usual folder. Message thread. Does not throw: functions
    return an error message, empty on success. */
class PresetLibrary
{
public:
    /** @param folder   of the user's presets; created when the first is saved */
    explicit PresetLibrary (juce::File folder = usualFolder());

    /** In the user's application data: Snarewright/Presets. */
    static juce::File usualFolder();

    std::vector<PresetEntry> entries() const;

    /** Loads a preset into `state`. A built-in one sets drum and tuning and leaves the rest unchanged. */
    juce::String load (const PresetEntry&, State& state) const;

    /** Saves under a name, replacing a user's preset of that name. Undo restores the replaced one. */
    juce::String save (const juce::String& name, const State&, juce::UndoManager&);
    juce::String rename (const PresetEntry&, const juce::String& newName, juce::UndoManager&);
    juce::String remove (const PresetEntry&, juce::UndoManager&);

    struct Imported
    {
        juce::String fault;  ///< why nothing was read; empty on success
        juce::String remark; ///< what of the file could not be taken; empty if all was
    };

    /** Reads a drum file, or a preset of an older version, from anywhere. A drum file's first tuning is the sound; the others go
       to the snapshots that are free. */
    Imported importFile (const juce::File&, State& state) const;

    /** Writes a drum file, which the command line program reads too: the drum with its tuning and those of the snapshots that are
       of the same drum, microphones, pattern, and what else the plugin keeps. */
    juce::String exportFile (const juce::File&, const State&) const;

private:
    juce::File fileFor (const juce::String& name) const;

    juce::File folder;
};

} // namespace plugin
