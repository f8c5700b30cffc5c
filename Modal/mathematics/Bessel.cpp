#include "Bessel.h"

#include "Modal/Units.h"

#include <Eigen/Eigenvalues>

#include <algorithm>
#include <cmath>
#include <map>
#include <mutex>
#include <utility>

namespace modal
{

namespace
{

/** An order from which the downward recurrence has forgotten its arbitrary start when it reaches the orders that count. */
int startingOrder (int highestOrder, double x)
{
    const double reach = std::max (static_cast<double> (highestOrder), x);
    return 2 * static_cast<int> ((reach + 14.0 * std::cbrt (reach + 1.0) + 20.0) / 2.0);
}

/** J_m from the neighbouring orders: value, first and second derivative. */
struct Derivatives
{
    double value, first, second;
};

Derivatives derivatives (int m, double x)
{
    const auto j = besselJUpTo (m + 1, x);
    const double value = j[static_cast<std::size_t> (m)];
    const double first = m / x * value - j[static_cast<std::size_t> (m) + 1];
    const double second = -first / x - (1.0 - (m / x) * (m / x)) * value; // Bessel's equation
    return { value, first, second };
}

std::vector<double> findZeros (int m, int count)
{
    // The zeros of J_m are 2/√λ of a symmetric tridiagonal matrix (Ikebe, Kikuchi & Fujishiro 1991); it is cut where the
    // eigenvector of the last zero wanted, J_{m+2k}(j), has died out.
    const double lastZero = (count + 0.5 * m) * units::pi;
    const int size = static_cast<int> (0.5 * (lastZero - m) + 5.0 * std::cbrt (lastZero) + 12.0);
    Eigen::VectorXd diagonal (size), beside (size - 1);

    for (int k = 1; k <= size; ++k)
    {
        const double order = m + 2.0 * k;
        diagonal[k - 1] = 2.0 / ((order - 1.0) * (order + 1.0));

        if (k < size)
            beside[k - 1] = 1.0 / ((order + 1.0) * std::sqrt (order * (order + 2.0)));
    }

    Eigen::SelfAdjointEigenSolver<Eigen::MatrixXd> solver;
    solver.computeFromTridiagonal (diagonal, beside, Eigen::EigenvaluesOnly);
    std::vector<double> zeros;

    for (int i = 0; i < count; ++i)
    {
        double zero = 2.0 / std::sqrt (solver.eigenvalues()[size - 1 - i]);

        for (int step = 0; step < 2; ++step) // Newton, from a start that is right to many digits
        {
            const auto d = derivatives (m, zero);
            zero -= d.value / d.first;
        }

        zeros.push_back (zero);
    }

    return zeros;
}

std::vector<double> findPrimeZeros (int m, int count)
{
    if (m == 0) // J_0' = −J_1
        return besselZeros (1, count);

    // One zero of J_m' lies below the first zero of J_m and one between each two that follow.
    const auto zeros = besselZeros (m, count);
    std::vector<double> found;

    for (std::size_t i = 0; i < zeros.size(); ++i)
    {
        double low = i == 0 ? static_cast<double> (m) : zeros[i - 1];
        double high = zeros[i];
        double x = 0.5 * (low + high);
        const bool fallsThrough = i % 2 == 0;

        for (int step = 0; step < 60; ++step)
        {
            const auto d = derivatives (m, x);
            ((d.first > 0.0) == fallsThrough ? low : high) = x;
            double next = x - d.first / d.second;

            if (! (next > low && next < high))
                next = 0.5 * (low + high);

            const bool settled = std::abs (next - x) < 1.0e-15 * x;
            x = next;

            if (settled)
                break;
        }

        found.push_back (x);
    }

    return found;
}

/** Remembers the zeros that were found, so that a process finds each once. Safe from any thread but the audio thread.

    Zeros are found by the dozen: which other zeros are looked for at the same time decides a zero's last bit, so that must not
   depend on what was asked before. */
class ZeroMemo
{
public:
    using Find = std::vector<double> (*) (int m, int count);
    explicit ZeroMemo (Find finder) : find (finder) {}

    std::vector<double> get (int m, int count)
    {
        constexpr int dozen = 12;
        const int dozens = (count + dozen - 1) / dozen;
        const std::lock_guard lock (mutex);
        auto& zeros = known[{ m, dozens }];

        if (zeros.empty())
            zeros = find (m, dozens * dozen);

        return { zeros.begin(), zeros.begin() + count };
    }

private:
    Find find;
    std::mutex mutex;
    std::map<std::pair<int, int>, std::vector<double>> known;
};

} // namespace

std::vector<double> besselJUpTo (int highestOrder, double x)
{
    std::vector<double> values (static_cast<std::size_t> (highestOrder) + 1, 0.0);

    if (x <= 0.0)
    {
        values[0] = 1.0;
        return values;
    }

    // Miller's algorithm: J_{k-1} = 2k/x J_k − J_{k+1} downwards, scaled at the end by J_0 + 2 Σ J_2k = 1.
    double above = 0.0, here = 1.0e-30, evenSum = 0.0;

    for (int k = startingOrder (highestOrder, x); k > 0; --k)
    {
        const double below = 2.0 * k / x * here - above;
        above = here;
        here = below;

        if (k - 1 <= highestOrder)
            values[static_cast<std::size_t> (k - 1)] = here;

        if ((k - 1) % 2 == 0)
            evenSum += k == 1 ? here : 2.0 * here;

        if (std::abs (here) > 1.0e200)
        {
            constexpr double shrink = 1.0e-200;
            here *= shrink;
            above *= shrink;
            evenSum *= shrink;

            for (auto i = static_cast<std::size_t> (k - 1); i < values.size(); ++i)
                values[i] *= shrink;
        }
    }

    for (auto& v : values)
        v /= evenSum;

    return values;
}

double besselJ (int m, double x)
{
    return besselJUpTo (m, x).back();
}

double besselJPrime (int m, double x)
{
    if (x <= 0.0)
        return m == 1 ? 0.5 : 0.0;

    return derivatives (m, x).first;
}

std::vector<double> besselZeros (int m, int count)
{
    static ZeroMemo memo (findZeros);
    return memo.get (m, count);
}

std::vector<double> besselPrimeZeros (int m, int count)
{
    static ZeroMemo memo (findPrimeZeros);
    return memo.get (m, count);
}

} // namespace modal
