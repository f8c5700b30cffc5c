#include "Material.h"

#include "Modal/DrumSpec.h"
#include "Modal/InputError.h"

#include <array>

namespace modal
{

namespace
{
// Densities and moduli as handbooks print them (from memory: metals as in Kaye & Laby's and the CRC tables, woods along the
// grain as in the Forest Products Laboratory's Wood Handbook at 12 % moisture). A ply shell has about half its plies along
// the ring, so woods count at 0.6 of their modulus along the grain. Loss factors: metals and woods in the range that room
// acoustics texts give, for the order of magnitude.
// New materials go to the end: a saved choice may be a place in this order.
const std::array<Material, 10>& materials()
{
    static const std::array<Material, 10> table{ {
        { "maple", 705.0, 0.6 * 12.6e9, 0.012 },
        { "birch", 680.0, 0.6 * 13.9e9, 0.012 },
        { "beech", 720.0, 0.6 * 11.9e9, 0.013 },
        { "mahogany", 550.0, 0.6 * 10.3e9, 0.014 },
        { "oak", 680.0, 0.6 * 12.3e9, 0.014 },
        { "brass", 8500.0, 104.0e9, 0.001 },
        { "bronze", 8800.0, 112.0e9, 0.001 },
        { "aluminium", 2700.0, 70.0e9, 0.001 },
        { "steel", 7850.0, 205.0e9, 0.001 },
        { "acrylic", 1190.0, 3.2e9, 0.04 },
    } };

    return table;
}
} // namespace

std::vector<std::string> materialNames()
{
    std::vector<std::string> names;

    for (const auto& material : materials())
        names.push_back (material.name);

    return names;
}

const Material& findMaterial (const std::string& name)
{
    std::string known;

    for (const auto& material : materials())
    {
        if (material.name == name)
            return material;

        known += (known.empty() ? "" : ", ") + material.name;
    }

    throw InputError ("shell material", "\"" + name + "\"", known);
}

} // namespace modal
