#pragma once

#include "ParameterTable.h"

#include <array>
#include <atomic>

namespace plugin
{

/** The value of every parameter, each in its own unit. */
using Values = std::array<float, parameterCount>;

/** Every parameter at its initial value. */
inline Values initialValues()
{
    Values values{};
    for (std::size_t i = 0; i < parameterCount; ++i)
        values[i] = static_cast<float> (parameterTable()[i].initial);
    return values;
}

inline float valueOf (const Values& values, Parameter parameter) noexcept
{
    return values[indexOf (parameter)];
}

inline bool isOn (const Values& values, Parameter parameter) noexcept
{
    return valueOf (values, parameter) >= 0.5f;
}

/** The value in SI, as exact as its decimal: a float's 10.7 is 10.7. */
inline double siOf (const Values& values, Parameter parameter)
{
    const auto& spec = specOf (parameter);
    return spec.toSi (spec.snapped (static_cast<double> (valueOf (values, parameter))));
}

/** Values that any thread may read while another writes. Each value is atomic; a whole set may be read half changed, and the
   change count then makes the reader read again. */
class SharedValues
{
public:
    explicit SharedValues (const Values& values = initialValues())
    {
        for (std::size_t i = 0; i < parameterCount; ++i)
            cells[i].store (values[i], std::memory_order_relaxed);
    }

    float operator[] (Parameter parameter) const noexcept { return cells[indexOf (parameter)].load (std::memory_order_relaxed); }
    void set (Parameter parameter, float value) noexcept { cells[indexOf (parameter)].store (value, std::memory_order_relaxed); }

    Values copy() const noexcept
    {
        Values values;
        for (std::size_t i = 0; i < parameterCount; ++i)
            values[i] = cells[i].load (std::memory_order_relaxed);
        return values;
    }

    void setAll (const Values& values) noexcept
    {
        for (std::size_t i = 0; i < parameterCount; ++i)
            cells[i].store (values[i], std::memory_order_relaxed);
    }

private:
    std::array<std::atomic<float>, parameterCount> cells;
};

} // namespace plugin
