#pragma once

#include <string>

namespace modal
{

/** Concert pitch: the frequency of A4 in Hz (ISO 16: 440). 400 to 480. */
struct ConcertPitch
{
    double a4 = 440.0;
};

/** A pitch as the nearest tempered note and the cents beyond it. */
struct Note
{
    int midi = 69;      ///< MIDI number, A4 = 69; 0 to 127 when read from text, any when it comes from a frequency
    double cents = 0.0; ///< -50 to 50 when it comes from a frequency

    double frequency (ConcertPitch = {}) const noexcept;

    /** "G#3", or with cents "G#3 +12". */
    std::string name() const;
    std::string nameWithCents() const;

    /** The note nearest to a frequency in Hz, which must be above 0. */
    static Note fromFrequency (double hertz, ConcertPitch = {});

    /** Reads "G#3", "Ab3", "g#3 +12c", "G#3-5". Throws InputError on `field`. */
    static Note parse (const std::string& text, const std::string& field);
};

/** A frequency above 0 Hz as a MIDI note number with fractions, A4 = 69. */
double midiOfHertz (double hertz, ConcertPitch = {}) noexcept;

/** Cents from one frequency up to another. */
double centsBetween (double fromHertz, double toHertz);

/** Throws InputError if concert pitch is out of range. */
void check (ConcertPitch);

} // namespace modal
