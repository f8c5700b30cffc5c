#pragma once

#include "StateDocument.h"

#include <juce_core/juce_core.h>
#include <juce_data_structures/juce_data_structures.h>

namespace plugin
{

/** A sound that can be loaded. */
struct PresetEntry
{
    juce::String name;    ///< of the tuning, or of a user's preset
    juce::String drum;    ///< name of the drum; empty for a user's preset
    bool isUsers = false; ///< saved by the user: can be renamed and deleted

    // Where it is: a built-in drum and the place of the tuning in it, or a file.
    std::string builtIn;
    std::size_t tuning = 0;
    juce::File file;
};

/** The presets that come with the plugin, and the user's in the platform's usual place. Message thread. Nothing here throws: what
    went wrong is returned as one sentence, empty if all went well. */
class PresetLibrary
{
public:
    /** @param folder   of the user's presets; made when the first is saved */
    explicit PresetLibrary (juce::File folder = usualFolder());

    /** In the user's application data: Snarewright/Presets. */
    static juce::File usualFolder();

    std::vector<PresetEntry> entries() const;

    /** Puts the preset's sound over `state`. A built-in one sets the drum and its tuning and leaves the rest as it is. */
    juce::String load (const PresetEntry&, State& state) const;

    /** Saves under a name, in place of a user's preset of that name if there is one. Undo brings back what was there. */
    juce::String save (const juce::String& name, const State&, juce::UndoManager&);
    juce::String rename (const PresetEntry&, const juce::String& newName, juce::UndoManager&);
    juce::String remove (const PresetEntry&, juce::UndoManager&);

    /** Reads a preset or a drum file from anywhere; a drum file's first tuning is taken. */
    juce::String importFile (const juce::File&, State& state) const;

    /** Writes a preset, or, with the extension .drum.json, a drum file that the command line program reads. */
    juce::String exportFile (const juce::File&, const State&) const;

private:
    juce::File fileFor (const juce::String& name) const;

    juce::File folder;
};

} // namespace plugin
