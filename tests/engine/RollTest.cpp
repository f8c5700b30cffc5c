#include "TestDrum.h"

#include "Score/PatternText.h"
#include "Score/Performance.h"

#include "tests/Catch.h"

#include <algorithm>
#include <cmath>

namespace
{

double power (const std::vector<float>& sound, double from, double to)
{
    double sum = 0.0;
    for (auto i = static_cast<std::size_t> (from * 48000.0); i < static_cast<std::size_t> (to * 48000.0); ++i)
        sum += static_cast<double> (sound[i]) * static_cast<double> (sound[i]);
    return sum / (to - from);
}

} // namespace

TEST_CASE ("a roll written as a pattern keeps sounding between the strokes and gets louder with the dynamics")
{
    auto setup = testdrum::snare (1000.0);
    setup.microphones = { engine::defaultMicrophones (setup.modes.depth).front() };
    const auto model = std::make_shared<engine::DrumModel> (setup);
    // Fifteen motions of the hands in 1.5 s, from soft to hard: an open roll of double strokes, a closed roll of buzzes.
    for (const char* roll : { "d3d3d3d4d4d4d5d5d5d6d6d6d7d7d7", "z3z3z3z4z4z4z5z5z5z6z6z6z7z7z7" })
    {
        score::Performance performance (model, score::readPattern (roll, { 150.0, 4 }, "roll"));
        std::vector<float> sound (72000);
        for (std::size_t at = 0; at < sound.size(); at += 480)
        {
            float* output = sound.data() + at;
            performance.process (&output, 480);
        }
        for (const float sample : sound)
            REQUIRE (std::isfinite (sample));
        // Four steps of dynamics are 14 dB. At least half of the energy of two of them must be heard: in a closed roll the hands'
        // pressure does not grow with the dynamics.
        CHECK (power (sound, 1.2, 1.5) > 3.0 * power (sound, 0.0, 0.3));
        // The quietest 10 ms of the last third against its mean.
        double least = 1.0e9;
        for (double t = 1.0; t < 1.49; t += 0.01)
            least = std::min (least, power (sound, t, t + 0.01));
        CHECK (least > 0.01 * power (sound, 1.0, 1.5));
    }
}
