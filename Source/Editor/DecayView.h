#pragma once

#include "Analysis.h"
#include "Scene.h"

#include <juce_gui_basics/juce_gui_basics.h>

namespace editor
{

/** Decay of the last strike: the whole sound, and the drum note alone with the predicted slope. */
class DecayView : public juce::Component
{
public:
    DecayView();

    void setScene (const Scene&);
    void setAnalysis (std::shared_ptr<const Analysis>);

    void paint (juce::Graphics&) override;
    void lookAndFeelChanged() override { repaint(); }

private:
    Scene scene;
    std::shared_ptr<const Analysis> analysis;
};

} // namespace editor
