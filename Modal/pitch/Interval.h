#pragma once

#include <array>
#include <string>

namespace modal
{

/** How far the resonant head's tap note stands above the batter's, in semitones of equal temperament (may be negative or
 * fractional). */
struct Interval
{
    double semitones = 5.0; ///< -24 to 24

    double ratio() const noexcept;

    /** Short name of the nearest named interval, with cents if it is off: "P4", "P4 +12 c", "-m2". */
    std::string name() const;
    /** Spelled out: "perfect fourth", "perfect fourth +12 cents", "minor second below", "between major third and fourth". */
    std::string longName() const;

    /** Reads "P4", "perfect fourth", "fourth", "4th", "-m2", "+7 st", "700 c". Throws InputError on `field`. */
    static Interval parse (const std::string& text, const std::string& field);
};

/** A named interval. */
struct NamedInterval
{
    int semitones;
    const char* shortName;
    const char* longName;
};

/** P1 m2 M2 m3 M3 P4 A4 P5 m6 M6 m7 M7 P8. */
const std::array<NamedInterval, 13>& namedIntervals();

} // namespace modal
