#include "FiniteDifferenceHead.h"

#include <Eigen/Eigenvalues>

#include <algorithm>
#include <cmath>
#include <numbers>

namespace reference
{

namespace
{
constexpr double pi = std::numbers::pi;
}

FiniteDifferenceHead::FiniteDifferenceHead (double tension, double density, double radiusOfHead, int pointCount,
                                            double highestFrequency)
    : radius (radiusOfHead), points (pointCount)
{
    // Points lie at (i + ½) h, so that r = 0 needs no condition of its own; the film is held at r = a. Fluxes through the cells'
    // borders make the operator symmetric in the weight r.
    const double h = radius / points;
    const auto centre = [&] (int i) { return (i + 0.5) * h; };

    for (int m = 0;; ++m)
    {
        Eigen::VectorXd diagonal (points), beside (points - 1);

        for (int i = 0; i < points; ++i)
        {
            const double inner = i * h, outer = (i + 1) * h;
            const double outerFlux = i + 1 < points ? outer : 2.0 * outer; // the rim is half a cell away
            diagonal[i] = (inner + outerFlux) / (h * h * centre (i)) + m * m / (centre (i) * centre (i));

            if (i + 1 < points)
                beside[i] = -outer / (h * h * std::sqrt (centre (i) * centre (i + 1)));
        }

        Eigen::SelfAdjointEigenSolver<Eigen::MatrixXd> solver;
        solver.computeFromTridiagonal (diagonal, beside);
        const auto before = modes.size();

        for (int k = 0; k < points; ++k)
        {
            const double omega = std::sqrt (tension / density * solver.eigenvalues()[k]);

            if (omega > 2.0 * pi * highestFrequency)
                break;

            Eigen::VectorXd profile = solver.eigenvectors().col (k);

            for (int i = 0; i < points; ++i)
                profile[i] /= std::sqrt (centre (i) * h * density * (m == 0 ? 2.0 * pi : pi));

            modes.push_back ({ omega, m, profile });
        }

        if (modes.size() == before)
            break;
    }
}

std::vector<double> FiniteDifferenceHead::frequencies() const
{
    std::vector<double> values;

    for (const auto& mode : modes)
        values.push_back (mode.omega / (2.0 * pi));

    std::sort (values.begin(), values.end());
    return values;
}

Eigen::ArrayXd FiniteDifferenceHead::shapesAt (double r) const
{
    const double position = r / radius * points - 0.5;
    const int left = std::clamp (static_cast<int> (position), 0, points - 2);
    const double share = position - left;
    Eigen::ArrayXd shapes (static_cast<Eigen::Index> (modes.size()));

    for (std::size_t i = 0; i < modes.size(); ++i)
        shapes[static_cast<Eigen::Index> (i)] = (1.0 - share) * modes[i].profile[left] + share * modes[i].profile[left + 1];

    return shapes;
}

std::vector<double> FiniteDifferenceHead::strike (double strikeRadius, double listenRadius, double stickMass, double stiffness,
                                                  double exponent, double speed, double rate, double seconds, int steps) const
{
    const Eigen::ArrayXd struck = shapesAt (strikeRadius), heard = shapesAt (listenRadius);
    Eigen::ArrayXd squared (struck.size());

    for (std::size_t i = 0; i < modes.size(); ++i)
        squared[static_cast<Eigen::Index> (i)] = modes[i].omega * modes[i].omega;

    Eigen::ArrayXd position = Eigen::ArrayXd::Zero (struck.size()), velocity = position;
    double height = 0.0, fall = -speed;
    const double dt = 1.0 / (rate * steps);
    std::vector<double> displacement;

    for (int sample = 0; sample < seconds * rate; ++sample)
    {
        displacement.push_back ((heard * position).sum());

        for (int step = 0; step < steps; ++step)
        {
            const double compression = (struck * position).sum() - height;
            const double force = compression > 0.0 ? stiffness * std::pow (compression, exponent) : 0.0;
            velocity += dt * (-squared * position - force * struck);
            position += dt * velocity;
            fall += dt * force / stickMass;
            height += dt * fall;
        }
    }

    return displacement;
}

} // namespace reference
