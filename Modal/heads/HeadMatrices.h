#pragma once

#include "Modal/DrumModes.h"
#include "Muffling.h"
#include "TensionField.h"

#include <Eigen/Core>
#include <vector>

namespace modal
{

/** Functions on a head that are not round: their matrices on the basis of DrumModes.h, ∫ … dA. Both heads share the basis. */

/** ∫ T_ij ∂_i φ ∂_j φ' dA of an uneven tension field, N/m. Exact in angle, Gauss–Legendre along the radius (to 1e-10 for the
 * basis of solve()). */
Eigen::MatrixXd unevenStiffness (const std::vector<BasisFunction>&, const std::vector<TensionHarmonic>&, double radius);

/** ∫ φ φ' dA over what an item of muffling covers, divided by the covered area, 1/m². Gauss–Legendre. */
Eigen::MatrixXd meanOver (const std::vector<BasisFunction>&, const MufflingItem&, double radius);

/** Whether what an item covers looks the same from all sides: a ring, or a patch in the centre. Then meanOver() couples no
    functions of different order or parity. */
bool isRound (const MufflingItem&) noexcept;

/** Area that an item of muffling covers, m². */
double coveredArea (const MufflingItem&, double radius) noexcept;

} // namespace modal
