#pragma once

#include <Eigen/Core>
#include <optional>
#include <vector>

namespace reference
{

/** A two-headed or kettle-like drum solved without any of the library's simplifications: the dynamic stiffness D(ω) of both heads
    with the frequency-dependent load of the air outside and the exact impedance of the cavity, and a hunt for the ω at which
    it is singular. No vent, no losses but radiation. SI.
*/
struct FullDrum
{
    double radius;
    double depth;
    double batterDensity, batterTension;
    double resonantDensity, resonantTension;
    double airDensity, soundSpeed;
    bool hasResonantHead = true; ///< false: a rigid end
    int functions = 10;          ///< radial functions a head
    int cavityFunctions = 40;    ///< radial functions of the cavity

    /** Added mass of the air outside if it is not that of two baffled heads, over the normalised functions of the batter and then
       of the resonant head, displacements positive upwards, kg/m² · m² per unit norm; independent of frequency. */
    std::optional<Eigen::MatrixXd> stillExterior;
};

/** A natural frequency of such a drum, from a complex root of det D = 0 with time as e^{iωt}: a mode obeys q'' + 2αq' + |ω|²q =
 * 0. */
struct FullMode
{
    double frequency;      ///< |ω|/2π, Hz
    double radiationDecay; ///< α = Im ω, 1/s; 0 with a still exterior
};

/** The modes with m nodal diameters whose undamped frequency is below `highestFrequency` Hz, ascending. Without radiation none
   can be missed: the count of negative eigenvalues of D and of the cavity's own resonances tells how many lie below a frequency
   (Wittrick & Williams 1971). Each undamped root is then followed into the complex plane while the radiation resistance is raised
   from nothing to all of it. */
std::vector<FullMode> solveFully (const FullDrum&, int m, double highestFrequency);

/** Mass per normalised function pair of a baffled head, ρ∫W W' κ/√(κ²−k²) dκ over κ > k. `wavenumber` 0 gives the still air. */
Eigen::MatrixXd baffledMass (int m, int functions, double radius, double airDensity, double wavenumber);

} // namespace reference
