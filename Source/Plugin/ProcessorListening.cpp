// The lug check at the processor's audio input.

#include "Processor.h"

#include "HeardTuning.h"
#include "ParameterText.h"

#include "Modal/InputError.h"

namespace plugin
{

bool Processor::hasInput() const
{
    return getBusCount (true) > 0 && getChannelCountOfBus (true, 0) > 0;
}

void Processor::startListening (modal::HeadSide side)
{
    try
    {
        inputListener.start ({ .drum = requestOf (sound.effective()).drum, .side = side }, playedRate.load());
    }
    catch (const modal::InputError& error)
    {
        report (error.what());
    }
}

void Processor::applyMeasuredHead()
{
    const auto heard = inputListener.report();

    if (! heard->head || ! heard->head->isPossible)
        return;

    try
    {
        auto values = sound.effective();

        if (juce::roundToInt (valueOf (values, Parameter::lugs)) != static_cast<int> (heard->notes.size()))
            throw modal::InputError ("drum", textOf (specOf (Parameter::lugs), valueOf (values, Parameter::lugs)) + " lugs",
                                     std::to_string (heard->notes.size()) + " lugs, as in the lug check");

        setHeard (values, heard->side, *heard->head);
        setValues (values,
                   heard->side == modal::HeadSide::batter ? "Apply measured batter head" : "Apply measured resonant head");
    }
    catch (const modal::InputError& error)
    {
        report (error.what());
    }
}

} // namespace plugin
