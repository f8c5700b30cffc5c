#include "Json.h"

#include "Modal/InputError.h"

namespace files
{

const Json* Json::find (std::string_view key) const noexcept
{
    if (const auto* members = object())
        for (const auto& [name, value] : *members)
            if (name == key)
                return &value;

    return nullptr;
}

std::string Json::described() const
{
    constexpr std::size_t longestQuote = 40;

    if (const auto* b = boolean())
        return *b ? "true" : "false";

    if (const auto* d = number())
        return "number " + modal::asText (*d);

    if (const auto* s = text())
        return "text \"" + (s->size() <= longestQuote ? *s : s->substr (0, longestQuote) + "...") + '"';

    if (array() != nullptr)
        return "a list";

    return object() != nullptr ? "an object" : "null";
}

} // namespace files
