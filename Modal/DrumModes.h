#pragma once

#include "DrumSpec.h"

#include <Eigen/Core>
#include <string>
#include <vector>

namespace modal
{

/** Which of the two equal partners of an order m > 0: cos mθ or sin mθ. Order 0 is always cosine. */
enum class Parity
{
    cosine,
    sine
};

/** One function of the basis that spans each head's displacement,

        φ(r, θ) = ± N J_m(j_mn r / a) {cos mθ, sin mθ},   ∫ φ² dA = 1,

    with the sign that makes the slope at the rim negative. Both heads use the same basis. θ runs clockwise from lug 1, seen from
    above. */
struct BasisFunction
{
    int m; ///< nodal diameters
    int n; ///< nodal circles, the rim counts as one
    Parity parity;
    double zero; ///< j_mn

    /** Value at a point of a head of radius `a`, 1/m; 0 outside the rim. `r` in m, `theta` in rad. */
    double at (double r, double theta, double a) const;
};

/** Rates of amplitude decay in 1/s, by cause: amplitude falls as exp(-total·t). */
struct Decay
{
    double radiation = 0.0; ///< sound that leaves
    double film = 0.0;      ///< inside the film and its coating
    double bending = 0.0;   ///< inside the film where it bends, as a plate does
    double ply = 0.0;       ///< friction between two plies
    double edge = 0.0;      ///< into the bearing edge, shell and hoop
    double air = 0.0;       ///< heat and friction along the cavity's walls and in the vent
    double muffling = 0.0;  ///< cloth, gel, ring laid on a head

    double total() const noexcept { return radiation + film + bending + ply + edge + air + muffling; }

    /** Time for the level to fall by 60 dB, s; infinity without loss. */
    double t60() const noexcept;
};

/** Where a mode's kinetic energy is; the three add up to 1. */
struct Shares
{
    double batter = 0.0;   ///< in the batter head
    double resonant = 0.0; ///< in the resonant head
    double air = 0.0;      ///< in the air inside and outside that moves along
};

/** One mode of the finished drum. */
struct Mode
{
    int m = 0; ///< nodal diameters of its strongest part
    int n = 1; ///< nodal circles of its strongest part, rim included
    Parity parity = Parity::cosine;
    double frequency = 0.0; ///< Hz
    Decay decay;
    Shares shares;
    double headCorrelation = 0.0; ///< of the heads' motion, +1: in phase, -1: opposed, which squeezes the cavity
    double purity = 1.0;          ///< share of its energy that moves as (m, n); below 1 where a patch or uneven lugs mix modes
    bool isAirMode = false;       ///< the vent's or the cavity's own resonance: the heads hardly move

    double angularFrequency() const noexcept;
};

/** "(1,1)"; "(1,1) mixed" if less than two thirds of the mode's energy moves like that. */
std::string nameOf (const Mode&);

/** The modes of a drum, orthonormal in mass, ordered by frequency.

    A modal coordinate q (m·√kg) obeys q'' + 2αq' + ω²q = (force at a point) × (shape at that point); the displacement of
    a head at a point is Σ shape × q, where shape = Σ_i coefficient(i, mode) × basis[i].at(point). Displacements of both heads
   count positive from the resonant head towards the batter head (upwards).
*/
struct DrumModes
{
    double radius = 0.0; ///< m
    double depth = 0.0;  ///< m
    Bottom bottom = Bottom::head;
    Surround surround = Surround::freeStanding;
    Air air;
    std::vector<BasisFunction> basis;
    std::vector<Mode> modes;       ///< both partners of a degenerate pair are listed
    Eigen::MatrixXd batter;        ///< basis × modes, 1/√kg·m
    Eigen::MatrixXd resonant;      ///< basis × modes; zero rows where there is no resonant head
    double highestFrequency = 0.0; ///< Hz; every mode of the even, bare drum below is here; unevenness mixes these alone
    bool isUniform = true;         ///< every order on its own: partners differ by nothing but their angle

    int size() const noexcept { return static_cast<int> (modes.size()); }

    /** The shapes of all modes at a point, one entry a mode, 1/√kg. */
    Eigen::VectorXd batterShapeAt (double r, double theta) const;
    Eigen::VectorXd resonantShapeAt (double r, double theta) const;
};

} // namespace modal
