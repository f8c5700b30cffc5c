#include "Engine/ModalRecursion.h"
#include "Engine/StrandGeometry.h"

#include "tests/Catch.h"

#include <cmath>
#include <numbers>
#include <vector>

using engine::ModalRecursion;

TEST_CASE ("a free mode rings as exp(-at)·cos(wt), sample for sample")
{
    for (const double rate : { 22050.0, 48000.0, 192000.0 })
        for (const double frequency : { 30.0, 180.0, 2500.0, 9000.0 })
        {
            const double decay = 11.0, omega = 2.0 * std::numbers::pi * frequency;
            const auto exact = [&] (int n) { return std::exp (-decay * n / rate) * std::cos (omega * n / rate); };
            const auto mode = ModalRecursion::from (frequency, decay, 1.0 / rate);
            double position = exact (0), step = exact (0) - exact (-1), worst = 0.0;
            for (int n = 1; n < 4000; ++n)
            {
                step = mode.keep * step - mode.spring * position;
                position += step;
                worst = std::max (worst, std::abs (position - exact (n)));
            }
            CHECK (worst < 1.0e-9);
        }
}

TEST_CASE ("under a constant force a mode settles at force over stiffness")
{
    const double frequency = 200.0, decay = 60.0, omega = 2.0 * std::numbers::pi * frequency;
    const auto mode = ModalRecursion::from (frequency, decay, 1.0 / 48000.0);
    double position = 0.0, step = 0.0;
    for (int n = 0; n < 48000; ++n)
    {
        step = mode.keep * step - mode.spring * position + mode.drive * 3.0;
        position += step;
    }
    CHECK (position == Approx (3.0 / (omega * omega + decay * decay)).epsilon (1.0e-9));
}

// d'Alembert: after half a period an ideal string lies mirrored and upside down, u(x, T/2) = -u(-x, 0) about its middle.
TEST_CASE ("a strand released from a bent shape is mirrored after half a period")
{
    modal::WireSpec wires;
    wires.unevenness = 0.0;
    wires.bending = 0.0;
    wires.decayRate = 0.0;
    wires.decayPerOscillation = 0.0;
    const int points = 32, modes = 24, half = 600;
    const engine::StrandGeometry strands (wires, 0.3556, 2, points, modes);
    const double rate = 2.0 * half * strands.frequency (1, 0);
    REQUIRE (strands.frequency (3, 0) == Approx (3.0 * strands.frequency (1, 0)));

    // Any mixture of the modal strings will do; this one leans to one side.
    std::vector<double> start (modes), finish (modes);
    for (int n = 1; n <= modes; ++n)
    {
        const auto i = static_cast<std::size_t> (n - 1);
        start[i] = std::sin (1.7 * n) / (n * n);
        const auto mode = ModalRecursion::from (strands.frequency (n, 0), 0.0, 1.0 / rate);
        double position = start[i],
               step = start[i] - start[i] * std::cos (2.0 * std::numbers::pi * strands.frequency (n, 0) / rate);
        for (int k = 0; k < half; ++k)
        {
            step = mode.keep * step - mode.spring * position;
            position += step;
        }
        finish[i] = position;
    }

    const auto shapeAt = [&] (const std::vector<double>& amplitudes, int point, bool isLeft)
    {
        double sum = 0.0;
        for (int n = 1; n <= modes; ++n)
            sum += amplitudes[static_cast<std::size_t> (n - 1)] * strands.shape (n, point) * (isLeft && n % 2 == 0 ? -1.0 : 1.0);
        return sum;
    };
    for (int point = 0; point < points / 2; ++point)
    {
        CHECK (shapeAt (finish, point, false) == Approx (-shapeAt (start, point, true)).margin (1.0e-7));
        CHECK (shapeAt (finish, point, true) == Approx (-shapeAt (start, point, false)).margin (1.0e-7));
    }
}

TEST_CASE ("the energy of a mode is constant without loss and falls by the counted loss")
{
    for (const double decay : { 0.0, 40.0 })
    {
        const auto mode = ModalRecursion::from (440.0, decay, 1.0 / 48000.0);
        double position = 1.0e-3, step = 2.0e-5, lost = 0.0;
        const double start = mode.energy (position, step);
        for (int n = 0; n < 20000; ++n)
        {
            const double next = mode.keep * step - mode.spring * position;
            lost += mode.lossOfStep() * (next + step) * (next + step);
            step = next;
            position += step;
        }
        CHECK (mode.energy (position, step) + lost == Approx (start).epsilon (1.0e-11));
        CHECK ((decay > 0.0 ? lost > 0.5 * start : lost == Approx (0.0).margin (1.0e-12 * start)));
    }
}
