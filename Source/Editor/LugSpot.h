#pragma once

#include <juce_gui_basics/juce_gui_basics.h>

namespace editor
{

/** The place beside a lug where the head is tapped: shows the result; pressing it makes this lug the next one. */
class LugSpot : public juce::Button
{
public:
    explicit LugSpot (int number); ///< from 1

    struct Heard
    {
        juce::String deviation; ///< cents from the mean; empty: not tapped yet
        juce::String detail;    ///< the note, or the uncertainty of the deviation
        bool isSure = true;     ///< the deviation exceeds its uncertainty
        bool isNamed = false;   ///< the answer names this lug

        bool operator== (const Heard& other) const
        {
            return deviation == other.deviation && detail == other.detail && isSure == other.isSure && isNamed == other.isNamed;
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
