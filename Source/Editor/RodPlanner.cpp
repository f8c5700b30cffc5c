#include "RodPlanner.h"

#include "Strings.h"

#include "Modal/InputError.h"
#include "Wording/PlanText.h"

#include <cmath>

namespace editor
{

void RodPlanner::follow (const std::optional<fitting::HeadAsIs>& batter, const std::optional<fitting::HeadAsIs>& resonant)
{
    batterNow = batter;
    resonantNow = resonant;
    plan();
}

void RodPlanner::forget()
{
    batterNow = resonantNow = std::nullopt;
    planned = {};
}

void RodPlanner::plan()
{
    const Request wanted{ processor.effectiveValues(), batterNow ? batterNow->tension : 0.0,
                          resonantNow ? resonantNow->tension : 0.0 };
    if ((! batterNow && ! resonantNow) || wanted == planned || background.isBusy())
        return;
    planned = wanted;
    background.run (
        [request = plugin::requestOf (wanted.wanted), batter = batterNow, resonant = resonantNow]
        {
            try
            {
                return plugin::rodTurnsTo (request, batter, resonant);
            }
            catch (const modal::InputError&)
            {
                return plugin::RodTurns(); // the ladder says what cannot be reached
            }
        },
        [this, wanted] (const plugin::RodTurns& turns)
        {
            if (planned == wanted && onPlanned)
                onPlanned (turns);
            plan(); // heads or tuning may have changed since
        });
}

bool isNothing (const plugin::RodTurns& turns)
{
    constexpr double unseen = 1.0 / 32.0; // turn: half of the smallest step that wording::nearFraction() names
    const auto isSet = [] (const std::optional<double>& turn) { return ! turn || std::abs (*turn) < unseen; };
    return isSet (turns.batter) && isSet (turns.resonant);
}

juce::String turnsText (const plugin::RodTurns& turns)
{
    juce::StringArray heads;
    const auto add = [&heads] (const char* name, const std::optional<double>& turn)
    {
        if (turn)
            heads.add (juce::String (name) + " " + juce::String (wording::nearFraction (*turn)));
    };
    add (strings::batter, turns.batter);
    add (strings::resonant, turns.resonant);
    return heads.joinIntoString (", ");
}

} // namespace editor
