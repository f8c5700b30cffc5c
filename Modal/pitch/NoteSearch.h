#pragma once

#include <functional>
#include <string>

namespace modal
{

/** A frequency that rises with a setting, but may jump where another mode becomes the lowest one that counts. */
struct NoteSearch
{
    std::function<double (double)> noteAt; ///< Hz at a setting; infinite where no mode in the band counts
    double lowest, highest;                ///< settings, positive
    double first;                          ///< a setting to begin with
    double slope;                          ///< roughly, of the note's logarithm over the setting's
    double tolerance;                      ///< of the note's logarithm
};

/** Where a search ended. */
struct NoteFound
{
    double setting;      ///< the nearest to the note; at a jump, either side of it
    double error;        ///< of the note's logarithm there
    double below, above; ///< Hz, the notes that were found next to it; at a jump the ends of the gap
    bool isBeyond;       ///< the note lies outside all that there are
};

/** Looks for a note of `hertz`: a secant on the logarithms, which a bracket keeps from running away. */
NoteFound findNote (double hertz, const NoteSearch&);

/** The setting that gives a note of `hertz`.

    @throws InputError naming `field` and the notes that can be had, if none is within a cent of it. `below` and `above`
            say what ends the range, and `jump` what lies in a gap of it. */
double settingFor (double hertz, const NoteSearch&, const std::string& field, const std::string& below, const std::string& above,
                   const std::string& jump);

} // namespace modal
