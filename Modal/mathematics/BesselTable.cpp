#include "BesselTable.h"

#include "Bessel.h"

#include <algorithm>

namespace modal
{

BesselTable::BesselTable()
{
    const int samples = static_cast<int> (highestArgument * stepsPerUnit) + 2;
    values.reserve (static_cast<std::size_t> (samples * orders));

    for (int i = 0; i < samples; ++i)
    {
        const auto row = besselJUpTo (orders - 1, i / stepsPerUnit);
        values.insert (values.end(), row.begin(), row.end());
    }
}

const BesselTable& BesselTable::shared()
{
    static const BesselTable table;
    return table;
}

double BesselTable::operator() (int m, double x) const noexcept
{
    if (x >= highestArgument)
        return 0.0;

    const double position = x * stepsPerUnit;
    const auto left = static_cast<std::size_t> (position);
    const double t = position - static_cast<double> (left);
    const double* const row = values.data() + left * orders + m;
    const double value0 = row[0], value1 = row[orders];

    // J_m' = (J_{m-1} − J_{m+1}) / 2, and J_{-1} = −J_1.
    const double slope0 = m == 0 ? -row[1] : 0.5 * (row[-1] - row[1]);
    const double slope1 = m == 0 ? -row[orders + 1] : 0.5 * (row[orders - 1] - row[orders + 1]);

    constexpr double h = 1.0 / stepsPerUnit;
    const double s = 1.0 - t;
    return s * s * ((1.0 + 2.0 * t) * value0 + h * t * slope0) + t * t * ((1.0 + 2.0 * s) * value1 - h * s * slope1);
}

} // namespace modal
