#pragma once

#include "PredictedResult.h"

#include <juce_gui_basics/juce_gui_basics.h>

namespace editor
{

/** The predicted result as a table. */
class ResultView : public juce::Component
{
public:
    ResultView();
    ~ResultView() override;

    void setResult (std::vector<ResultLine>);

    /** Heading of the column of changes. */
    void setChangeHeading (const juce::String&);

    int lines() const noexcept { return static_cast<int> (rows.size()); }
    juce::String valueOf (const juce::String& name) const; ///< the first line of that name; empty if there is none
    juce::String changeOf (const juce::String& name) const;

    void paint (juce::Graphics&) override;
    void resized() override;
    void lookAndFeelChanged() override { repaint(); }

private:
    class Row;
    std::vector<std::unique_ptr<Row>> rows;
    juce::String changeHeading;
};

} // namespace editor
