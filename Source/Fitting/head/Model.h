#pragma once

#include "Fitting/Head.h"
#include "Modal/DrumModes.h"

#include <Eigen/Core>

namespace fitting
{

/** Unknowns of a head. */
struct HeadState
{
    double tension = 0.0;    ///< N/m, mean
    double massRatio = 1.0;  ///< of the film and coating over the construction's
    double patchRatio = 1.0; ///< the patch's mass over the stated one
    Eigen::VectorXd lugs;    ///< tension beside each lug over the mean, minus 1

    static constexpr int others = 3; ///< parameters before the lugs: logarithms of tension, mass, patch
    int parameters() const noexcept { return others + static_cast<int> (lugs.size()); }

    /** The state after a step in (ln tension, ln mass, ln patch, lugs). */
    HeadState moved (const Eigen::VectorXd& step) const;
};

/** The modes of a head over a closed cavity, and how a tap at a lug hears them. */
class HeadModel
{
public:
    /** @param movesLugs  compute gradients by the lugs; otherwise they are zero */
    HeadModel (const HeadFitSetup&, const HeadState&, bool hasPatch, bool movesLugs, double highestFrequency);

    /** Modes so close together that they are heard as one. */
    struct Group
    {
        int m = 0, n = 1;     ///< of the strongest mode
        bool isMixed = false; ///< modes of different (m,n) are in it
        std::vector<Eigen::Index> modes;
    };

    const std::vector<Group>& groups() const noexcept { return found; }

    /** A group as heard by a tap. */
    struct Heard
    {
        double lowest = 0.0, highest = 0.0; ///< Hz, of the modes in it
        double frequency = 0.0;             ///< Hz: root mean square, weighted by the squared mode shape at the tap
        double strength = 0.0;              ///< sum of the squared shapes, 1/kg
        modal::Decay decay;                 ///< mean
        Eigen::VectorXd gradient;           ///< of ln frequency by the parameters of HeadState
    };

    Heard heardAt (const Group&, const HeardTap&) const;

private:
    void makeGroups();

    HeadState state;
    modal::DrumModes modes;
    double radius, filmDensity, patchMass = 0.0;
    Eigen::VectorXd stretch;                 ///< (zero / radius)² of each basis function
    Eigen::MatrixXd patchMean;               ///< empty without a patch
    std::vector<Eigen::MatrixXd> lugOnModes; ///< Φᵀ U_k Φ with U_k the stiffness by lug k's tension, 1/kg·m... per N/m
    std::vector<Group> found;
};

} // namespace fitting
