#include "AtListener.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace place
{
namespace
{
constexpr double infinite = std::numeric_limits<double>::infinity();
constexpr std::size_t middle = 3, wires = 5;  ///< octaves of 1 kHz and 4 kHz
constexpr double fast = 0.125;                // s
constexpr double aboveNoise = 10.0;           // dB
constexpr double furthest = 3000.0;           // m, in the open air
constexpr double referencePressure = 20.0e-6; // Pa, ISO 1683

/** A-weighting in the middle of each octave, dB (IEC 61672-1). */
constexpr Octaves aWeighting{ -16.1, -8.6, -3.2, 0.0, 1.2, 1.0, -1.1 };

double decibels (double energy, double seconds)
{
    return 10.0 * std::log10 (std::max (energy, 1.0e-30) / (referencePressure * referencePressure * seconds));
}

/** Energy at a distance over that at 1 m, direct and reverberant, in one octave. */
double energyAt (const Place& place, const Box& box, const Decay& decay, std::size_t octave, double distance)
{
    const double direct = std::pow (10.0, -0.1 * decay.airLoss[octave] * (distance - 1.0)) / (distance * distance);
    return place.kind == Place::Kind::openAir
               ? direct
               : direct + reverberantEnergy (place.volume, decay.time[octave], distance, box.soundSpeed);
}

/** A note that decays by 60 dB in `time` seconds, heard in a room with `reverberation` seconds: energy after `t` seconds. */
struct NoteInRoom
{
    double direct,
        perSecond;     ///< energy of the direct sound, and of reverberation that one second of the note's first level gives
    double note, room; ///< rates of decay of energy, 1/s

    double operator() (double t) const
    {
        const double apart = note - room;
        const double builtUp = std::abs (apart * t) < 1.0e-6 ? t : -std::expm1 (-apart * t) / apart;
        return direct * std::exp (-note * t) + perSecond * std::exp (-room * t) * builtUp;
    }
};

/** s until it is 60 dB below its loudest. */
double lastingTime (const NoteInRoom& note)
{
    // Loudest where the derivative of its energy is zero: at the start, unless the room fills faster than the note decays.
    const double filling = note.perSecond - note.note * note.direct, apart = note.note - note.room;
    const double later = filling / (note.room * note.perSecond);
    const double at = filling <= 0.0 ? 0.0 : std::abs (apart * later) < 1.0e-6 ? later : std::log1p (apart * later) / apart;
    const double loudest = note (at), slower = std::min (note.note, note.room);
    double low = at, high = at + 1.0 / slower;
    while (note (high) > 1.0e-6 * loudest)
        high += 5.0 / slower;
    for (int i = 0; i < 50; ++i)
        (note (0.5 * (low + high)) > 1.0e-6 * loudest ? low : high) = 0.5 * (low + high);
    return high;
}

} // namespace

NoteAtListener::NoteAtListener (const Place& place)
    : isRoom (place.kind == Place::Kind::room), volume (place.volume), decay (place)
{
    const Box box (place);
    distance = place::distance (drumIn (place, box), listenerIn (place, box));
    soundSpeed = box.soundSpeed;
}

double NoteAtListener::lasts (double frequency, double time) const
{
    if (! isRoom || ! std::isfinite (time))
        return time;

    const double sixty = 6.0 * std::log (10.0), roomTime = atFrequency (decay.time, frequency), room = sixty / roomTime;
    return lastingTime (
        { 1.0 / (distance * distance), room * reverberantEnergy (volume, roomTime, distance, soundSpeed), sixty / time, room });
}

double noiseAt4kHz (double rating) noexcept
{
    return -6.1 + 1.025 * rating;
}

AtListener atListener (const Place& place, double noteFrequency, double noteTime, const Octaves& stroke)
{
    const Box box (place);
    const Decay decay (place);
    const bool isRoom = place.kind == Place::Kind::room;

    AtListener result;
    result.distance = distance (drumIn (place, box), listenerIn (place, box));

    double energy = 0.0;
    for (std::size_t i = 0; i < stroke.size(); ++i)
        energy += stroke[i] * energyAt (place, box, decay, i, result.distance) * std::pow (10.0, 0.1 * aWeighting[i]);
    result.level = decibels (energy, 1.0);

    const auto critical = [&] (std::size_t octave)
    { return criticalDistance (place.volume, decay.time[octave], box.soundSpeed); };
    result.directOverReverberant = isRoom ? 20.0 * std::log10 (critical (middle) / result.distance) : infinite;
    result.wiresClearTo = isRoom ? critical (wires) : infinite;

    result.noteLasts = NoteAtListener (place).lasts (noteFrequency, noteTime);

    const double softest = noiseAt4kHz (place.noiseRating) + aboveNoise;
    const auto isHeard = [&] (double far)
    { return decibels (stroke[wires] * energyAt (place, box, decay, wires, far), fast) >= softest; };
    double low = 0.0, high = isRoom ? std::hypot (box.length, box.width, box.height) : furthest;
    if (isHeard (high))
        low = high = infinite;
    for (int i = 0; i < 50 && std::isfinite (high); ++i)
        (isHeard (std::max (0.5 * (low + high), 1.0e-3)) ? low : high) = 0.5 * (low + high);
    result.wiresHeardTo = high;
    return result;
}

} // namespace place
