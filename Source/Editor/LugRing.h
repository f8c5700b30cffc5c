#pragma once

#include "LugSpot.h"
#include "RovingFocus.h"
#include "TextLine.h"

namespace editor
{

/** A head seen from above with its lugs around it: what was heard at each, which is next. Pressing a lug asks for it. */
class LugRing : public juce::Component
{
public:
    /** @param most  lugs that a drum may have */
    explicit LugRing (int most);

    std::function<void (int lug)> onLug; ///< from 0

    struct Content
    {
        std::vector<LugSpot::Heard> lugs{};
        int next = -1; ///< from 0
        juce::Colour colour{};
        juce::String centre{}, detail{}; ///< in the middle
    };

    void show (const Content&);
    LugSpot& lug (int number) { return *spots[static_cast<std::size_t> (number - 1)]; } ///< from 1

    void paint (juce::Graphics&) override;
    void resized() override;

private:
    /** Positions of the head and of the lugs around it. */
    struct Places
    {
        juce::Rectangle<float> head;
        std::vector<juce::Rectangle<int>> spots;

        bool isClear() const; ///< no two neighbours overlap
    };
    Places placesFor (juce::Point<float> spot, float slant) const;

    TextLine centre, detail;
    std::vector<std::unique_ptr<LugSpot>> spots;
    RovingFocus focus; ///< after the spots, so that it ends first
    int count = 0;
    juce::Colour colour;
    juce::Rectangle<float> circle;
};

} // namespace editor
