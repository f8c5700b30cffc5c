// Any bytes typed into any parameter: a value in range, or a reason.

#include "Modal/InputError.h"
#include "Plugin/ParameterText.h"

#include <cstdint>
#include <cstdlib>

extern "C" int LLVMFuzzerTestOneInput (const std::uint8_t* data, std::size_t size)
{
    if (size == 0)
        return 0;

    const auto& spec = plugin::parameterTable()[data[0] % plugin::parameterCount];

    try
    {
        const auto value = plugin::valueFrom (std::string (reinterpret_cast<const char*> (data + 1), size - 1), spec);
        if (! (value >= spec.low && value <= spec.high))
            std::abort();
        (void)plugin::textOf (spec, value);
    }
    catch (const modal::InputError& e)
    {
        if (*e.what() == '\0')
            std::abort();
    }
    return 0;
}
