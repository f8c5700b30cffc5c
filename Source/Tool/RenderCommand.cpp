#include "Command.h"
#include "DrumOptions.h"
#include "OutputFile.h"
#include "TextTable.h"
#include "WavFile.h"

#include "Engine/LinearStrike.h"
#include "Files/NearestWord.h"
#include "Files/Quantity.h"
#include "Modal/InputError.h"
#include "Modal/Units.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <iostream>

namespace tool
{

using namespace files;

namespace
{
constexpr double usualHighestFrequency = 4000.0; // Hz
constexpr double usualPeak = 0.708;              // of full scale, -3 dB
constexpr int blockSize = 1024;

struct RenderSettings
{
    engine::StrikePulse pulse;
    engine::NearMicrophone microphone;
    double speed = 3.0; ///< of the stick, m/s
    double seconds = 3.0;
    double sampleRate = 48000.0;
    SampleFormat format = SampleFormat::integer24;
    std::optional<double> fullScale; ///< Pa; without it the loudest sample goes to usualPeak
};

/** The stick's mass as it counts at the tip, and the share of speed it comes back with. Together they make the blow's momentum.
    Common practice, no source: half of a 50 g stick, and a lively rebound. */
constexpr double usualTipMass = 0.025, reboundShare = 0.6;

double readOption (const Arguments& arguments, const char* name, const Quantity& quantity, Limits limits, double usual)
{
    const auto text = arguments.value (name);
    return text ? readQuantity (*text, quantity, limits, std::string ("--") + name) : usual;
}

/** "0.3" or "0.3,45deg". */
void readPosition (const Arguments& arguments, engine::StrikePulse& pulse)
{
    constexpr Limits shareLimits{ 0.0, 0.95 }, angleLimits{ -modal::units::twoPi, modal::units::twoPi };
    const auto text = arguments.value ("position");

    if (! text)
        return;

    const auto comma = text->find (',');
    pulse.positionShare = readQuantity (text->substr (0, comma), Quantity::share, shareLimits, "--position, share of the radius");

    if (comma != std::string::npos)
        pulse.angle = readQuantity (text->substr (comma + 1), Quantity::angle, angleLimits, "--position, angle");
}

SampleFormat readFormat (const Arguments& arguments)
{
    static const std::vector<std::string> words{ "16", "24", "32f" };
    const auto text = arguments.value ("bits").value_or ("24");
    const auto found = std::find (words.begin(), words.end(), text);

    if (found == words.end())
        throw modal::InputError ("--bits", '"' + text + '"', listed (words));

    return static_cast<SampleFormat> (found - words.begin());
}

RenderSettings readSettings (const Arguments& arguments)
{
    static const Quantity sampleRate{ "sampling rate", { { "khz", "kHz", 1000.0 }, { "hz", "Hz", 1.0 } }, true };

    RenderSettings s;
    readPosition (arguments, s.pulse);
    s.speed = readOption (arguments, "speed", Quantity::speed, { 0.05, 15.0 }, s.speed);
    const auto tipMass = readOption (arguments, "tip-mass", Quantity::mass, { 1.0e-3, 0.2 }, usualTipMass);
    s.pulse.momentum = tipMass * s.speed * (1.0 + reboundShare);
    s.pulse.contactTime = readOption (arguments, "contact", Quantity::time, { 1.0e-4, 1.0e-2 }, s.pulse.contactTime);
    s.microphone.height = readOption (arguments, "microphone-height", Quantity::length, { 0.02, 2.0 }, s.microphone.height);
    s.seconds = readOption (arguments, "length", Quantity::time, { 0.01, 600.0 }, s.seconds);
    s.sampleRate = std::round (readOption (arguments, "rate", sampleRate, { 22050.0, 192000.0 }, s.sampleRate));
    s.format = readFormat (arguments);

    if (arguments.has ("full-scale"))
        s.fullScale = readOption (arguments, "full-scale", Quantity::soundPressure, { 0.1, 1.0e5 }, 0.0);

    return s;
}

/** Calls `use (pressures, count)` for each block, as long as there are any and it returns true. */
template <class Use>
void forEachBlock (engine::LinearStrike& strike, const RenderSettings& s, Use use)
{
    std::array<double, blockSize> pressures{};
    auto goesOn = true;

    for (auto left = std::llround (s.seconds * s.sampleRate); left > 0 && goesOn; left -= blockSize)
    {
        const auto count = static_cast<int> (std::min<long long> (left, blockSize));
        strike.process (pressures.data(), count);
        goesOn = use (pressures.data(), count);
    }
}

/** The strike is a copy: it is played once to find this and again to be written. */
double peakPressure (engine::LinearStrike strike, const RenderSettings& s)
{
    double peak = 0.0;
    forEachBlock (strike, s,
                  [&] (const double* pressures, int count)
                  {
                      for (int i = 0; i < count; ++i)
                          peak = std::max (peak, std::abs (pressures[i]));

                      return strike.largestStillToCome() > peak;
                  });
    return peak;
}

void writeStrike (engine::LinearStrike& strike, const RenderSettings& s, double scale, WavFile& wav)
{
    std::array<float, blockSize> samples{};
    forEachBlock (strike, s,
                  [&] (const double* pressures, int count)
                  {
                      for (int i = 0; i < count; ++i)
                          samples[static_cast<std::size_t> (i)] = static_cast<float> (scale * pressures[i]);

                      wav.write (samples.data(), count);
                      return true;
                  });
}

void report (const modal::DrumModes& modes, double peak, double scale)
{
    constexpr double reference = 20.0e-6; // Pa, ISO 1683
    constexpr double loud = 130.0;        // dB

    const auto level = 20.0 * std::log10 (std::max (peak, reference) / reference);
    std::cerr << modes.size() << " modes, peak " << fixed (peak, 1) << " Pa (" << fixed (level, 0)
              << " dB) at the microphone, full scale " << fixed (1.0 / scale, 1) << " Pa\n";

    if (peak * scale > 1.0)
        std::cerr << "The loudest samples exceed full scale; integer formats clip them. Raise --full-scale.\n";

    if (level > loud)
        std::cerr << "A drum this loud at this distance harms hearing: wear protection beside it, and turn down before you play "
                     "the file.\n";
}

void run (const std::vector<std::string>& words, const Command& command)
{
    const Arguments arguments (words, command.allOptions());
    const auto target = outputTarget (arguments, "output");

    if (! target)
        throw modal::InputError ("--output", "a missing value", "a file to write, or - for standard output");

    const auto settings = readSettings (arguments);
    const auto tuned = chooseOne (arguments);
    auto options = solveOptions (arguments, usualHighestFrequency);

    // What lies above would fold back into the band.
    constexpr double shareOfRate = 0.45;
    options.highestFrequency = std::min (options.highestFrequency, shareOfRate * settings.sampleRate);

    const auto modes = modal::solve (tuned.drum, modal::tensionsFor (tuned.drum, tuned.tuning), options);
    engine::LinearStrike strike (modes, settings.pulse, settings.microphone, settings.sampleRate);
    const auto peak = peakPressure (strike, settings);
    const auto scale = settings.fullScale ? 1.0 / *settings.fullScale : usualPeak / std::max (peak, 1.0e-12);

    OutputFile output (*target);
    WavFile wav (output.temporaryPath(), settings.sampleRate, settings.format);
    writeStrike (strike, settings, scale, wav);
    wav.close();
    output.commit();
    report (modes, peak, scale);
}
} // namespace

const Command& renderCommand()
{
    static const Command command{
        "render",
        "One strike as a WAV file, from the drum's linear modes",
        "[DRUM] [options] --output FILE.wav",
        "This version plays the coupled modes of heads and air after one strike, without wires: wires, and sticks that bounce, "
        "come later.\n"
        "The stick's contact time is given rather than worked out. The microphone is above the batter head.\n"
        "Play files quietly at first: the attack of a drum is much louder than its average.\n",
        { { "The strike and its recording:",
            { { "output", "FILE.wav", "or - for standard output" },
              { "position", "0.3,0deg", "share of the radius from the middle, 0 to 0.95, and angle" },
              { "speed", "3m/s", "of the stick's tip, 0.05 to 15 m/s" },
              { "tip-mass", "25g", "mass that counts at the tip, 1 to 200 g; it comes back at 0.6 of its speed" },
              { "contact", "1ms", "time on the head, 0.1 to 10 ms; a shorter contact is brighter" },
              { "microphone-height", "100mm", "above the head, half a radius from its middle" },
              { "length", "3s", "up to 600 s" },
              { "rate", "48000", "samples a second, 22050 to 192000" },
              { "bits", "24", "16, 24 or 32f (floating point)" },
              { "full-scale", "200Pa",
                "sound pressure of a full-scale sample, so that files compare;\nwithout it the peak goes to -3 dB" } } } },
        true,
        run
    };
    return command;
}

} // namespace tool
