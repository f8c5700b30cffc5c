#pragma once

#include <Eigen/Core>
#include <vector>

namespace reference
{

/** A lone membrane in vacuo by finite differences: second-order central differences along the radius for each cos mθ, exact in
   time. No Bessel function, no shared code. */
class FiniteDifferenceHead
{
public:
    /** @param tension N/m, density kg/m², radius m; `points` along the radius; modes above `highestFrequency` (Hz) are left out
     */
    FiniteDifferenceHead (double tension, double density, double radius, int points, double highestFrequency);

    /** All frequencies in Hz, ascending, one for each cos mθ. */
    std::vector<double> frequencies() const;

    /** Displacement (m) at `listenRadius`, 0 rad, every 1/rate s for `seconds`, after a mass with a spring tip comes down at
       `strikeRadius`, 0 rad. Semi-implicit Euler at `steps` steps a sample. */
    std::vector<double> strike (double strikeRadius, double listenRadius, double stickMass, double stiffness, double exponent,
                                double speed, double rate, double seconds, int steps) const;

private:
    /** Value of every mode at a radius and angle 0, for unit modal mass, 1/√kg. */
    Eigen::ArrayXd shapesAt (double r) const;

    struct Mode
    {
        double omega;
        int m;
        Eigen::VectorXd profile; ///< at the grid's points, ∫ profile² σ dA = 1
    };

    double radius;
    int points;
    std::vector<Mode> modes;
};

} // namespace reference
