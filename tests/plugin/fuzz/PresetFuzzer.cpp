// Any bytes as a drum file or a pattern: read, or refused with a reason.

#include "Files/DrumFile.h"
#include "Modal/InputError.h"
#include "Plugin/DrumRequest.h"
#include "Plugin/Pattern.h"

#include <cstdint>
#include <cstdlib>

extern "C" int LLVMFuzzerTestOneInput (const std::uint8_t* data, std::size_t size)
{
    const std::string text (reinterpret_cast<const char*> (data), size);

    try
    {
        const auto file = files::readDrum (text, "fuzz");
        auto values = plugin::initialValues();
        // A tuning by tension or by drum note needs the solver; that is tested elsewhere and too slow here.
        if (! file.tunings.empty() && std::holds_alternative<modal::ByTapNotes> (file.tunings.front().target))
            plugin::setDrum (values, file, 0);
    }
    catch (const modal::InputError& e)
    {
        if (*e.what() == '\0')
            std::abort();
    }

    try
    {
        const auto pattern = plugin::readPattern (text, "fuzz");
        if (pattern.strokes.empty() || ! (pattern.beats > pattern.strokes.back().time))
            std::abort();
    }
    catch (const modal::InputError&)
    {
    }

    return 0;
}
