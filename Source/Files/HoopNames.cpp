#include "HoopNames.h"

#include "NearestWord.h"

#include "Modal/InputError.h"

namespace files
{

const std::array<HoopName, 4>& hoopNames() noexcept
{
    static constexpr std::array<HoopName, 4> names{ {
        { "flanged-1.6mm", "Steel, three flanges, 1.6 mm", "flanged 1.6 mm" },
        { "flanged-2.3mm", "Steel, three flanges, 2.3 mm", "flanged 2.3 mm" },
        { "cast", "Die-cast", "cast" },
        { "wood", "Wood", "wood" },
    } };
    return names;
}

const char* nameOf (const modal::HoopSpec& hoop) noexcept
{
    return hoopNames()[static_cast<std::size_t> (hoop.kind)].name;
}

const char* descriptionOf (const modal::HoopSpec& hoop) noexcept
{
    return hoopNames()[static_cast<std::size_t> (hoop.kind)].description;
}

modal::HoopSpec namedHoop (const std::string& name, const std::string& field)
{
    std::vector<std::string> allowed;

    for (std::size_t i = 0; i < hoopNames().size(); ++i)
    {
        const auto& hoop = hoopNames()[i];
        if (name == hoop.name || name == hoop.formerName)
            return { static_cast<modal::HoopSpec::Kind> (i) };
        allowed.emplace_back (hoop.name);
    }

    throw modal::InputError (field, '"' + name + '"', "a hoop by name: " + listedFor (name, allowed));
}

} // namespace files
