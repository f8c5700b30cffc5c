#include "PlayedResponse.h"

#include "Brightness.h"
#include "DecayTime.h"
#include "Drum.h"
#include "Filters.h"
#include "PlayedRing.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <memory>

namespace engine
{

namespace
{

constexpr double listeningTime = 1.0;              // s, length of the analysed stroke
constexpr double attackTime = 0.02;                // s
constexpr double middleFrom = 0.3, middleTo = 0.5; // s
constexpr double earlyTime = 0.05;                 // s
constexpr double wireTime = 0.04;                  // s within which a soft stroke must lift the wires
constexpr double respondingShare = 0.1;            // of the force that the wires bear on the head with
constexpr int block = 32;                          // frames; wires are checked once per block

/** Above this, in Hz, a stroke's sound with the wires on is mostly theirs. */
constexpr double snareSoundFrom = 2000.0;

Stroke tipStroke (double position, double speed)
{
    Stroke stroke;
    stroke.position = position;
    stroke.speed = speed;
    return stroke;
}

Stroke sweepStroke()
{
    Stroke stroke = tipStroke (0.5, SweepResponse::speed);
    stroke.kind = StrokeKind::sweep;
    stroke.sweepForce = SweepResponse::force;
    stroke.sweepTime = listeningTime;
    return stroke;
}

/** Plays a drum block by block into a scratch buffer. */
class Player
{
public:
    explicit Player (std::shared_ptr<const DrumModel> model) : drum (std::move (model))
    {
        for (std::size_t m = 0; m < buffers.size(); ++m)
            outputs[m] = buffers[m].data();
    }

    void strike (const Stroke& stroke)
    {
        drum.reset();
        drum.strike (stroke);
    }

    /** The next block of the first microphone. */
    const std::array<float, block>& next()
    {
        drum.process (outputs.data(), block);
        return buffers[0];
    }

    /** Share of what the wires bear on the head with at rest that is lifted off it now. */
    double shareOfLiftedForce() const
    {
        const auto& state = drum.state();
        double bearing = 0.0, lifted = 0.0;

        for (int i = 0; i < state.classes * state.combinations; ++i)
        {
            const auto atRest = static_cast<double> (state.restForce[i]);
            bearing += atRest;
            lifted += state.compression[i] <= 0.0f ? atRest : 0.0;
        }

        return bearing > 0.0 ? lifted / bearing : 0.0;
    }

    const BlowReport& lastBlow() const noexcept { return drum.lastBlow(); }

private:
    Drum drum;
    std::array<std::array<float, block>, maxMicrophones> buffers{};
    std::array<float*, maxMicrophones> outputs{};
};

bool wiresRespond (Player& player, double position, double speed, double sampleRate)
{
    player.strike (tipStroke (position, speed));

    for (int frame = 0; frame < wireTime * sampleRate; frame += block)
    {
        player.next();

        if (player.shareOfLiftedForce() >= respondingShare)
            return true;
    }

    return false;
}

double softestSpeed (Player& player, double position, double sampleRate)
{
    double silent = 0.01, speaking = 10.0;

    if (! wiresRespond (player, position, speaking, sampleRate))
        return std::numeric_limits<double>::infinity();

    if (wiresRespond (player, position, silent, sampleRate))
        return silent;

    while (speaking / silent > 1.05)
    {
        const double middle = std::sqrt (silent * speaking);
        (wiresRespond (player, position, middle, sampleRate) ? speaking : silent) = middle;
    }

    return speaking;
}

/** How long a sound above `snareSoundFrom` decays. Its energy is integrated backwards from the end (Schroeder 1965, as ISO 3382
    does) and its fall taken to -25 dB, since single moments of rattling wires, and the last ones, differ by chance. */
class SnareDecay
{
public:
    explicit SnareDecay (double sampleRate) : rate (sampleRate), window (static_cast<int> (0.005 * sampleRate))
    {
        constexpr double qualities[] = { 0.5411961, 1.3065630 }; // of a fourth-order Butterworth filter
        for (std::size_t i = 0; i < shapes.size(); ++i)
            shapes[i] = HighPassCoefficients<double>::twoPoles (snareSoundFrom, qualities[i], rate);
    }

    void add (double sample)
    {
        for (std::size_t i = 0; i < shapes.size(); ++i)
            sample = states[i].next ({ sample }, shapes[i])[0];

        if (frames++ % window == 0)
            energies.push_back (0.0);

        energies.back() += sample * sample;
    }

    /** s; 0 if nothing is heard. */
    double time() const
    {
        if (std::all_of (energies.begin(), energies.end(), [] (double energy) { return energy == 0.0; }))
            return 0.0;

        std::vector<double> levels (energies.size());
        double left = 1.0e-300;

        for (std::size_t i = energies.size(); i-- > 0;)
        {
            left += energies[i];
            levels[i] = 10.0 * std::log10 (left);
        }

        return decayTime (levels, window / rate, -25.0);
    }

private:
    double rate;
    int window, frames = 0;
    std::array<HighPassCoefficients<double>, 2> shapes;
    std::array<HighPassState<double, 1>, 2> states;
    std::vector<double> energies; ///< of each window
};

/** What is heard of one stroke. */
struct Heard
{
    std::vector<float> attack, middle; ///< the first 20 ms, and what a sweep has settled to
    double early = 0.0, late = 0.0;    ///< energy
    double snareSound = 0.0;           ///< s
    BlowReport blow;
};

double decibels (double energy, double against)
{
    return energy > 0.0 ? 10.0 * std::log10 (energy / std::max (against, 1.0e-300)) : 0.0;
}

Heard listenTo (Player& player, const Stroke& stroke, double sampleRate)
{
    player.strike (stroke);

    Heard heard;
    SnareDecay snare (sampleRate);
    int frame = 0;

    while (frame < listeningTime * sampleRate)
    {
        for (const float sample : player.next())
        {
            const double time = frame++ / sampleRate, energy = static_cast<double> (sample) * sample;

            if (time < attackTime)
                heard.attack.push_back (sample);

            if (time >= middleFrom && time < middleTo)
                heard.middle.push_back (sample);

            (time < earlyTime ? heard.early : heard.late) += energy;
            snare.add (static_cast<double> (sample));
        }
    }

    heard.snareSound = snare.time();
    heard.blow = player.lastBlow();
    return heard;
}

} // namespace

PlayedResponse playedResponse (const DrumSetup& setup, const ResponseStrokes& strokes)
{
    PlayedResponse response;
    const auto model = std::make_shared<const DrumModel> (setup);
    Player player (model);
    auto stroke = tipStroke (strokes.position, strokes.speed);

    const auto tip = listenTo (player, stroke, setup.sampleRate);
    response.brightness = brightnessOf (tip.attack, setup.sampleRate);
    response.earlyToLate = decibels (tip.early, tip.late);
    response.contactTime = tip.blow.contactTime;
    response.peakForce = tip.blow.peakForce;
    response.rebound = tip.blow.reboundShare;

    response.landingTime = tip.blow.landingTime;
    response.isBrush = setup.stick.isBrush();

    if (strokes.withOthers && response.isBrush)
    {
        const auto sweep = listenTo (player, sweepStroke(), setup.sampleRate);
        response.sweep = { decibels (sweep.early + sweep.late, tip.early + tip.late),
                           brightnessOf (sweep.middle, setup.sampleRate) };
    }
    else if (strokes.withOthers)
    {
        stroke.kind = StrokeKind::rimshot;
        const auto rimshot = listenTo (player, stroke, setup.sampleRate);
        response.rimshot = { rimshot.blow.contactTime, rimshot.blow.peakForce, rimshot.blow.hoopForce,
                             decibels (rimshot.early + rimshot.late, tip.early + tip.late),
                             brightnessOf (rimshot.attack, setup.sampleRate) };
    }

    if (model->wireContacts() > 0)
    {
        response.snareSound = tip.snareSound;
        if (strokes.withOthers)
            response.ringWiresOn = playedRing (setup, strokes.position, strokes.speed);

        for (const double position : strokes.wirePositions)
            response.wireResponse.push_back ({ position, softestSpeed (player, position, setup.sampleRate) });
    }

    return response;
}

} // namespace engine
