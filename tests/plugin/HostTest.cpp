// A host that loads the built plugin from disk and treats it roughly.
//
//   plugin-host-test <bundle.vst3 or bundle.lv2>
//
// With SNAREWRIGHT_FULL_TESTS set in the environment it automates 10 000 blocks and opens the editor 50 times; without, enough to
// play at every rate, restore a state at each, and open the editor again after it was closed. Audio runs on a thread of its own
// while the message loop runs, as in a real host. Needs a display (Xvfb will do).

#include "tests/editor/BareDisplay.h"

#include <juce_audio_processors/juce_audio_processors.h>

#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <functional>
#include <memory>
#include <random>
#include <thread>
#include <vector>

namespace
{
constexpr int longestBlock = 8192;
constexpr double rates[] = { 22050.0, 44100.0, 48000.0, 88200.0, 96000.0, 192000.0 };

constexpr float highestSample = 2.0f; ///< the plugin's ceiling, 6 dB over full scale

/** How much of everything. */
struct Amount
{
    int instances = 6, blocks = 240, rateChanges = 6, restoredStates = 6, editorOpenings = 4;
};

Amount amountAskedFor()
{
    return std::getenv ("SNAREWRIGHT_FULL_TESTS") != nullptr ? Amount{ 16, 10000, 24, 50, 50 } : Amount{};
}

int faults = 0;

void check (bool isRight, const juce::String& what)
{
    if (isRight)
        return;
    ++faults;
    std::fprintf (stderr, "FAILED: %s\n", what.toRawUTF8());
}

/** Runs on the message thread and waits. */
void onMessageThread (std::function<void()> work)
{
    juce::MessageManager::getInstance()->callFunctionOnMessageThread (
        [] (void* context) -> void*
        {
            (*static_cast<std::function<void()>*> (context))();
            return nullptr;
        },
        &work);
}

/** Closes a window once everything posted so far has been delivered.

    JUCE 7.0.5's XEmbedComponent, which holds the plugin's window, posts a message with a bare pointer to itself when that window
   is configured. A message on its way when the window closes would have no receiver: a segmentation fault of the host. */
void close (std::unique_ptr<juce::DocumentWindow>& window)
{
    juce::WaitableEvent closed;
    onMessageThread (
        [&]
        {
            juce::MessageManager::callAsync (
                [&]
                {
                    window = nullptr;
                    closed.signal();
                });
        });
    closed.wait();
}

class Host
{
public:
    explicit Host (const juce::File& bundle)
    {
        if (bundle.hasFileExtension ("vst3"))
        {
            format = std::make_unique<juce::VST3PluginFormat>();
            format->findAllTypesForFile (found, bundle.getFullPathName());
        }
        else
        {
            format = std::make_unique<juce::LV2PluginFormat>();
            const juce::FileSearchPath path (bundle.getParentDirectory().getFullPathName());
            for (const auto& identifier : format->searchPathsForPlugins (path, false, false))
                if (identifier.contains ("snarewright"))
                    format->findAllTypesForFile (found, identifier);
        }

        check (found.size() == 1, "one plugin in " + bundle.getFullPathName());
    }

    bool hasPlugin() const { return ! found.isEmpty(); }
    const juce::PluginDescription& description() const { return *found[0]; }

    std::unique_ptr<juce::AudioPluginInstance> load()
    {
        juce::String error;
        auto plugin = format->createInstanceFromDescription (description(), 48000.0, 512, error);
        check (plugin != nullptr, "an instance: " + error);
        return plugin;
    }

private:
    std::unique_ptr<juce::AudioPluginFormat> format;
    juce::OwnedArray<juce::PluginDescription> found;
};

struct Block
{
    juce::AudioBuffer<float> buffer;
    juce::MidiBuffer midi;
};

juce::MidiMessage strike (int note = 38, int velocity = 100)
{
    return juce::MidiMessage::noteOn (10, note, static_cast<juce::uint8> (velocity));
}

/** Plays one block; the peak, which is checked to be finite. */
float play (juce::AudioPluginInstance& plugin, Block& block, int frames)
{
    block.buffer.setSize (std::max (plugin.getTotalNumOutputChannels(), plugin.getTotalNumInputChannels()), frames, false, false,
                          true);
    block.buffer.clear();
    plugin.processBlock (block.buffer, block.midi);
    block.midi.clear();

    float peak = 0.0f;
    for (int channel = 0; channel < plugin.getTotalNumOutputChannels(); ++channel)
        for (int i = 0; i < frames; ++i)
        {
            const auto sample = block.buffer.getSample (channel, i);
            peak = std::isfinite (sample) ? std::max (peak, std::abs (sample)) : std::nanf ("");
            if (! std::isfinite (peak))
                return peak;
        }
    return peak;
}

void testManyAtOnce (Host& host, int instances)
{
    std::vector<std::unique_ptr<juce::AudioPluginInstance>> plugins;
    onMessageThread (
        [&]
        {
            for (int i = 0; i < instances; ++i)
                if (auto plugin = host.load())
                {
                    plugin->prepareToPlay (48000.0, 512);
                    plugins.push_back (std::move (plugin));
                }
        });

    Block block;
    for (auto& plugin : plugins)
    {
        block.midi.addEvent (strike(), 17);
        const auto peak = play (*plugin, block, 512);
        check (peak > 1.0e-3f && std::isfinite (peak), "each of " + juce::String (instances) + " instances sounds");
        check (plugin->getLatencySamples() == 0, "no latency");
    }

    onMessageThread ([&] { plugins.clear(); });
}

void testStorm (Host& host, const Amount& amount)
{
    std::unique_ptr<juce::AudioPluginInstance> plugin;
    onMessageThread ([&] { plugin = host.load(); });
    if (plugin == nullptr)
        return;

    std::minstd_rand random (1);
    const auto share = [&] { return std::uniform_real_distribution<float> (0.0f, 1.0f) (random); };
    Block block;
    block.buffer.setSize (8, longestBlock);
    float peak = 0.0f;
    long long samples = 0;
    int restored = 0, rate = 0;

    for (int i = 0; i < amount.blocks; ++i)
    {
        if (i % (amount.blocks / amount.rateChanges) == 0)
            onMessageThread (
                [&]
                {
                    plugin->releaseResources();
                    plugin->prepareToPlay (rates[rate++ % std::size (rates)], longestBlock);
                });

        for (auto* parameter : plugin->getParameters())
            if (random() % 64 == 0)
                parameter->setValue (share());

        // Sizes from 1 to 8192, each octave as often as the next.
        const auto frames = std::min (longestBlock, static_cast<int> (std::exp2 (13.0f * share()) + 0.5f));
        for (auto notes = random() % 3; notes > 0; --notes)
            block.midi.addEvent (strike (20 + static_cast<int> (random() % 21), 1 + static_cast<int> (random() % 127)),
                                 static_cast<int> (random()) % frames);
        if (random() % 20 == 0)
            block.midi.addEvent (
                juce::MidiMessage::controllerEvent (10, 16 + static_cast<int> (random() % 2), static_cast<int> (random() % 128)),
                0);

        const auto heard = play (*plugin, block, frames);
        check (std::isfinite (heard), "block " + juce::String (i) + " is finite");
        if (! std::isfinite (heard))
            break;
        peak = std::max (peak, heard);
        samples += frames;

        if (i % (amount.blocks / amount.restoredStates) == 0)
        {
            // Saved and brought back in the middle of notes.
            onMessageThread (
                [&]
                {
                    juce::MemoryBlock state, again;
                    plugin->getStateInformation (state);
                    plugin->setStateInformation (state.getData(), static_cast<int> (state.getSize()));
                    plugin->getStateInformation (again);
                    check (state == again, "a state restored mid-note is the state that was saved");
                    ++restored;
                });
        }
    }

    check (peak > 1.0e-3f, "the storm sounds");
    check (peak <= highestSample, "nothing above the ceiling leaves");
    std::printf ("  %d blocks, %.1f million samples, %d states, %d parameters, peak %.2f\n", amount.blocks,
                 1.0e-6 * static_cast<double> (samples), restored, plugin->getParameters().size(), static_cast<double> (peak));
    onMessageThread ([&] { plugin = nullptr; });
}

void testEditor (Host& host, int editorOpenings)
{
    std::unique_ptr<juce::AudioPluginInstance> plugin;
    onMessageThread (
        [&]
        {
            plugin = host.load();
            if (plugin != nullptr)
                plugin->prepareToPlay (48000.0, 512);
        });
    if (plugin == nullptr)
        return;

    Block block;
    int opened = 0;
    for (int i = 0; i < editorOpenings; ++i)
    {
        std::unique_ptr<juce::DocumentWindow> window;
        onMessageThread (
            [&]
            {
                if (auto* editor = plugin->createEditorIfNeeded())
                {
                    window = std::make_unique<juce::DocumentWindow> ("Host", juce::Colours::black, 0);
                    window->setContentOwned (editor, true);
                    window->setVisible (true);
                    ++opened;
                }
            });
        block.midi.addEvent (strike(), 0);
        check (std::isfinite (play (*plugin, block, 512)), "it plays with the editor open");
        juce::Thread::sleep (5);
        close (window);
    }

    check (opened == editorOpenings,
           "the editor opens " + juce::String (editorOpenings) + " times, not " + juce::String (opened));
    onMessageThread ([&] { plugin = nullptr; });
}

void runAll (const juce::File& bundle, const Amount& amount)
{
    std::unique_ptr<Host> host;
    onMessageThread ([&] { host = std::make_unique<Host> (bundle); });

    if (host->hasPlugin())
    {
        std::printf ("%s %s: %s\n", host->description().pluginFormatName.toRawUTF8(), host->description().version.toRawUTF8(),
                     host->description().name.toRawUTF8());
        check (host->description().isInstrument, "it is an instrument");
        testManyAtOnce (*host, amount.instances);
        testStorm (*host, amount);
        testEditor (*host, amount.editorOpenings);
    }
    onMessageThread ([&] { host = nullptr; });
}
} // namespace

int main (int argc, char** argv)
{
    if (argc < 2)
    {
        std::fprintf (stderr, "usage: plugin-host-test <bundle.vst3 or bundle.lv2>\n");
        return 2;
    }

    nameWhatWindowManagersName();
    const juce::ScopedJuceInitialiser_GUI juce;
    const auto bundle = juce::File::getCurrentWorkingDirectory().getChildFile (argv[1]);

    std::thread test (
        [&]
        {
            runAll (bundle, amountAskedFor());
            juce::MessageManager::getInstance()->stopDispatchLoop();
        });
    juce::MessageManager::getInstance()->runDispatchLoop();
    test.join();
    std::printf (faults == 0 ? "  all well\n" : "  %d faults\n", faults);
    return faults == 0 ? 0 : 1;
}
