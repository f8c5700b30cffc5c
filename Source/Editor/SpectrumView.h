#pragma once

#include "Analysis.h"
#include "Scene.h"
#include "ValueControl.h"

namespace editor
{

/** Spectrum of the last strike with the predicted modes. Its value is the highlighted mode, -1 for none: point at a peak, use the
    arrow keys, or type "(1,1)" or a frequency. */
class SpectrumView : public ValueControl
{
public:
    /** @param highlight  index into Scene::now's modes */
    explicit SpectrumView (ValueBinding highlight);

    void setScene (const Scene&);
    void setAnalysis (std::shared_ptr<const Analysis>);

    /** Text shown before the first strike. */
    void setAdvice (const juce::String&);
    juce::String advice() const { return emptyWords; }

    /** Whether the strike was on a different drum from the current one. */
    bool isOfFormerDrum() const { return analysis != nullptr && analysis->drum != scene.model; }

    /** The mode whose frequency lies nearest to x, or -1 if none is close. */
    int modeAt (float x) const;
    float xOf (double hertz) const;

    void paint (juce::Graphics&) override;
    void mouseMove (const juce::MouseEvent&) override;
    void mouseExit (const juce::MouseEvent&) override;

private:
    juce::Rectangle<float> plot() const;
    void drawModes (juce::Graphics&) const;

    Scene scene;
    std::shared_ptr<const Analysis> analysis;
    juce::String emptyWords;
};

} // namespace editor
