#pragma once

#include "Arguments.h"

namespace tool
{

/** Where an option of output points: nullopt without it, "-" for standard output. Throws modal::InputError where that would
    overwrite what the program reads (a drum, a lesson, a place, ...), as `--json drum.json` does when the drum's name was meant, and where a file's
    name does not end in one of `endings`, if there are any. */
std::optional<std::string> outputTarget (const Arguments&, const std::string& option,
                                         const std::vector<std::string>& endings = {});

} // namespace tool
