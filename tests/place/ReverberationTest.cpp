#include "Place/Reverberation.h"
#include "Place/AtListener.h"

#include "tests/Catch.h"

#include <cmath>

using namespace place;

TEST_CASE ("Sabine's formula gives a handbook's worked example")
{
    // F. A. Everest, Master Handbook of Acoustics, chapter on reverberation, example 1: an untreated room of 23.3 x 16 x 10 ft
    // with concrete floor and gypsum board, 125 Hz to 4 kHz; absorption in sabins (ft²) and times as printed there, 0.049 V/A
    // (from memory).
    constexpr double foot = 0.3048, volume = 23.3 * 16.0 * 10.0 * foot * foot * foot;
    constexpr std::array<double, 6> sabins{ 339.8, 119.6, 63.6, 53.9, 88.6, 111.8 },
        seconds{ 0.54, 1.53, 2.87, 3.39, 2.06, 1.63 };
    for (std::size_t i = 0; i < sabins.size(); ++i)
        CHECK (sabineTime (volume, sabins[i] * foot * foot, 343.4) == Approx (seconds[i]).epsilon (0.015));

    // 0.161 V/A in metres, in any text on room acoustics.
    CHECK (sabineTime (1000.0, 161.0, 343.4) == Approx (1.0).epsilon (2.0e-3));
}

TEST_CASE ("Eyring's formula has its limits, and Beranek's comparison with Sabine's")
{
    // Eyring 1930: 0 for a room that absorbs all, Sabine's for one that hardly absorbs.
    CHECK (eyringTime (1000.0, 600.0, 1.0 - 1.0e-12, 0.0, 343.4) < 0.02);
    CHECK (eyringTime (1000.0, 600.0, 0.001, 0.0, 343.4) == Approx (sabineTime (1000.0, 0.6, 343.4)).epsilon (1.0e-3));
    // Beranek, JASA 120 (2006) 1399: a Sabine coefficient of 1.0 is one of 0.63 in Eyring's formula (from memory).
    CHECK (eyringTime (1000.0, 600.0, 0.632, 0.0, 343.4) == Approx (sabineTime (1000.0, 600.0, 343.4)).epsilon (1.0e-3));

    for (const double time : { 0.2, 0.8, 3.0 })
        CHECK (eyringTime (500.0, 400.0, eyringAbsorption (500.0, 400.0, time, 0.01, 343.4), 0.01, 343.4) == Approx (time));
}

TEST_CASE ("Critical distance and reverberant level are those of the textbooks")
{
    // Kuttruff, Room Acoustics: 0.057 √(V/T) m; Barron & Lee, JASA 84 (1988) 618: 312 T/V e^(-0.04 r/T) against 1/r² (both from
    // memory).
    CHECK (criticalDistance (10000.0, 2.0, 343.4) == Approx (0.057 * std::sqrt (5000.0)).epsilon (0.01));
    CHECK (reverberantEnergy (10000.0, 2.0, 20.0, 343.4) ==
           Approx (312.0 * 2.0 / 10000.0 * std::exp (-0.04 * 20.0 / 2.0)).epsilon (0.01));
}

namespace
{
/** A stroke with that level at 1 m in the octave of 4 kHz as a meter shows it, and nothing else. */
Octaves strokeAt4kHz (double decibels)
{
    Octaves energy{};
    energy[5] = 0.125 * 4.0e-10 * std::pow (10.0, 0.1 * decibels);
    return energy;
}
} // namespace

TEST_CASE ("In the open air the wires carry as far as spreading and air let them")
{
    Place place;
    place.kind = Place::Kind::openAir;
    place.volume = 1.0e6;
    place.weather = { 283.15, 0.7 };
    place.noiseRating = 40.0;
    // NR 40 is 35 dB at 4 kHz (ISO/R 1996). ISO 9613-2, table 2: 32.8 dB/km at 10 °C and 70 %. 100 dB at 1 m less 40 dB of
    // spreading and 3.2 dB of air in 100 m are 56.8 dB.
    CHECK (noiseAt4kHz (40.0) == Approx (34.9).margin (0.1));
    place.noiseRating = (56.8 - 10.0 + 6.1) / 1.025;
    const auto at = atListener (place, 150.0, 0.8, strokeAt4kHz (100.0));
    CHECK (at.wiresHeardTo == Approx (100.0).epsilon (0.01));
    CHECK (at.wiresCarryTo() == at.wiresHeardTo);
    CHECK (at.noteLasts == 0.8);
    CHECK (std::isinf (at.directOverReverberant));
    CHECK (std::isinf (at.wiresClearTo));
}

TEST_CASE ("How long the drum note lasts in a room is the convolution of its decay with the room's")
{
    Place place;
    place.times[1] = 1.2;
    const Box box (place);
    const double far = distance (drumIn (place, box), listenerIn (place, box));
    for (const double drum : { 0.05, 0.8, 1.2, 3.0 })
    {
        // Convolved in steps: energy e^(-13.8 t/T) of the note, direct and spread over the room's decay, 312 T/V e^(-0.04 r/T) in
        // all.
        constexpr double step = 5.0e-4;
        std::vector<double> energy;
        double loudest = 0.0, reverberant = 0.0;
        const double density = 312.0 * 1.2 / 1000.0 * std::exp (-0.04 * far / 1.2) * 13.816 / 1.2;
        for (double t = 0.0; t < 2.0 * std::max (drum, 1.2); t += step)
        {
            const double note = std::exp (-13.816 * t / drum);
            reverberant = reverberant * std::exp (-13.816 * step / 1.2) + note * step * density;
            energy.push_back (note / (far * far) + reverberant);
            loudest = std::max (loudest, energy.back());
        }
        std::size_t end = energy.size();
        while (energy[end - 1] < 1.0e-6 * loudest)
            --end;
        const double lasts = atListener (place, 250.0, drum, strokeAt4kHz (100.0)).noteLasts;
        CHECK (lasts == Approx (step * static_cast<double> (end)).epsilon (0.01));
        // Longer than the drum alone, and where the room is faster hardly so.
        CHECK (lasts > drum);
        CHECK (lasts < std::max (drum, 1.2) * 1.35);
    }
}

TEST_CASE ("Noise and reverberation limit how far the wires carry in a room")
{
    Place place;
    place.noiseRating = 0.0;
    CHECK (std::isinf (atListener (place, 250.0, 0.5, strokeAt4kHz (100.0)).wiresHeardTo));
    place.noiseRating = 100.0;
    const auto quiet = atListener (place, 250.0, 0.5, strokeAt4kHz (100.0));
    CHECK (quiet.wiresHeardTo < 1.0);
    CHECK (quiet.wiresClearTo == Approx (0.057 * std::sqrt (place.volume / place.times[5])).epsilon (0.01));
}

TEST_CASE ("Level at the listener follows from direct and reverberant energy")
{
    // One stroke of 1 Pa² s at 1 m and 1 kHz: 94 dB for 1 s, less 20 log r outside.
    Octaves energy{};
    energy[3] = 1.0;
    Place place;
    place.kind = Place::Kind::openAir;
    place.volume = 1.0e5;
    place.drumAside = place.listenerAside = 0.0;
    place.drumHeight = place.listenerHeight = 1.5;
    place.listenerDistance = 10.0;
    CHECK (atListener (place, 150.0, 1.0, energy).level == Approx (94.0 - 20.0).margin (0.1));
    // In a room at the critical distance twice the energy, but for what decays on the way.
    place.kind = Place::Kind::room;
    place.volume = 1000.0;
    place.listenerDistance = criticalDistance (place.volume, place.times[3], 343.4);
    const auto at = atListener (place, 150.0, 1.0, energy);
    CHECK (at.directOverReverberant == Approx (0.0).margin (0.02));
    CHECK (at.level == Approx (94.0 - 20.0 * std::log10 (place.listenerDistance) + 3.0).margin (0.5));
}
