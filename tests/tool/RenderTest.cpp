#include "RunProgram.h"
#include "WavReader.h"

#include "Files/Json.h"
#include "tests/Catch.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <complex>

using files::Json;

namespace
{
constexpr double pi = 3.14159265358979323846;

/** One microphone, so that there is one channel. */
WavContent render (std::vector<std::string> options)
{
    const TemporaryFolder folder;
    std::vector<std::string> arguments{ "render", "maple-14x5", "--microphone", "above", "--output", "strike.wav" };
    arguments.insert (arguments.end(), options.begin(), options.end());
    const auto run = runProgram (arguments, folder.path());
    CAPTURE (run.errors);
    REQUIRE (run.status == 0);
    return readWav (readBytes (folder.path() / "strike.wav"));
}

/** Fourier amplitude at one frequency of the samples from `begin`, under a Hann window of `length` samples. */
double amplitudeAt (const WavContent& wav, double hertz, std::size_t begin, std::size_t length)
{
    std::complex<double> sum = 0.0;
    const auto step = std::polar (1.0, -2.0 * pi * hertz / wav.rate);
    std::complex<double> turn = 1.0;

    for (std::size_t i = 0; i < length; ++i, turn *= step)
    {
        const auto window = 0.5 - 0.5 * std::cos (2.0 * pi * (static_cast<double> (i) + 0.5) / static_cast<double> (length));
        sum += wav.samples.at (begin + i) * window * turn;
    }

    return std::abs (sum) / static_cast<double> (length);
}

/** The frequency of greatest amplitude near `hertz`, by steps of 0.1 Hz and a parabola through the logarithms around the peak. */
double peakNear (const WavContent& wav, double hertz, double reach)
{
    constexpr double step = 0.1;
    const auto begin = static_cast<std::size_t> (0.02 * wav.rate), length = static_cast<std::size_t> (wav.rate);
    const auto level = [&] (double f) { return std::log (amplitudeAt (wav, f, begin, length)); };

    double best = hertz, highest = -1.0e9;

    for (double f = hertz - reach; f <= hertz + reach; f += step)
    {
        if (const auto l = level (f); l > highest)
        {
            highest = l;
            best = f;
        }
    }

    const auto left = level (best - step), right = level (best + step);
    return best + 0.5 * step * (left - right) / (left - 2.0 * highest + right);
}

/** T60 from the slope of the level at one frequency between two windows. */
double measuredT60 (const WavContent& wav, double hertz, double firstStart, double secondStart)
{
    const auto length = static_cast<std::size_t> (0.25 * wav.rate);
    const auto at = [&] (double start) { return amplitudeAt (wav, hertz, static_cast<std::size_t> (start * wav.rate), length); };
    const auto fall = 20.0 * std::log10 (at (firstStart) / at (secondStart));
    return 60.0 * (secondStart - firstStart) / fall;
}
} // namespace

TEST_CASE ("A rendered strike has the peaks and decays that are predicted", "[render]")
{
    // A soft stroke: a hard one stretches the head and starts sharp.
    const auto wav = render ({ "--wires", "off", "--bits", "32f", "--length", "2s", "--position", "0.4", "--speed", "0.3m/s" });
    const auto json = runProgram ({ "modes", "maple-14x5", "--json" }).output;
    const auto document = files::parseJson (json, "modes");
    const auto& modes = document;
    const auto get = [] (const Json& mode, const char* key) { return mode.at (key).get<double>(); };

    int checked = 0;

    for (std::size_t i = 0; i < modes.size() && get (modes[i], "frequency_hz") < 500.0; ++i)
    {
        const auto frequency = get (modes[i], "frequency_hz");
        const auto t60 = get (modes[i], "t60_s");

        // A peak can be measured only if the batter moves in the mode, it rings for long enough, and no other loud mode is near.
        if (get (modes[i], "batter_share") < 0.3 || t60 < 0.5)
            continue;

        const auto isApart = std::none_of (
            modes.begin(), modes.end(),
            [&] (const Json& other) { return &other != &modes[i] && std::abs (get (other, "frequency_hz") - frequency) < 8.0; });
        if (! isApart)
            continue;

        CAPTURE (frequency, t60);
        CHECK (peakNear (wav, frequency, 4.0) == Approx (frequency).epsilon (0.005));
        CHECK (measuredT60 (wav, frequency, 0.1, 0.45) == Approx (t60).epsilon (0.1));
        ++checked;
    }

    CHECK (checked >= 4);
}

TEST_CASE ("A WAV has the rate, length and format asked for", "[render]")
{
    struct Case
    {
        std::vector<std::string> options;
        unsigned rate;
        int bits;
        std::size_t samples;
    };

    for (const auto& c : { Case{ { "--length", "500ms" }, 48000, 24, 24000 },
                           Case{ { "--length", "500ms", "--rate", "22050", "--bits", "16" }, 22050, 16, 11025 },
                           Case{ { "--length", "0.1s", "--rate", "192kHz", "--bits", "32f" }, 192000, 32, 19200 },
                           Case{ { "--length", "0.1s", "--rate", "44100Hz" }, 44100, 24, 4410 } })
    {
        CAPTURE (c.options);
        const auto wav = render (c.options);
        CHECK (wav.channels == 1);
        CHECK (wav.rate == c.rate);
        CHECK (wav.bits == c.bits);
        CHECK (wav.samples.size() == c.samples);

        // The peak goes to -3 dB of full scale.
        const auto peak = std::abs (*std::max_element (wav.samples.begin(), wav.samples.end(),
                                                       [] (double a, double b) { return std::abs (a) < std::abs (b); }));
        CHECK (peak == Approx (0.708).epsilon (0.001));
    }
}

TEST_CASE ("A stroke twice as fast is about twice the pressure on a fixed scale", "[render]")
{
    const auto loudness = [] (const char* speed)
    {
        const auto wav =
            render ({ "--wires", "off", "--bits", "32f", "--length", "500ms", "--speed", speed, "--full-scale", "100Pa" });
        double sum = 0.0;

        for (const auto sample : wav.samples)
            sum += sample * sample;

        return std::sqrt (sum);
    };

    // A tip gets stiffer as it is compressed, so twice the speed is also a little brighter and not exactly twice the pressure,
    // more so for soft strokes.
    CHECK (loudness ("2m/s") / loudness ("1m/s") == Approx (2.0).epsilon (0.1));
}

TEST_CASE ("A strike at the centre moves no mode with a nodal diameter", "[render]")
{
    const auto middle = render ({ "--wires", "off", "--bits", "32f", "--length", "2s", "--position", "0" });
    const auto off = render ({ "--wires", "off", "--bits", "32f", "--length", "2s", "--position", "0.5" });
    const auto document = files::parseJson (runProgram ({ "modes", "maple-14x5", "--json" }).output, "modes");

    for (const auto& mode : document)
    {
        if (mode.at ("m").get<double>() != 1.0 || mode.at ("batter_share").get<double>() < 0.4)
            continue;

        const auto hertz = mode.at ("frequency_hz").get<double>();
        CHECK (amplitudeAt (middle, hertz, 4800, 48000) < 0.02 * amplitudeAt (off, hertz, 4800, 48000));
        break;
    }
}

namespace
{
/** Loudness of a 48 kHz file after ITU-R BS.1770-4 with the coefficients that it prints, without gates: the mean over the loudest
   block of 400 ms and those within 10 dB below the mean of all above -70. */
double loudnessOf (const WavContent& wav)
{
    const auto channels = static_cast<std::size_t> (wav.channels);
    std::vector<double> tenths;

    for (std::size_t c = 0; c < channels; ++c)
    {
        double x1 = 0, x2 = 0, s1 = 0, s2 = 0, y1 = 0, y2 = 0;

        for (std::size_t i = 0; i < wav.samples.size() / channels; ++i)
        {
            const double x = wav.samples[i * channels + c];
            const double s = 1.53512485958697 * x - 2.69169618940638 * x1 + 1.19839281085285 * x2 + 1.69065929318241 * s1 -
                             0.73248077421585 * s2;
            const double y = s - 2.0 * s1 + s2 + 1.99004745483398 * y1 - 0.99007225036621 * y2;
            x2 = x1, x1 = x, s2 = s1, s1 = s, y2 = y1, y1 = y;
            tenths.resize (std::max (tenths.size(), i / 4800 + 1));
            tenths[i / 4800] += y * y / 4800.0;
        }
    }

    const auto mean = [&] (double gate)
    {
        double sum = 0.0;
        int count = 0;

        for (std::size_t i = 0; i + 4 <= wav.samples.size() / channels / 4800; ++i)
            if (const double block = 0.25 * (tenths[i] + tenths[i + 1] + tenths[i + 2] + tenths[i + 3]); block > gate)
            {
                sum += block;
                ++count;
            }

        return sum / std::max (1, count);
    };
    return -0.691 + 10.0 * std::log10 (mean (0.1 * mean (std::pow (10.0, (-70.0 + 0.691) / 10.0))));
}
} // namespace

TEST_CASE ("Several tunings in one call have one scale, or one loudness, and do not clip", "[render]")
{
    const TemporaryFolder folder;
    const auto renderAll = [&] (std::vector<std::string> options)
    {
        std::vector<std::string> arguments{ "render",   "maple-14x5", "--length", "1s",         "--output",
                                            "take.wav", "--batter",   "10mil",    "--interval", "P4" };
        arguments.insert (arguments.end(), options.begin(), options.end());
        for (const auto* word : { "vs", "--interval", "P5", "--wires", "off" })
            arguments.emplace_back (word);
        const auto run = runProgram (arguments, folder.path());
        CAPTURE (run.errors);
        REQUIRE (run.status == 0);
        return std::array{ readWav (readBytes (folder.path() / "take-1.wav")),
                           readWav (readBytes (folder.path() / "take-2.wav")) };
    };
    const auto peakOf = [] (const WavContent& wav)
    {
        double peak = 0.0;
        for (const auto sample : wav.samples)
            peak = std::max (peak, std::abs (sample));
        return peak;
    };

    const auto plain = renderAll ({});
    const auto fixed = renderAll ({ "--full-scale", "2000Pa" });
    CHECK (std::max (peakOf (plain[0]), peakOf (plain[1])) == Approx (0.708).epsilon (0.001));
    CHECK (peakOf (plain[0]) / peakOf (plain[1]) == Approx (peakOf (fixed[0]) / peakOf (fixed[1])).epsilon (0.001));

    for (const auto& wav : renderAll ({ "--loudness", "-30LUFS" }))
        CHECK (loudnessOf (wav) == Approx (-30.0).margin (0.05));

    // Too loud for the peaks: both come down by the same amount.
    const auto loud = renderAll ({ "--loudness", "-5LUFS" });
    CHECK (loudnessOf (loud[0]) == Approx (loudnessOf (loud[1])).margin (0.05));
    CHECK (std::max (peakOf (loud[0]), peakOf (loud[1])) == Approx (0.891).epsilon (0.001));
}

TEST_CASE ("Every tuning of a drum goes to a file of its own", "[render]")
{
    const TemporaryFolder folder;
    const auto run =
        runProgram ({ "render", "maple-14x5", "--every-tuning", "--length", "100ms", "--output", "take.wav" }, folder.path());
    CAPTURE (run.errors);
    REQUIRE (run.status == 0);
    const auto drum = files::parseJson (readBytes (SNAREWRIGHT_PRESETS "/maple-14x5.json"), "drum");
    CHECK (folder.count() == static_cast<int> (drum.at ("tunings").size()));

    for (const auto& wrong : { std::vector<std::string>{ "--loudness", "-23dB" },
                               { "--loudness", "3LUFS" },
                               { "--loudness", "-23LUFS", "--each" },
                               { "--loudness", "-23LUFS", "--full-scale", "100Pa" },
                               { "--loudness", "-23LUFS", "--length", "0.2s" },
                               { "--every-tuning", "vs", "--interval", "P5" },
                               { "--one-file", "-" },
                               { "--one-file", "all.wav", "--each" },
                               { "--one-file", "wrong-1.wav", "vs", "--interval", "P5" },
                               { "--one-file", "all.wav", "--listener", "mono", "vs", "--place", "club" } })
    {
        std::vector<std::string> arguments{ "render", "maple-14x5", "--output", "wrong.wav" };
        arguments.insert (arguments.end(), wrong.begin(), wrong.end());
        CAPTURE (wrong);
        CHECK (runProgram (arguments, folder.path()).status == 2);
    }
}

TEST_CASE ("Standard output carries the same WAV", "[render]")
{
    const TemporaryFolder folder;
    const std::vector<std::string> strike{ "render", "maple-14x5", "--length", "50ms", "--output" };
    auto toFile = strike, toOutput = strike;
    toFile.emplace_back ("a.wav");
    toOutput.emplace_back ("-");
    CHECK (runProgram (toFile, folder.path()).status == 0);
    CHECK (runProgram (toOutput, folder.path()).output == readBytes (folder.path() / "a.wav"));
}
