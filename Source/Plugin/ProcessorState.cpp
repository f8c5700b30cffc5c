// What the processor saves and restores: parameters, snapshots, presets, the song's state.

#include "Processor.h"

namespace plugin
{

void Processor::report (const juce::String& fault)
{
    if (fault.isNotEmpty())
        messageList.say (Messages::Kind::refusal, fault.toStdString());
}

/** Sets the parameters that differ and notifies the host, without an undo step. */
void Processor::setParameters (const Values& values)
{
    recorder->setPaused (true);
    for (std::size_t i = 0; i < parameterCount; ++i)
        if (static_cast<float> (parameters[i]->plainValue()) != values[i])
            parameters[i]->setPlainValue (static_cast<double> (values[i]));
    recorder->setPaused (false);
}

void Processor::setValues (const Values& values, const juce::String& whatFor)
{
    undo.beginNewTransaction (whatFor);
    undo.perform (new ValuesChange (sound.live.copy(), values, [this] (const Values& v) { setParameters (v); }));
}

juce::String Processor::nameOf (Snapshot which)
{
    return juce::String::charToString (static_cast<juce::juce_wchar> ('A' + which));
}

void Processor::storeSnapshot (Snapshot which)
{
    sound.setSnapshot (which, sound.live.copy());
    solver.wake();
}

void Processor::recallSnapshot (Snapshot which)
{
    if (! hasSnapshot (which))
        return;

    const auto kept = sound.snapshot (which);
    setValues (morphed (kept, kept, 0.0, sound.live.copy()), "Recall " + nameOf (which));
}

void Processor::clearSnapshot (Snapshot which)
{
    sound.setSnapshot (which, std::nullopt);
    solver.wake();
}

/** Undoable change of the preset's name, with the values it stands for. */
class Processor::NamingChange final : public juce::UndoableAction
{
public:
    NamingChange (Processor& p, Naming to) : processor (p), after (std::move (to))
    {
        const std::scoped_lock lock (processor.extrasMutex);
        before = processor.naming;
    }

    bool perform() override { return put (after); }
    bool undo() override { return put (before); }
    int getSizeInUnits() override { return 10; }

private:
    bool put (const Naming& naming)
    {
        const std::scoped_lock lock (processor.extrasMutex);
        processor.naming = naming;
        return true;
    }

    Processor& processor;
    Naming before, after;
};

void Processor::nameAs (Naming to)
{
    undo.perform (new NamingChange (*this, std::move (to)));
}

void Processor::loadPreset (const PresetEntry& entry)
{
    auto loaded = state();
    const auto fault = library.load (entry, loaded);
    report (fault);

    if (fault.isEmpty())
        takeSound (loaded, "Load " + entry.name);
}

void Processor::importPreset (const juce::File& file)
{
    auto loaded = state();
    const auto [fault, remark] = library.importFile (file, loaded);
    report (fault);

    if (fault.isNotEmpty())
        return;

    takeSound (loaded, "Import " + file.getFileName());
    for (const auto which : { Parameter::pattern, Parameter::patternTempo })
        parameters[indexOf (which)]->setPlainValue (static_cast<double> (loaded.live[indexOf (which)]));
    for (std::size_t i = 0; i < LiveSound::snapshotCount; ++i)
        sound.setSnapshot (static_cast<Snapshot> (i), loaded.snapshots[i]);
    solver.wake();
    if (remark.isNotEmpty())
        messageList.say (Messages::Kind::note, remark.toStdString());
}

void Processor::takeSound (const State& loaded, const juce::String& whatFor)
{
    // A preset sets the drum; playing parameters, bypass and gain are kept.
    setValues (morphed (loaded.live, loaded.live, 0.0, sound.live.copy()), whatFor);
    nameAs ({ loaded.name, sound.live.copy() });
}

void Processor::savePreset (const juce::String& presetName)
{
    const auto fault = library.save (presetName, state(), undo);
    report (fault);

    if (fault.isEmpty())
        nameAs ({ presetName.toStdString(), sound.live.copy() });
}

void Processor::exportPreset (const juce::File& file)
{
    report (library.exportFile (file, state()));
}

juce::String Processor::presetName() const
{
    const std::scoped_lock lock (extrasMutex);
    return juce::String::fromUTF8 (naming.name.c_str());
}

std::optional<Values> Processor::valuesOfPreset (const std::string& wanted) const
{
    const auto text = juce::String::fromUTF8 (wanted.c_str());
    for (const auto& entry : library.entries())
    {
        State loaded;
        const bool isIt = text == (entry.isUsers ? entry.name : entry.drum + ": " + entry.name);
        if (isIt && library.load (entry, loaded).isEmpty())
            return loaded.live;
    }
    return std::nullopt;
}

bool Processor::isChangedSinceNamed() const
{
    const auto now = sound.live.copy();
    Naming current;
    {
        const std::scoped_lock lock (extrasMutex);
        current = naming;
    }
    if (current.name.empty())
        return false;
    if (! current.values)
    {
        // If the preset no longer exists, the present values count as unchanged.
        current.values = valuesOfPreset (current.name).value_or (now);
        const std::scoped_lock lock (extrasMutex);
        if (naming.name == current.name)
            naming.values = current.values;
    }
    return morphed (*current.values, *current.values, 0.0, now) != now;
}

State Processor::state() const
{
    State state;
    state.live = sound.live.copy();
    for (std::size_t i = 0; i < LiveSound::snapshotCount; ++i)
        if (const auto which = static_cast<Snapshot> (i); sound.hasSnapshot (which))
            state.snapshots[i] = sound.snapshot (which);

    const std::scoped_lock lock (extrasMutex);
    state.name = naming.name;
    state.unknown = unknown;
    state.unknownInSound = unknownInSound;
    return state;
}

void Processor::setState (const State& state)
{
    // Without gestures: a host that restores a song must not record it as automation.
    sound.live.setAll (state.live);
    sound.setPlayedNote (std::nullopt);
    for (std::size_t i = 0; i < LiveSound::snapshotCount; ++i)
        sound.setSnapshot (static_cast<Snapshot> (i), state.snapshots[i]);
    {
        const std::scoped_lock lock (extrasMutex);
        naming = { state.name, std::nullopt };
        unknown = state.unknown;
        unknownInSound = state.unknownInSound;
    }
    solver.wake();
    for (auto* parameter : parameters)
        parameter->sendValueChangedMessageToListeners (parameter->getValue());
}

void Processor::getStateInformation (juce::MemoryBlock& block)
{
    const auto text = writeState (state());
    block.replaceAll (text.data(), text.size());
}

void Processor::setStateInformation (const void* data, int size)
{
    const auto reading = readState ({ static_cast<const char*> (data), static_cast<std::size_t> (std::max (0, size)) });

    for (const auto& message : reading.messages)
        messageList.say (Messages::Kind::refusal, message);

    setState (reading.state);
}

} // namespace plugin
