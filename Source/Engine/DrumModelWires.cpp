// The contacts of the wires and their coupling to the modes.

#include "Bank.h"
#include "DrumModel.h"
#include "WireRest.h"

#include "Modal/InputError.h"

#include <Eigen/Cholesky>

#include <algorithm>

namespace engine
{
namespace
{

/** Motions of the contacts that ask more than a million times the force of the easiest are left out. */
constexpr double smallestYield = 1.0e-6;

template <typename Scalar>
AlignedArray<Scalar> packedRows (const Eigen::MatrixXd& matrix)
{
    AlignedArray<Scalar> out;
    out.reserve (static_cast<std::size_t> (matrix.size()));
    for (Eigen::Index i = 0; i < matrix.rows(); ++i)
        for (Eigen::Index j = 0; j < matrix.cols(); ++j)
            out.push_back (static_cast<Scalar> (matrix (i, j)));
    return out;
}

/** Shapes, combinations × modes, in the order of CouplingClass::shapeIndex(). */
template <typename Scalar>
AlignedArray<Scalar> packedTiles (const Eigen::MatrixXd& matrix)
{
    AlignedArray<Scalar> out (static_cast<std::size_t> (matrix.size()));
    for (int i = 0; i < matrix.rows(); ++i)
        for (int k = 0; k < matrix.cols(); ++k)
            out[static_cast<std::size_t> (CouplingClass<Scalar>::shapeIndex (i, k, static_cast<int> (matrix.cols())))] =
                static_cast<Scalar> (matrix (i, k));
    return out;
}

} // namespace

template <typename Scalar>
void BasicDrumModel<Scalar>::gatherWires (const Bank& bank)
{
    classes = static_cast<int> (bank.classes.size());
    combinations = bank.combinations;
    if (classes == 0)
        return;
    const auto contactsOf = buildWireContacts (drumSetup, bank);
    modal::requireInRange (contactsOf.size(), { 1.0, static_cast<double> (maxContacts), "" }, "wire contacts");
    realContacts = bank.contactsInQuadrant * classes;
    stiffness = packed<Scalar> (contactsOf.stiffness);
    lossRate = packed<Scalar> (Eigen::VectorXd (contactsOf.stiffness * drumSetup.wires.contactLoss * 0.5 * drumSetup.sampleRate));
    contactResistance = static_cast<Scalar> (contactsOf.resistance * 0.5 * drumSetup.sampleRate);
    metric = packed<Scalar> (contactsOf.metric);
    restForce = packed<Scalar> (contactsOf.restForce);
    restCompression = packed<Scalar> (contactsOf.restCompression);
    for (std::size_t c = 0; c < bank.classes.size(); ++c)
    {
        shapes[c] = packedTiles<Scalar> (bank.classes[c].shapes);
        mobility[c] = packedRows<Scalar> (contactsOf.mobility[c]);
        coupling[c] = { bank.classes[c].first, bank.classes[c].count, shapes[c].data(), mobility[c].data() };
    }
    gatherForcePoints (bank);
}

template <typename Scalar>
void BasicDrumModel<Scalar>::gatherWireModes (const Bank& bank)
{
    for (std::size_t c = 0; c < bank.classes.size(); ++c)
    {
        const auto& group = bank.classes[c];
        const auto first = wireBankModes.size();
        for (int k = group.first; k < group.first + group.count; ++k)
            if (const auto kind = bank.entries[static_cast<std::size_t> (k)].kind; kind == BankEntry::Kind::wires)
                wireBankModes.push_back (k);
            else if (kind == BankEntry::Kind::film)
                filmBankModes.push_back (k);

        // Under static forces f at the contacts the modes move by Ω⁻²·shapesᵀ·f, and the contacts by shapes times that.
        const auto modes = static_cast<Eigen::Index> (wireBankModes.size() - first), n = Eigen::Index (bank.contactsInQuadrant);
        Eigen::MatrixXd atContacts (n, modes), moved (modes, n);
        for (Eigen::Index i = 0; i < modes; ++i)
        {
            const int k = wireBankModes[first + static_cast<std::size_t> (i)];
            const auto& recursion = bank.entries[static_cast<std::size_t> (k)].recursion;
            atContacts.col (i) = group.shapes.col (k - group.first).head (n);
            moved.row (i) = recursion.drive / recursion.spring * atContacts.col (i).transpose();
        }
        Eigen::MatrixXd compliance = atContacts * moved;
        compliance.diagonal().array() += smallestYield * compliance.diagonal().maxCoeff();
        // Contacts × modes by columns, which is modes × contacts by rows.
        const Eigen::MatrixXd slow = compliance.llt().solve (moved.transpose());
        slowMotion[c].assign (slow.data(), slow.data() + slow.size());
    }
}

template <typename Scalar>
void BasicDrumModel<Scalar>::gatherForcePoints (const Bank& bank)
{
    const auto& strands = *bank.strands;
    const int pairs = strands.pairs(), quadrantSize = strands.halfPoints() * pairs;
    const int stride = classes == 4 ? combinations : quadrantSize;
    const int neighbours = (strands.halfPoints() + maxForcePoints / 4 - 1) / (maxForcePoints / 4);
    for (int quadrant = 0; quadrant < 4; ++quadrant)
        for (int first = 0; first < strands.halfPoints(); first += neighbours)
        {
            const int last = std::min (first + neighbours, strands.halfPoints()) - 1;
            const double x = 0.5 * (strands.pointX (first) + strands.pointX (last));
            const double y = 0.5 * (strands.strandY (0) + strands.strandY (pairs - 1));
            wirePoints.push_back ({ quadrant < 2 ? x : -x, quadrant % 2 == 0 ? y : -y, quadrant * stride + first * pairs,
                                    (last - first + 1) * pairs });
        }
}

template <typename Scalar>
void BasicDrumModel<Scalar>::fold (std::array<double, maxCouplingClasses>& values) const noexcept
{
    if (classes == 4)
        values = { 0.5 * (values[0] + values[1] + values[2] + values[3]), 0.5 * (values[0] - values[1] + values[2] - values[3]),
                   0.5 * (values[0] + values[1] - values[2] - values[3]), 0.5 * (values[0] - values[1] - values[2] + values[3]) };
}

template <typename Scalar>
void BasicDrumModel<Scalar>::contactsMovedBy (const Scalar* position, Scalar* to) const noexcept
{
    using Tile = Eigen::Array<Scalar, tileModes, 1>;
    const int n = combinations;
    for (int i = 0; i < n; ++i)
    {
        std::array<double, maxCouplingClasses> sums{};
        for (int c = 0; c < classes; ++c)
        {
            const auto& group = coupling[static_cast<std::size_t> (c)];
            Tile sum = Tile::Zero();
            for (int k = 0; k < group.modes; k += tileModes)
                sum += Eigen::Map<const Tile> (group.shapes + group.shapeIndex (i, k, group.modes)) *
                       Eigen::Map<const Tile> (position + group.firstMode + k);
            sums[static_cast<std::size_t> (c)] = static_cast<double> (sum.sum());
        }
        fold (sums);
        for (int c = 0; c < classes; ++c)
            to[c * n + i] = static_cast<Scalar> (sums[static_cast<std::size_t> (c)]);
    }
}

template <typename Scalar>
void BasicDrumModel<Scalar>::compressionsAt (const Scalar* position, Scalar* to) const noexcept
{
    contactsMovedBy (position, to);
    for (std::size_t i = 0; i < restCompression.size(); ++i)
        to[i] += restCompression[i];
}

template <typename Scalar>
double BasicDrumModel<Scalar>::contactEnergy (const Scalar* compression, const Scalar* before) const noexcept
{
    double sum = 0.0;
    for (std::size_t i = 0; i < stiffness.size(); ++i)
    {
        const double K = static_cast<double> (stiffness[i]), rest = static_cast<double> (restCompression[i]);
        const double held = static_cast<double> (restForce[i]);
        // K/2·(in² - inAtRest²) - held·(c - rest), without the difference of like numbers: what the contacts store at rest may be
        // 1e8 times what the first touch of a brush adds.
        const auto above = [&] (double c)
        {
            const double inAtRest = std::max (rest, 0.0), deeper = std::max (c, 0.0) - inAtRest;
            return deeper * (0.5 * K * deeper + (K * inAtRest - held)) + held * (std::max (-c, 0.0) - std::max (-rest, 0.0));
        };
        sum += 0.5 * (above (static_cast<double> (compression[i])) + above (static_cast<double> (before[i])));
    }
    return sum;
}

template double BasicDrumModel<double>::contactEnergy (const double*, const double*) const noexcept;
template double BasicDrumModel<float>::contactEnergy (const float*, const float*) const noexcept;
template void BasicDrumModel<double>::compressionsAt (const double*, double*) const noexcept;
template void BasicDrumModel<double>::contactsMovedBy (const double*, double*) const noexcept;
template void BasicDrumModel<double>::fold (std::array<double, maxCouplingClasses>&) const noexcept;
template void BasicDrumModel<double>::gatherForcePoints (const Bank&);
template void BasicDrumModel<double>::gatherWireModes (const Bank&);
template void BasicDrumModel<double>::gatherWires (const Bank&);
template void BasicDrumModel<float>::compressionsAt (const float*, float*) const noexcept;
template void BasicDrumModel<float>::contactsMovedBy (const float*, float*) const noexcept;
template void BasicDrumModel<float>::fold (std::array<double, maxCouplingClasses>&) const noexcept;
template void BasicDrumModel<float>::gatherForcePoints (const Bank&);
template void BasicDrumModel<float>::gatherWireModes (const Bank&);
template void BasicDrumModel<float>::gatherWires (const Bank&);

} // namespace engine
