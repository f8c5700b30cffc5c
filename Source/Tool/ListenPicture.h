#pragma once

#include "Arguments.h"

#include "Fitting/Partial.h"
#include "Listening/Taps.h"

#include <string>
#include <vector>

namespace tool
{

/** One recording, its taps and the partials of each that are to be shown. */
struct HeardFile
{
    std::string name;
    listening::Recording recording;
    std::vector<listening::Tap> taps;
    std::vector<std::vector<fitting::Partial>> partials;
};

/** Writes the picture that `--picture` asks for, if it is given: of each tap a spectrogram from just before the blow, with its
    partials drawn over it until they have faded by 40 dB, from the frequency they start at to that at which they rest, and their
    notes and rings beside it. At most twelve taps. Throws modal::InputError for a file of another ending. */
void writeListenPicture (const Arguments&, const std::vector<HeardFile>&);

} // namespace tool
