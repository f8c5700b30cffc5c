// Any bytes as a lesson: read, or refused with a reason.

#include "Files/LessonFile.h"
#include "Modal/InputError.h"

#include <cstdint>
#include <cstdlib>

extern "C" int LLVMFuzzerTestOneInput (const std::uint8_t* data, std::size_t size)
{
    try
    {
        const auto lesson = files::readLesson ({ reinterpret_cast<const char*> (data), size }, "fuzz");
        if (lesson.steps.empty() || lesson.steps.size() > 100)
            std::abort();
    }
    catch (const modal::InputError& e)
    {
        if (*e.what() == '\0')
            std::abort();
    }
    return 0;
}
