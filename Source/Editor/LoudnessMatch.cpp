#include "LoudnessMatch.h"

#include "Engine/Drum.h"

#include <cmath>

namespace editor
{

double loudnessOf (const std::shared_ptr<const engine::DrumModel>& model, const plugin::Values& values)
{
    using plugin::Parameter;
    struct Channel
    {
        Parameter level, inverted;
    };
    constexpr Channel channels[] = { { Parameter::aboveLevel, Parameter::aboveInverted },
                                     { Parameter::belowLevel, Parameter::belowInverted },
                                     { Parameter::distantLevel, Parameter::distantInverted } };
    const int frames = static_cast<int> (0.4 * model->setup().sampleRate), count = model->microphones();
    std::vector<std::vector<float>> heard (static_cast<std::size_t> (count),
                                           std::vector<float> (static_cast<std::size_t> (frames)));
    std::vector<float*> outputs;
    for (auto& channel : heard)
        outputs.push_back (channel.data());
    engine::Drum drum (model);
    drum.strike (engine::Stroke{});
    drum.process (outputs.data(), frames);

    double power = 0.0;
    for (int i = 0; i < frames; ++i)
    {
        double sum = 0.0;
        for (std::size_t m = 0; m < heard.size(); ++m)
        {
            const auto level = static_cast<double> (plugin::valueOf (values, channels[m].level));
            const double factor = level <= plugin::specOf (channels[m].level).low ? 0.0 : std::pow (10.0, level / 20.0);
            sum += (plugin::isOn (values, channels[m].inverted) ? -factor : factor) *
                   static_cast<double> (heard[m][static_cast<std::size_t> (i)]);
        }
        power += sum * sum;
    }
    return 10.0 * std::log10 (power / frames + 1.0e-20);
}

void LoudnessMatch::setOn (bool shouldMatch)
{
    on = shouldMatch;
    hasTarget = false;
    matched = nullptr;
    follow();
}

void LoudnessMatch::follow()
{
    const auto model = keeper.scene().model;
    if (! on || model == nullptr || model.get() == matched)
        return;
    matched = model.get();
    keeper.later ([model, values = processor.effectiveValues()] { return loudnessOf (model, values); },
                  [this, model] (double loudness)
                  {
                      if (! on || model != keeper.scene().model)
                          return;
                      if (! hasTarget)
                      {
                          target = loudness + gain();
                          hasTarget = true;
                          return;
                      }
                      auto& parameter = processor.parameter (plugin::Parameter::gain);
                      parameter.setValueNotifyingHost (parameter.convertTo0to1 (static_cast<float> (target - loudness)));
                  });
}

} // namespace editor
