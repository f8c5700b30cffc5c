#include "PresetLibrary.h"

#include "DrumRequest.h"
#include "PatternBook.h"

#include "Files/DrumFile.h"
#include "Files/Presets.h"
#include "Modal/InputError.h"

namespace plugin
{
namespace
{
const char* const presetExtension = ".snarewright.json";

/** Contents of a file; none if the file does not exist. */
using Contents = std::optional<juce::String>;

Contents contentsOf (const juce::File& file)
{
    return file.existsAsFile() ? Contents (file.loadFileAsString()) : std::nullopt;
}

/** Undoable change of the contents of files. */
class FilesChange final : public juce::UndoableAction
{
public:
    struct Change
    {
        juce::File file;
        Contents before, after;
    };

    explicit FilesChange (std::vector<Change> list) : changes (std::move (list)) {}

    bool perform() override
    {
        return apply ([] (const Change& change) { return change.after; });
    }
    bool undo() override
    {
        return apply ([] (const Change& change) { return change.before; });
    }
    int getSizeInUnits() override { return 10; }

private:
    template <class Choose>
    bool apply (Choose&& choose) const
    {
        bool worked = true;
        for (const auto& change : changes)
        {
            const auto contents = choose (change);
            if (contents)
                worked = change.file.getParentDirectory().createDirectory().wasOk() && change.file.replaceWithText (*contents) &&
                         worked;
            else
                worked = change.file.deleteFile() && worked;
        }
        return worked;
    }

    std::vector<Change> changes;
};

juce::String perform (std::vector<FilesChange::Change> changes, const juce::String& name, juce::UndoManager& undo)
{
    const auto folder = changes.front().file.getParentDirectory().getFullPathName();
    undo.beginNewTransaction (name);
    return undo.perform (new FilesChange (std::move (changes))) ? juce::String() : "Cannot write to " + folder + ".";
}

juce::String textOf (const std::exception& e)
{
    return juce::String::fromUTF8 (e.what());
}

void loadDrum (const files::DrumFile& file, std::size_t tuning, State& state)
{
    setDrum (state.live, file, tuning);
    const auto &drum = file.drum.name, &name = file.tunings[tuning].name;
    state.name = drum.empty() || name.empty() ? drum + name : drum + ": " + name;
}

/** The file of a state without what only the plugin reads. */
files::DrumFile plainDrumFile (const State& state, const std::string& name)
{
    auto file = drumFileOf (state.live, name);
    const auto drum = files::drumAsJson (file.drum, file.weather);

    for (std::size_t i = 0; i < state.snapshots.size(); ++i)
    {
        if (! state.snapshots[i])
            continue;

        auto kept = drumFileOf (*state.snapshots[i], name);
        kept.tunings.front().name = std::string (1, static_cast<char> ('A' + i));
        if (files::drumAsJson (kept.drum, kept.weather) == drum)
            file.tunings.push_back (kept.tunings.front());
    }

    return file;
}

/** A preset of an older version. */
bool isState (const juce::String& text)
{
    try
    {
        return files::parseJson (text.toStdString(), "preset").value ("format", std::string()) == "snarewright-state";
    }
    catch (const std::exception&)
    {
        return false; // its fault is found when it is read as a drum
    }
}

PresetLibrary::Imported loadState (const juce::String& text, State& state)
{
    auto reading = readState (text.toStdString());
    const auto message = reading.messages.empty() ? juce::String() : juce::String::fromUTF8 (reading.messages.front().c_str());

    if (! reading.isUsable)
        return { message, {} };

    // A preset has no snapshots; the song's own are kept.
    state.live = reading.state.live;
    state.name = reading.state.name;
    return { {}, message };
}

/** Throws modal::InputError for what a drum file cannot say. */
std::string drumText (const State& state, const juce::String& name)
{
    State sound = state;
    sound.name = name.toStdString();
    sound.snapshots.fill (std::nullopt);
    auto file = plainDrumFile (state, sound.name);
    file.window = files::parseJson (writeState (sound), "state");
    return files::writeDrum (file);
}

/** A preset is a sound; the song's own snapshots stay. */
std::string presetText (const State& state, const juce::String& name)
{
    State sound = state;
    sound.snapshots.fill (std::nullopt);
    return drumText (sound, name);
}

/** Whether drum and first tuning of a file are still those of its window's part. */
bool isUnchanged (const files::DrumFile& file, const Values& window)
{
    auto part = file;
    part.window = nullptr;
    part.tunings.resize (1);
    return files::writeDrum (drumFileOf (window, file.drum.name)) == files::writeDrum (part);
}

/** What the window cannot hold of a file. */
juce::String remarkOn (const files::DrumFile& file, std::size_t tuningsTaken)
{
    juce::StringArray remarks;
    if (file.pattern && ! findPattern (file.pattern->strokes, file.pattern->stepsPerBeat))
        remarks.add ("The pattern of the file is none of the window's, which keeps its own.");
    if (const auto left = file.tunings.size() - tuningsTaken; left > 0)
        remarks.add (juce::String (left) + " tunings of the file were left out: no letter is free.");
    return remarks.joinIntoString (" ");
}

/** The file's first tuning, with what else the plugin keeps if it wrote the file. Returns remarkOn(). */
juce::String loadDrumFile (const files::DrumFile& file, State& state)
{
    if (file.tunings.empty())
        throw modal::InputError ("tunings", "none", "at least one tuning in the drum file");

    auto loaded = state;

    if (! file.window.is_null())
    {
        const auto window = readState (files::written (file.window));
        loaded.live = window.state.live;
        loaded.name = window.state.name;
        loaded.unknownInSound = window.state.unknownInSound;
    }

    if (file.window.is_null() || ! isUnchanged (file, loaded.live))
        loadDrum (file, 0, loaded);

    std::size_t slot = 0, tuning = 1;

    for (; tuning < file.tunings.size(); ++tuning)
    {
        while (slot < loaded.snapshots.size() && loaded.snapshots[slot])
            ++slot;
        if (slot == loaded.snapshots.size())
            break;

        auto kept = loaded.live;
        setDrum (kept, file, tuning);
        loaded.snapshots[slot] = kept;
    }

    state = loaded;
    return remarkOn (file, tuning);
}

/** Removes characters that file names cannot hold, and shortens the name to 100 characters. */
juce::String legalName (const juce::String& name)
{
    return juce::File::createLegalFileName (name).trim().substring (0, 100);
}
} // namespace

PresetLibrary::PresetLibrary (juce::File usersFolder) : folder (std::move (usersFolder)) {}

juce::File PresetLibrary::usualFolder()
{
    return juce::File::getSpecialLocation (juce::File::userApplicationDataDirectory).getChildFile ("Snarewright/Presets");
}

juce::File PresetLibrary::fileFor (const juce::String& name) const
{
    return folder.getChildFile (legalName (name) + presetExtension);
}

std::vector<PresetEntry> PresetLibrary::entries() const
{
    std::vector<PresetEntry> list;

    for (const auto& preset : files::drumPresets())
    {
        const auto file = files::readDrum (std::string (preset.text), preset.name);

        for (std::size_t tuning = 0; tuning < file.tunings.size(); ++tuning)
            list.push_back ({ juce::String::fromUTF8 (file.tunings[tuning].name.c_str()),
                              juce::String::fromUTF8 (file.drum.name.c_str()),
                              false,
                              preset.name,
                              tuning,
                              {} });
    }

    auto found = folder.findChildFiles (juce::File::findFiles, false, juce::String ("*") + presetExtension);
    found.sort();

    for (const auto& file : found)
        list.push_back ({ file.getFileName().dropLastCharacters (static_cast<int> (std::string_view (presetExtension).size())),
                          {},
                          true,
                          {},
                          0,
                          file });

    return list;
}

juce::String PresetLibrary::load (const PresetEntry& entry, State& state) const
{
    if (entry.isUsers)
        return importFile (entry.file, state).fault;

    try
    {
        loadDrum (files::openDrum (entry.builtIn), entry.tuning, state);
        return {};
    }
    catch (const modal::InputError& e)
    {
        return textOf (e);
    }
}

juce::String PresetLibrary::save (const juce::String& name, const State& state, juce::UndoManager& undo)
{
    if (legalName (name).isEmpty())
        return "A preset needs a name.";

    try
    {
        const auto file = fileFor (name);
        const auto text = juce::String::fromUTF8 (presetText (state, name).c_str());
        return perform ({ { file, contentsOf (file), text } }, "Save " + name, undo);
    }
    catch (const modal::InputError& e)
    {
        return textOf (e);
    }
}

juce::String PresetLibrary::rename (const PresetEntry& entry, const juce::String& newName, juce::UndoManager& undo)
{
    const auto to = fileFor (newName);

    if (! entry.isUsers || legalName (newName).isEmpty())
        return "Only your own presets can be renamed, and the new name must not be empty.";
    if (to == entry.file)
        return {};
    if (to.existsAsFile())
        return "There is already a preset named " + newName + ".";

    State state;
    const auto fault = importFile (entry.file, state).fault;
    if (fault.isNotEmpty())
        return fault;

    try
    {
        const auto text = juce::String::fromUTF8 (presetText (state, newName).c_str());
        return perform ({ { to, std::nullopt, text }, { entry.file, contentsOf (entry.file), std::nullopt } },
                        "Rename " + entry.name, undo);
    }
    catch (const modal::InputError& e)
    {
        return textOf (e);
    }
}

juce::String PresetLibrary::remove (const PresetEntry& entry, juce::UndoManager& undo)
{
    if (! entry.isUsers)
        return "Only your own presets can be deleted.";

    return perform ({ { entry.file, contentsOf (entry.file), std::nullopt } }, "Delete " + entry.name, undo);
}

PresetLibrary::Imported PresetLibrary::importFile (const juce::File& file, State& state) const
{
    if (! file.existsAsFile())
        return { "There is no file " + file.getFullPathName() + ".", {} };
    if (file.getSize() > static_cast<juce::int64> (largestState))
        return { file.getFileName() + " is too large for a preset.", {} };

    const auto text = file.loadFileAsString();

    if (isState (text))
        return loadState (text, state);

    try
    {
        return { {}, loadDrumFile (files::readDrum (text.toStdString(), file.getFileName().toStdString()), state) };
    }
    catch (const modal::InputError& e)
    {
        return { textOf (e), {} };
    }
}

juce::String PresetLibrary::exportFile (const juce::File& file, const State& state) const
{
    try
    {
        const auto name = file.getFileNameWithoutExtension().upToFirstOccurrenceOf (".", false, false);
        const auto text = drumText (state, name);
        return file.replaceWithText (juce::String::fromUTF8 (text.c_str())) ? juce::String()
                                                                            : "Cannot write " + file.getFullPathName() + ".";
    }
    catch (const modal::InputError& e)
    {
        return textOf (e);
    }
}

} // namespace plugin
