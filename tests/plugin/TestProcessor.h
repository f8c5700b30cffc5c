#pragma once

#include "Plugin/Processor.h"

#include <juce_events/juce_events.h>

/** JUCE's message loop for a test program, and a processor whose user presets lie in a folder that is deleted afterwards. */
struct TestProcessor
{
    juce::ScopedJuceInitialiser_GUI juce;
    juce::TemporaryFile folder{ "snarewright-presets" };
    plugin::Processor processor{ {}, plugin::PresetLibrary (folder.getFile()) };

    TestProcessor() = default;
    ~TestProcessor() { folder.getFile().deleteRecursively(); }

    void prepare (double sampleRate = 48000.0, int block = 512) { processor.prepareToPlay (sampleRate, block); }

    /** Plays messages at absolute samples in blocks whose sizes `nextBlock` gives; returns the mix, left after right. */
    template <class NextBlock>
    std::vector<float> play (const juce::MidiBuffer& midi, int length, NextBlock&& nextBlock)
    {
        std::vector<float> left, right;
        for (int done = 0; done < length;)
        {
            const int frames = std::min (static_cast<int> (nextBlock()), length - done);
            juce::AudioBuffer<float> buffer (processor.getTotalNumOutputChannels(), frames);
            juce::MidiBuffer block;
            block.addEvents (midi, done, frames, -done);
            processor.processBlock (buffer, block);
            left.insert (left.end(), buffer.getReadPointer (0), buffer.getReadPointer (0) + frames);
            right.insert (right.end(), buffer.getReadPointer (1), buffer.getReadPointer (1) + frames);
            done += frames;
        }
        left.insert (left.end(), right.begin(), right.end());
        return left;
    }

    std::vector<float> play (const juce::MidiBuffer& midi, int length)
    {
        return play (midi, length, [] { return 512; });
    }

    /** Waits for the solver's thread. Gives up after ten minutes, so that no result depends on the machine's speed. */
    template <class Condition>
    void waitUntil (Condition&& isMet) const
    {
        for (int i = 0; i < 60000 && ! isMet(); ++i)
            juce::Thread::sleep (10);
    }

    /** Predicted tap note of the drum that plays, Hz; 0 while there is none. */
    double batterTapNote() const
    {
        const auto drum = processor.solvedDrum();
        return drum == nullptr ? 0.0 : drum->prediction.batter.tapNote;
    }

    void putInto (const place::Place& place)
    {
        auto values = processor.effectiveValues();
        auto file = plugin::drumFileOf (values, "drum");
        file.place = place;
        plugin::setDrum (values, file, 0);
        processor.setValues (values, "place");
    }

    void set (plugin::Parameter parameter, double value) { processor.parameter (parameter).setPlainValue (value); }
};

inline float peakOf (const std::vector<float>& samples)
{
    float peak = 0.0f;
    for (const auto sample : samples)
        peak = std::max (peak, std::abs (sample));
    return peak;
}
