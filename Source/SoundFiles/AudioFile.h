#pragma once

#include "Listening/Recording.h"

#include <string>

namespace soundfiles
{

/** Reads the loudest channel of a WAV, AIFF, FLAC or MP3 file. Throws modal::InputError on `field` if it is missing, of another
   kind, or longer than ten minutes. */
listening::Recording loadRecording (const std::string& path, const std::string& field);

} // namespace soundfiles
