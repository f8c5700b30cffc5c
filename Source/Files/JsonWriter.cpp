#include "Json.h"

#include <nlohmann/json.hpp>

#include <cmath>
#include <cstdint>

namespace files
{
namespace
{
nlohmann::ordered_json converted (const Json& value)
{
    if (const auto* members = value.object())
    {
        auto object = nlohmann::ordered_json::object();

        for (const auto& [key, member] : *members)
            object[key] = converted (member);

        return object;
    }

    if (const auto* items = value.array())
    {
        auto array = nlohmann::ordered_json::array();

        for (const auto& item : *items)
            array.push_back (converted (item));

        return array;
    }

    if (const auto* text = value.text())
        return *text;

    if (const auto* number = value.number())
    {
        constexpr double exactIntegers = 9007199254740992.0; // 2^53: written without a point, as a person would
        const bool isWhole = std::abs (*number) < exactIntegers && std::trunc (*number) == *number;
        return isWhole ? nlohmann::ordered_json (static_cast<std::int64_t> (*number)) : nlohmann::ordered_json (*number);
    }

    return value.boolean() != nullptr ? nlohmann::ordered_json (*value.boolean()) : nlohmann::ordered_json();
}
} // namespace

std::string Json::written() const
{
    return converted (*this).dump (2, ' ', false, nlohmann::ordered_json::error_handler_t::replace) + '\n';
}

} // namespace files
