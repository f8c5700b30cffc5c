#pragma once

#include "Modal/hardware/Hoop.h"

#include <array>
#include <string>

namespace files
{

/** A kind of hoop by name. */
struct HoopName
{
    const char* name;        ///< what a person types and what files hold
    const char* description; ///< in plain trade words
    const char* formerName;  ///< that older files may hold
};

/** All of them, in the order of modal::HoopSpec::Kind. */
const std::array<HoopName, 4>& hoopNames() noexcept;

/** The name in files and options. */
const char* nameOf (const modal::HoopSpec&) noexcept;

/** "Steel, three flanges, 1.6 mm". */
const char* descriptionOf (const modal::HoopSpec&) noexcept;

/** The hoop of that name, or former name. Throws modal::InputError, on `field`, that lists the names. */
modal::HoopSpec namedHoop (const std::string& name, const std::string& field);

} // namespace files
