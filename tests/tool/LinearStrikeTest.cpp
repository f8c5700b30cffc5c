#include "Source/Engine/LinearStrike.h"

#include "tests/Catch.h"

#include <cmath>
#include <vector>

namespace
{
constexpr double pi = 3.14159265358979323846;

/** A drum of one mode whose shape is one basis function, with given frequency and loss. */
modal::DrumModes oneMode (int m, double zero, double frequency, double alpha)
{
    modal::DrumModes modes;
    modes.radius = 0.17;
    modes.depth = 0.14;
    modes.air.density = 1.2;
    modes.basis = { { m, 1, modal::Parity::cosine, zero } };

    modal::Mode mode;
    mode.m = m;
    mode.frequency = frequency;
    mode.decay.film = alpha;
    modes.modes = { mode };
    modes.batter = Eigen::MatrixXd::Constant (1, 1, 1.7);
    modes.resonant = Eigen::MatrixXd::Zero (1, 1);
    return modes;
}

/** ρ/2π ∫ φ/R dA on a plain polar grid. */
double heardByQuadrature (const modal::DrumModes& modes, const engine::NearMicrophone& microphone)
{
    const int rings = 600, spokes = 600;
    const auto a = modes.radius;
    double sum = 0.0;

    for (int i = 0; i < rings; ++i)
    {
        for (int j = 0; j < spokes; ++j)
        {
            const auto r = a * (i + 0.5) / rings, theta = 2.0 * pi * (j + 0.5) / spokes;
            const auto x = r * std::cos (theta) - microphone.positionShare * a * std::cos (microphone.angle);
            const auto y = r * std::sin (theta) - microphone.positionShare * a * std::sin (microphone.angle);
            sum += modes.basis[0].at (r, theta, a) / std::sqrt (x * x + y * y + microphone.height * microphone.height) * r;
        }
    }

    return modes.air.density / (2.0 * pi) * sum * (a / rings) * (2.0 * pi / spokes);
}

/** Acceleration of q'' + 2αq' + ω²q = shape·F(t) by Runge-Kutta steps much shorter than a sample. */
std::vector<double> accelerationByRungeKutta (double omega, double alpha, double shape, const engine::StrikePulse& pulse,
                                              double rate, int count)
{
    constexpr int substeps = 50;
    const auto h = 1.0 / (rate * substeps);
    const auto force = [&] (double t)
    {
        return t < pulse.contactTime
                   ? shape * pulse.momentum * pi / (2.0 * pulse.contactTime) * std::sin (pi * t / pulse.contactTime)
                   : 0.0;
    };
    const auto acceleration = [&] (double t, double q, double v) { return force (t) - 2.0 * alpha * v - omega * omega * q; };

    std::vector<double> result;
    double q = 0.0, v = 0.0;

    for (int i = 0; i < count * substeps; ++i)
    {
        const auto t = i * h;

        if (i % substeps == 0)
            result.push_back (acceleration (t, q, v));

        const auto q1 = v, v1 = acceleration (t, q, v);
        const auto q2 = v + 0.5 * h * v1, v2 = acceleration (t + 0.5 * h, q + 0.5 * h * q1, v + 0.5 * h * v1);
        const auto q3 = v + 0.5 * h * v2, v3 = acceleration (t + 0.5 * h, q + 0.5 * h * q2, v + 0.5 * h * v2);
        const auto q4 = v + h * v3, v4 = acceleration (t + h, q + h * q3, v + h * v3);
        q += h / 6.0 * (q1 + 2.0 * q2 + 2.0 * q3 + q4);
        v += h / 6.0 * (v1 + 2.0 * v2 + 2.0 * v3 + v4);
    }

    return result;
}
} // namespace

TEST_CASE ("A struck mode follows its equation of motion", "[linear-strike]")
{
    // Classical Runge-Kutta of the same equation and a plain quadrature of Rayleigh's integral, both independent of the code
    // tested.
    struct Case
    {
        int m;
        double zero, frequency, alpha, contact;
    };

    for (const auto& c : { Case{ 0, 2.404825557695773, 180.0, 8.0, 1.0e-3 }, Case{ 1, 3.831705970207512, 611.0, 3.0, 0.77e-3 },
                           Case{ 2, 5.135622301840683, 250.0, 0.0, 2.0e-3 } })
    {
        CAPTURE (c.m);
        const auto modes = oneMode (c.m, c.zero, c.frequency, c.alpha);
        const engine::StrikePulse pulse{ 0.3, 0.4, 0.1, c.contact };
        const engine::NearMicrophone microphone{ 0.08, 0.5, 0.2 };
        constexpr double rate = 48000.0;
        constexpr int count = 2400;

        std::vector<double> pressure (count);
        engine::LinearStrike strike (modes, pulse, microphone, rate);
        strike.process (pressure.data(), 700);
        strike.process (pressure.data() + 700, count - 700);

        const auto heard = 1.7 * heardByQuadrature (modes, microphone);
        const auto shape = 1.7 * modes.basis[0].at (0.3 * modes.radius, 0.4, modes.radius);
        const auto expected = accelerationByRungeKutta (2.0 * pi * c.frequency, c.alpha, shape, pulse, rate, count);

        double largest = 0.0, worst = 0.0;

        for (int i = 0; i < count; ++i)
        {
            const auto e = heard * expected[static_cast<std::size_t> (i)];
            largest = std::max (largest, std::abs (e));
            worst = std::max (worst, std::abs (pressure[static_cast<std::size_t> (i)] - e));
        }

        // The two quadratures differ by about 1e-4; Runge-Kutta's own error is far below that but for the pulse's end inside a
        // step.
        CHECK (worst < 1.0e-3 * largest);
    }
}

TEST_CASE ("The sampling rate does not change a strike", "[linear-strike]")
{
    const auto modes = oneMode (0, 2.404825557695773, 300.0, 5.0);
    engine::LinearStrike slow (modes, {}, {}, 24000.0), fast (modes, {}, {}, 96000.0);
    std::vector<double> slowSamples (2000), fastSamples (8000);
    slow.process (slowSamples.data(), 2000);
    fast.process (fastSamples.data(), 8000);

    double largest = 0.0, worst = 0.0;

    for (std::size_t i = 0; i < slowSamples.size(); ++i)
    {
        largest = std::max (largest, std::abs (slowSamples[i]));
        worst = std::max (worst, std::abs (slowSamples[i] - fastSamples[4 * i]));
    }

    CHECK (worst < 1.0e-9 * largest);
}
