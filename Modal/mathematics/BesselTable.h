#pragma once

#include <vector>

namespace modal
{

/** J_m for m ≤ 64 on 0 ≤ x ≤ 160 by cubic Hermite interpolation: absolute error below 1e-8, some 50 times faster than besselJ().

    For integrands; not for zeros. Built once a process, safe from any thread.
*/
class BesselTable
{
public:
    static constexpr int highestOrder = 64;
    static constexpr double highestArgument = 160.0;

    static const BesselTable& shared();

    /** J_m(x); 0 beyond the table, where every integrand it serves has died out. */
    double operator() (int m, double x) const noexcept;

private:
    BesselTable();

    static constexpr double stepsPerUnit = 32.0;
    static constexpr int orders = highestOrder + 2; // one more for the slopes
    std::vector<double> values;                     // [sample][order]
};

} // namespace modal
