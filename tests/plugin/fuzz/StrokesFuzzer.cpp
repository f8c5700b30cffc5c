// Any bytes as the strokes of a pattern: strokes in order within its length that can be played, or a reason.

#include "Modal/InputError.h"
#include "Score/PatternText.h"

#include <cstdint>
#include <cstdlib>

extern "C" int LLVMFuzzerTestOneInput (const std::uint8_t* data, std::size_t size)
{
    if (size == 0)
        return 0;

    const score::PatternTempo tempo{ 20.0 + data[0], 1 + data[0] % 16 };
    const std::string text (reinterpret_cast<const char*> (data + 1), size - 1);

    try
    {
        double before = 0.0;
        for (const auto& event : score::readPattern (text, tempo, "fuzz"))
        {
            if (! (event.time >= before && event.stroke.speed > 0.0 && event.stroke.speed <= 12.0))
                std::abort();
            before = event.time;
        }
        if (! (score::patternLength (text, tempo) > before))
            std::abort();
    }
    catch (const modal::InputError& e)
    {
        if (*e.what() == '\0')
            std::abort();
    }
    return 0;
}
