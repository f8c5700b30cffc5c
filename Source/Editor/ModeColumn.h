#pragma once

#include "LadderLayout.h"
#include "Scene.h"

#include "Modal/pitch/Note.h"

#include <juce_gui_basics/juce_gui_basics.h>

namespace editor
{

/** The two (0,1) and the two (1,1) modes, highest first: those that have a label. Indices into the prediction's modes. */
std::vector<int> mainModes (const modal::Prediction&);

/** The drum's modes beside the pitch ladder: a tick each, and labels on the main ones. */
class ModeColumn : public juce::Component
{
public:
    void setScene (const Scene&);

    /** @param layout  in coordinates of the parent */
    void setScale (const PitchScale&, modal::ConcertPitch, const LadderLayout& layout);

    /** Index of a mode in Scene::now to emphasise, -1 for none. */
    void setHighlight (int mode);
    std::function<void (int mode)> onHover;

    /** Where the drum note's label is, in coordinates of the parent; empty if there is none. The parent draws it. */
    juce::Rectangle<float> drumNoteLabel() const;

    void paint (juce::Graphics&) override;
    void mouseMove (const juce::MouseEvent&) override;
    void mouseExit (const juce::MouseEvent&) override;

private:
    /** Modes that share one label, and its place. */
    struct Label
    {
        std::vector<int> modes;
        juce::Rectangle<float> area;
    };
    std::vector<Label> labels() const;
    bool isDrumNote (const Label&) const;
    void drawTicks (juce::Graphics&, const std::vector<int>& except) const;
    void drawMainMode (juce::Graphics&, int index, float labelY) const;
    void drawLabel (juce::Graphics&, const std::vector<int>& modes, juce::Rectangle<float>) const;

    Scene scene;
    PitchScale scale;
    modal::ConcertPitch pitch;
    LadderLayout layout{ {} };
    int highlight = -1;
};

} // namespace editor
