#include "Figure.h"

#include "Modal/NumberText.h"
#include "Modal/pitch/Interval.h"

#include <cmath>

namespace finding
{

using Kind = FigureInfo::Kind;

const std::array<FigureInfo, figureCount>& figures()
{
    static const std::array<FigureInfo, figureCount> all{ {
        { Figure::drumNote, "drum note", "drum-note", "drum_note_hz", "of the finished drum", Kind::note, 10.0, 5000.0, false,
          false },
        { Figure::ring, "ring", "ring", "ring_s", "of the drum note to -60 dB, wires off", Kind::time, 0.001, 60.0, false,
          false },
        { Figure::lasts, "drum note at the listener", "lasts", "drum_note_lasts_s",
          "of the drum note at the listener of the place to -60 dB, wires off; in s or, with --tempo, beats", Kind::time, 0.001,
          60.0, false, true },
        { Figure::interval, "interval", "interval", "interval_semitones", "resonant over batter", Kind::semitones, -24.0, 24.0,
          false, false },
        { Figure::batterNote, "batter tap note", "batter-note", "batter_tap_note_hz", "", Kind::note, 10.0, 5000.0, false,
          false },
        { Figure::resonantNote, "resonant tap note", "resonant-note", "resonant_tap_note_hz", "", Kind::note, 10.0, 5000.0, false,
          false },
        { Figure::batterMove, "batter move", "batter-move", "batter_move_semitones", "semitones from where the batter is",
          Kind::semitones, -48.0, 48.0, false, false },
        { Figure::resonantMove, "resonant move", "resonant-move", "resonant_move_semitones",
          "semitones from where the resonant head is", Kind::semitones, -48.0, 48.0, false, false },
        { Figure::batterStrength, "batter stress", "batter-stress", "batter_yield_share", "of the batter's yield strength",
          Kind::share, 0.0, 1.0, false, false },
        { Figure::resonantStrength, "resonant stress", "resonant-stress", "resonant_yield_share",
          "of the resonant head's yield strength", Kind::share, 0.0, 1.0, false, false },
        { Figure::softestStroke, "snare response", "snare-response", "softest_stroke_m_per_s",
          "softest stroke at the player's place that wakes the wires", Kind::speed, 0.01, 10.0, true, false },
        { Figure::dryness, "dryness", "dryness", "dryness_db", "first 50 ms of the usual stroke against the rest", Kind::decibels,
          -60.0, 60.0, true, false },
        { Figure::brightness, "brightness", "brightness", "attack_brightness_hz", "of the usual stroke's attack", Kind::frequency,
          100.0, 16.0e3, true, false },
        { Figure::contactTime, "contact time", "contact-time", "contact_time_s", "of the usual stroke's stick on the head",
          Kind::time, 1.0e-4, 0.1, true, false },
        { Figure::snareSound, "snare sound", "snare-sound", "snare_sound_s", "how long the wires sound after the usual stroke",
          Kind::time, 0.001, 5.0, true, false },
        { Figure::wiresCarry, "wires carry", "wires-carry", "wires_carry_to_m",
          "how far from the drum the wires of the usual stroke are clear and heard in the place", Kind::distance, 0.1, 3000.0,
          true, true },
    } };
    return all;
}

const FigureInfo& infoOf (Figure figure)
{
    return figures()[static_cast<std::size_t> (figure)];
}

double stepsBetween (Figure figure, double from, double to)
{
    switch (infoOf (figure).kind)
    {
    case Kind::semitones:
    case Kind::decibels:
        return 100.0 * (to - from);
    case Kind::note:
    case Kind::share:
    case Kind::time:
    case Kind::frequency:
    case Kind::speed:
    case Kind::distance:
        break;
    }

    constexpr double least = 1.0e-9;
    return modal::centsBetween (std::max (from, least), std::max (to, least));
}

double atSteps (Figure figure, double from, double steps)
{
    const auto kind = infoOf (figure).kind;
    return kind == Kind::semitones || kind == Kind::decibels ? from + steps / 100.0 : from * std::exp2 (steps / 1200.0);
}

namespace
{

std::string timeText (double seconds)
{
    return seconds < 0.02  ? modal::fixedText (1000.0 * seconds, 1) + " ms"
           : seconds < 0.1 ? modal::fixedText (1000.0 * seconds, 0) + " ms"
                           : modal::fixedText (seconds, 2) + " s";
}

std::string distanceText (double metres)
{
    return modal::fixedText (metres, metres < 10.0 ? 1 : 0) + " m";
}

std::string semitonesText (double semitones)
{
    return modal::fixedText (semitones, 1) + (std::abs (semitones) == 1.0 ? " semitone" : " semitones");
}

} // namespace

std::string textOf (Figure figure, double value, modal::ConcertPitch pitch)
{
    if (std::isnan (value))
        return "not known";

    switch (infoOf (figure).kind)
    {
    case Kind::note:
        return modal::Note::fromFrequency (value, pitch).nameWithCents();
    case Kind::semitones:
        return figure == Figure::interval ? modal::Interval{ value }.longName() : moveText (value);
    case Kind::share:
        return modal::fixedText (100.0 * value, 0) + " %";
    case Kind::decibels:
        return modal::fixedText (value, 1) + " dB";
    case Kind::time:
        return std::isinf (value) ? "endless" : timeText (value);
    case Kind::frequency:
        return modal::fixedText (value, 0) + " Hz";
    case Kind::speed:
        return std::isinf (value) ? "no stroke" : modal::fixedText (value, 2) + " m/s";
    case Kind::distance:
        return std::isinf (value) ? "everywhere" : distanceText (value);
    }

    return {};
}

std::string missText (Figure figure, double value, double limit)
{
    if (std::isnan (value))
        return "not known";

    const bool isAbove = value > limit;
    const double away = std::abs (value - limit);

    switch (infoOf (figure).kind)
    {
    case Kind::note:
        return modal::fixedText (std::abs (modal::centsBetween (limit, value)), 0) + " cents too " + (isAbove ? "high" : "low");
    case Kind::semitones:
        return figure == Figure::interval ? modal::fixedText (100.0 * away, 0) + " cents too " + (isAbove ? "wide" : "narrow")
                                          : semitonesText (away) + " too far " + (isAbove ? "up" : "down");
    case Kind::share:
        return modal::fixedText (100.0 * away, 0) + " % too " + (isAbove ? "much" : "little");
    case Kind::decibels:
        return modal::fixedText (away, 1) + " dB too " + (isAbove ? "dry" : "wet");
    case Kind::time:
        return timeText (away) + " too " + (isAbove ? "long" : "short");
    case Kind::frequency:
        return modal::fixedText (away, 0) + " Hz too " + (isAbove ? "bright" : "dark");
    case Kind::speed:
        return std::isinf (value) ? "no stroke wakes the wires"
                                  : modal::fixedText (away, 2) + " m/s too " + (isAbove ? "hard" : "soft");
    case Kind::distance:
        return std::isinf (value) ? "heard everywhere" : distanceText (away) + " too " + (isAbove ? "far" : "near");
    }

    return {};
}

std::string moveText (double semitones)
{
    constexpr double still = 0.1;
    return std::abs (semitones) < still ? "stays" : (semitones > 0.0 ? "up " : "down ") + semitonesText (std::abs (semitones));
}

} // namespace finding
