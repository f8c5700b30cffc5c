#pragma once

#include "Background.h"

#include "Plugin/HeardTuning.h"
#include "Plugin/Processor.h"

namespace editor
{

/** Keeps in step how far to turn all rods of each head, from where the heads stand to the tuning that is set. Message thread. */
class RodPlanner
{
public:
    explicit RodPlanner (plugin::Processor& p) : processor (p) {}

    /** Called when there is a new plan: with no turns if the heads cannot reach the tuning. */
    std::function<void (const plugin::RodTurns&)> onPlanned;

    /** Call when the heads or the tuning that is set may have changed. A head that is not given is left out; without
        either, nothing is planned. */
    void follow (const std::optional<fitting::HeadAsIs>& batter, const std::optional<fitting::HeadAsIs>& resonant);

    /** Where the heads stand is no longer known: drops a plan that is being made. */
    void forget();

private:
    void plan();

    struct Request
    {
        plugin::Values wanted{};
        double batter = 0.0, resonant = 0.0; ///< N/m, where the heads stand; 0: left out

        bool operator== (const Request&) const = default;
    };

    plugin::Processor& processor;
    std::optional<fitting::HeadAsIs> batterNow, resonantNow;
    Request planned;
    Background background; ///< last: ends before what it delivers to
};

/** Whether all rods are within 1/32 turn. */
bool isNothing (const plugin::RodTurns&);

/** "batter 5/16 up, resonant 1/8 down": key turns of every rod. */
juce::String turnsText (const plugin::RodTurns&);

} // namespace editor
