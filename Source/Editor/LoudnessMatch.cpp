#include "LoudnessMatch.h"

#include "Engine/Drum.h"
#include "Score/Loudness.h"
#include "Score/StereoMix.h"

#include <cmath>

namespace editor
{

double loudnessOf (const std::shared_ptr<const engine::DrumModel>& model, const plugin::Values& values)
{
    using plugin::Parameter;
    struct Channel
    {
        Parameter level, pan, inverted;
    };
    constexpr Channel channels[] = { { Parameter::aboveLevel, Parameter::abovePan, Parameter::aboveInverted },
                                     { Parameter::belowLevel, Parameter::belowPan, Parameter::belowInverted },
                                     { Parameter::distantLevel, Parameter::distantPan, Parameter::distantInverted } };
    constexpr double heardTime = 0.41; // s: one block of the recommendation
    const int frames = static_cast<int> (heardTime * model->setup().sampleRate), count = model->microphones();
    std::vector<std::vector<float>> heard (static_cast<std::size_t> (count),
                                           std::vector<float> (static_cast<std::size_t> (frames)));
    std::vector<float*> outputs;
    for (auto& channel : heard)
        outputs.push_back (channel.data());
    engine::Drum drum (model);
    drum.strike (engine::Stroke{});
    drum.process (outputs.data(), frames);

    std::vector<float> left (static_cast<std::size_t> (frames)), right (left);
    for (std::size_t m = 0; m < heard.size(); ++m)
    {
        const auto level = static_cast<double> (plugin::valueOf (values, channels[m].level));
        if (level <= plugin::specOf (channels[m].level).low)
            continue;
        const auto sides = score::sideGains ({ level, static_cast<double> (plugin::valueOf (values, channels[m].pan)) });
        const double sign = plugin::isOn (values, channels[m].inverted) ? -1.0 : 1.0;
        for (std::size_t i = 0; i < left.size(); ++i)
        {
            left[i] += static_cast<float> (sign * sides.left) * heard[m][i];
            right[i] += static_cast<float> (sign * sides.right) * heard[m][i];
        }
    }
    score::LoudnessMeter meter (model->setup().sampleRate, 2);
    const float* const sides[] = { left.data(), right.data() };
    meter.add (sides, frames);
    return meter.loudness();
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
                      if (! on || ! std::isfinite (loudness) || model != keeper.scene().model)
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
