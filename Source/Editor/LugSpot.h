#pragma once

#include <juce_gui_basics/juce_gui_basics.h>

namespace editor
{

/** The place beside one lug where a head is tapped: what was heard there, and a button that makes it the next to be tapped. */
class LugSpot : public juce::Button
{
public:
    explicit LugSpot (int number); ///< from 1

    struct Heard
    {
        juce::String deviation; ///< cents over the mean; empty: not heard yet
        juce::String detail;    ///< the note, or how sure the deviation is
        bool isSure = true;     ///< the deviation is larger than its error

        bool operator== (const Heard& other) const
        {
            return deviation == other.deviation && detail == other.detail && isSure == other.isSure;
        }
    };

    void show (const Heard&, bool isNext, juce::Colour ofHead);

    void paintButton (juce::Graphics&, bool isOver, bool isDown) override;
    void lookAndFeelChanged() override { repaint(); }

private:
    int lugNumber;
    Heard heard;
    bool isWanted = false;
    juce::Colour colour;
};

} // namespace editor
