#include "Taps.h"

#include "Envelope.h"

#include <algorithm>
#include <cmath>

namespace listening
{
namespace
{

constexpr double lowest = 80.0, highest = 4000.0; // Hz, where drums sound
constexpr double tapFrame = 1.0e-3;               // s

constexpr double rise = 8.0;          // power over the mean of the frames before
constexpr double belowLoudest = 4e-4; // of the loudest frame's power
constexpr double belowLoudestAttack = 0.01;
constexpr double overNoise = 6.0;   // power over that of the quietest moment
constexpr double deadTime = 0.03;   // s after an onset
constexpr double doubleTime = 0.25; // s
constexpr double settling = 5.0e-3;

/** Longest pause of a ringing head between two beats of its modes, s. */
constexpr double longestLull = 0.12;

/** Index of a rise at or after `first`, or the envelope's size. A recording that is cut at the stroke starts with a rise. What is
   no louder than the last `lull` seconds is a beat of the ringing head. */
std::size_t nextRise (const Envelope& envelope, std::size_t first, double floor, double lull)
{
    const auto before = static_cast<std::size_t> (settling / envelope.frameSeconds);
    const auto ringing = static_cast<std::size_t> (lull / envelope.frameSeconds);
    const auto loudestBefore = [&] (std::size_t i)
    {
        const auto at = [&] (std::size_t frames) { return envelope.power.begin() + static_cast<std::ptrdiff_t> (frames); };
        return i == 0 || ringing == 0 ? 0.0 : *std::max_element (at (i > ringing ? i - ringing : 0), at (i));
    };

    for (auto i = first; i < envelope.power.size(); ++i)
    {
        double mean = 0.0;
        const auto from = i > before ? i - before : 0;

        for (auto j = from; j < i; ++j)
            mean += envelope.power[j] / static_cast<double> (i - from);

        // The next few frames count too, so that a single loud sample of noise is no tap.
        const double now =
            envelope.mean (static_cast<double> (i) * envelope.frameSeconds, static_cast<double> (i + 4) * envelope.frameSeconds);

        if (envelope.power[i] > floor && now > floor && now > rise * mean && now > loudestBefore (i))
            return i;
    }

    return envelope.power.size();
}

bool isClipped (const Recording& recording, double from, double to)
{
    constexpr double limit = 0.999;
    constexpr int enough = 4; // samples in a row
    const auto first = static_cast<std::size_t> (from * recording.sampleRate);
    const auto last = std::min (recording.samples.size(), static_cast<std::size_t> (to * recording.sampleRate));
    int inRow = 0;

    for (auto i = first; i < last; ++i)
    {
        inRow = std::abs (recording.samples[i]) >= limit ? inRow + 1 : 0;

        if (inRow >= enough)
            return true;
    }

    return false;
}

/** Power in a band over time, and that of the noise in it. */
struct Band
{
    Band (const Recording& recording, double low, double high, double quiet)
        : envelope (envelopeOf (recording, low, high, tapFrame)), noise (envelope.mean (quiet, quiet + quietSpan))
    {
    }

    /** Power above the noise between two times. */
    double over (double from, double to) const { return envelope.mean (from, to) - noise; }

    Envelope envelope;
    double noise;
};

struct Bands
{
    Band drum, coils, hiss;
};

/** Wires that strike the head again and again rattle above 3.5 kHz, where a head alone is silent by then. Close to the head even
   their faint hiss above 5 kHz is detected by its spectrum: the ring of a head falls steeply with frequency, hits of the wires do
   not. */
bool hasRattle (const Tap& tap, const Bands& bands)
{
    // From recordings played by the model, taps and strikes. Coils over the tone: 1e-3 and more with wires on, 4e-4 at most
    // without. Hiss over the tone: 6e-5 and more, and over the coils: 0.40 to 0.70 with wires on, 0.29 at most without.
    constexpr double coilShare = 1.5e-3, hissShare = 2.0e-5, hissOfCoils = 0.34;
    const double from = tap.start + 0.07, to = tap.start + 0.14; // the stick's own sound is over by then
    const double tone = std::max (0.0, bands.drum.over (from, to));
    const double coils = bands.coils.over (from, to), hiss = bands.hiss.over (from, to);
    const bool hasCoils = coils > coilShare * tone && coils > bands.coils.noise;
    const bool hasHiss = hiss > hissShare * tone && hiss > bands.hiss.noise && hiss > hissOfCoils * coils;
    return hasCoils || hasHiss;
}

void judge (Tap& tap, const Recording& recording, const Bands& bands)
{
    const double signal = bands.drum.envelope.mean (tap.start, std::min (tap.end, tap.start + 0.25));
    tap.signalToNoise = 10.0 * std::log10 (std::max (signal, 1e-30) / std::max (bands.drum.noise, 1e-30));

    if (tap.signalToNoise < 10.0)
        tap.troubles.push_back (Trouble::noisy);

    if (hasRattle (tap, bands))
        tap.troubles.push_back (Trouble::wiresOn);

    const double before = bands.drum.envelope.mean (tap.start - 0.06, tap.start - 0.01);

    if (before > 10.0 * bands.drum.noise && before > 0.01 * signal)
        tap.troubles.push_back (Trouble::notQuiet);

    if (isClipped (recording, tap.start, tap.end))
        tap.troubles.push_back (Trouble::clipped);

    if (tap.end - tap.start < 0.2)
        tap.troubles.push_back (Trouble::cutShort);
}

} // namespace

bool Tap::has (Trouble trouble) const noexcept
{
    return std::find (troubles.begin(), troubles.end(), trouble) != troubles.end();
}

bool Tap::isUnusable() const noexcept
{
    return has (Trouble::doubleHit) || has (Trouble::wiresOn) || has (Trouble::cutShort) || signalToNoise < 0.0;
}

bool Tap::canBeStrike() const noexcept
{
    constexpr double longEnough = 0.35; // s
    return ! has (Trouble::wiresOn) && end - lastBlow > longEnough && signalToNoise >= 0.0;
}

double quietestMoment (const Recording& recording)
{
    const auto envelope = envelopeOf (recording, lowest, highest, tapFrame);
    double quietest = -1.0, at = 0.0;

    // The filters' start-up is not a quiet moment.
    for (double start = 0.005; start + quietSpan <= recording.seconds(); start += 0.25 * quietSpan)
    {
        const double power = envelope.mean (start, start + quietSpan);

        if (quietest < 0.0 || power < quietest)
        {
            quietest = power;
            at = start;
        }
    }

    return at;
}

std::vector<Tap> findTaps (const Recording& recording)
{
    check (recording);
    const double quiet = quietestMoment (recording);
    const Bands bands{ { recording, lowest, highest, quiet },
                       { recording, 3500.0, 5000.0, quiet },
                       { recording, 5000.0, 12000.0, quiet } };

    // A stroke on a ringing head shows above 1.5 kHz, where heads hardly ring.
    const auto attack = envelopeOf (recording, 1500.0, 6000.0, tapFrame);
    const auto floorOf = [quiet] (const Envelope& envelope, double share)
    {
        const double loudest = *std::max_element (envelope.power.begin(), envelope.power.end());
        return std::max (share * loudest, overNoise * envelope.mean (quiet, quiet + quietSpan));
    };
    const double drumFloor = floorOf (bands.drum.envelope, belowLoudest), attackFloor = floorOf (attack, belowLoudestAttack);
    const auto nextBlow = [&] (std::size_t first) {
        return std::min (nextRise (bands.drum.envelope, first, drumFloor, longestLull),
                         nextRise (attack, first, attackFloor, 0.0));
    };
    std::vector<Tap> taps;

    for (auto i = nextBlow (0); i < bands.drum.envelope.power.size();
         i = nextBlow (i + static_cast<std::size_t> (deadTime / tapFrame)))
    {
        const double start = static_cast<double> (i) * bands.drum.envelope.frameSeconds;

        if (! taps.empty() && start - taps.back().start < doubleTime)
        {
            if (! taps.back().has (Trouble::doubleHit))
                taps.back().troubles.push_back (Trouble::doubleHit);

            taps.back().lastBlow = start;
            continue;
        }

        taps.push_back ({ .start = start, .lastBlow = start });
    }

    for (std::size_t i = 0; i < taps.size(); ++i)
    {
        auto& tap = taps[i];
        tap.end = i + 1 < taps.size() ? taps[i + 1].start : recording.seconds();

        const auto first = static_cast<std::size_t> (tap.start * recording.sampleRate);
        const auto last = std::min (recording.samples.size(), static_cast<std::size_t> (tap.end * recording.sampleRate));

        for (auto s = first; s < last; ++s)
            tap.peak = std::max (tap.peak, std::abs (recording.samples[s]));

        judge (tap, recording, bands);
    }

    return taps;
}

} // namespace listening
