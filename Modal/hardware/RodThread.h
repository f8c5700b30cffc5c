#pragma once

#include <string>

namespace modal
{

/** A range of a quantity that is not known better. */
struct Spread
{
    double low;
    double usual;
    double high;
};

/** The screw that a tension rod is. 12-24 UNC by default: 0.216 in across, 24 threads an inch (ASME B1.1). */
struct RodThread
{
    std::string name = "12-24 UNC";
    double majorDiameter = 0.216 * 0.0254; ///< m, 2 to 12 mm
    double pitch = 0.0254 / 24.0;          ///< m a turn, 0.3 to 2.5 mm

    /** Of the basic profile, m: major diameter − 0.649519 × pitch (ASME B1.1; the same for ISO 68-1's profile). */
    double pitchDiameter() const noexcept;

    /** Reads "12-24 UNC", "M6x1", "10-32 UNF", or any unified (number or inch) or metric size with its pitch. Throws InputError
       on `field`. */
    static RodThread parse (const std::string& text, const std::string& field);
};

/** What turning a rod against its pull takes, N·m: the thread's slope, friction on its flanks and under the head,

        T = F·(P/2π + μ·d₂/(2 cos 30°) + μ·D/2)

    (the usual bolt equation, e.g. VDI 2230 and ISO 16047), with friction of dry to greased steel 0.08 to 0.20 and the washer's
   mean diameter D. Information only: friction makes torque say little about tension. */
Spread torqueFor (const RodThread&, double force, double washerDiameter = 8.5e-3) noexcept;

/** Throws InputError if a size is out of range. */
void check (const RodThread&);

} // namespace modal
