#include "MusicSigns.h"

#include <string_view>

namespace modal
{

std::string plainSigns (std::string text)
{
    struct Sign
    {
        std::string_view printed, plain;
    };

    constexpr Sign signs[] = { { "\u266f", "#" }, { "\u266d", "b" }, { "\u2212", "-" } };

    for (const auto& [printed, plain] : signs)
        for (auto at = text.find (printed); at != std::string::npos; at = text.find (printed, at))
            text.replace (at, printed.size(), plain);

    return text;
}

} // namespace modal
