#pragma once

#include "Modal/DrumSpec.h"
#include "Modal/Tuning.h"

#include <optional>
#include <string>

namespace files
{

/** A tuning as a person gives it, in parts: some of a file, some of the command line. All frequencies in Hz, tensions in N/m. */
struct TuningRequest
{
    std::optional<double> batterNote, resonantNote, batterTension, resonantTension, drumNote;
    std::optional<modal::Interval> interval;

    bool isEmpty() const noexcept;

    /** Adds what `over` gives and drops what that replaces: a resonant note replaces an interval, a drum note both tap notes. */
    void overrideWith (const TuningRequest& over);

    static TuningRequest from (const modal::Tuning&);
};

/** The one tuning that the parts make. Throws modal::InputError on `field` if they are too few, or contradict each other. */
modal::Tuning assemble (const TuningRequest&, const modal::DrumSpec&, const std::string& field);

/** Reads "G#3", "Ab3 -12" or "207.65Hz" to Hz. Throws modal::InputError on `field`. */
double readNote (const std::string& text, modal::ConcertPitch, const std::string& field);

} // namespace files
