// Transfers the state of a ringing drum to another model.

#include "DrumModel.h"

#include <algorithm>
#include <bitset>
#include <cmath>
#include <tuple>

namespace engine
{
namespace
{

constexpr int tableSide = 96; ///< orders and circles covered by the table of basis functions

std::size_t tablePlace (const modal::BasisFunction& function) noexcept
{
    return static_cast<std::size_t> ((function.m * tableSide + function.n) * 2 +
                                     (function.parity == modal::Parity::sine ? 1 : 0));
}

bool hasPlace (const modal::BasisFunction& function) noexcept
{
    return function.m < tableSide && function.n < tableSide;
}

/** Least cosine between two mode shapes for a transfer. */
constexpr double leastLikeness = 0.5;

/** Shapes are compared by their strongest terms, up to this share of the squared norm: a few on an even drum, some tens on an
   uneven one. */
constexpr double leadingShare = 0.9;

} // namespace

/** The strongest terms of a mode's shape, up to `leadingShare` of its squared norm. */
template <typename Scalar>
void BasicDrumModel<Scalar>::gatherLeadingTerms (FieldMode& mode)
{
    std::vector<Term> all;
    for (int b = 0; b < basisSize(); ++b)
        all.push_back ({ b, static_cast<float> (drumSetup.modes.batter (b, mode.drumMode)),
                         static_cast<float> (drumSetup.modes.resonant (b, mode.drumMode)) });
    const auto square = [] (const Term& term)
    { return static_cast<double> (term.batter) * term.batter + static_cast<double> (term.resonant) * term.resonant; };
    std::stable_sort (all.begin(), all.end(), [&] (const Term& a, const Term& b) { return square (a) > square (b); });
    double whole = 0.0;
    for (const auto& term : all)
        whole += square (term);

    mode.firstTerm = static_cast<int> (leadingTerms.size());
    double sum = 0.0;
    for (const auto& term : all)
    {
        if (sum >= leadingShare * whole)
            break;
        sum += square (term);
        leadingTerms.push_back (term);
        ++mode.terms;
    }
    mode.size = std::sqrt (sum);
}

template <typename Scalar>
void BasicDrumModel<Scalar>::sortFieldModes()
{
    for (const auto& mode : headBankModes)
    {
        const auto& named = drumSetup.modes.modes[static_cast<std::size_t> (mode.drumMode)];
        if (mode.isAirMode)
            airBankModes.push_back (mode.bankMode);
        else
            fieldModes.push_back ({ mode.bankMode, mode.drumMode, named.m, named.frequency });
    }
    std::stable_sort (fieldModes.begin(), fieldModes.end(),
                      [] (const FieldMode& a, const FieldMode& b)
                      { return std::tuple (a.order, a.frequency) < std::tuple (b.order, b.frequency); });
    for (auto& mode : fieldModes)
        gatherLeadingTerms (mode);

    basisIndex.assign (tableSide * tableSide * 2, -1);
    for (int b = 0; b < basisSize(); ++b)
        if (const auto& function = drumSetup.modes.basis[static_cast<std::size_t> (b)]; hasPlace (function))
            basisIndex[tablePlace (function)] = static_cast<short> (b);
}

template <typename Scalar>
ModalRecursion BasicDrumModel<Scalar>::recursion (int bankMode) const noexcept
{
    const auto k = static_cast<std::size_t> (bankMode);
    return { exactKeep[k], exactSpring[k], exactDrive[k] };
}

/** Cosine between a mode's shape and the one written to `field`, times the latter's norm. */
template <typename Scalar>
double BasicDrumModel<Scalar>::similarity (const FieldMode& mode, const double* field) const noexcept
{
    double product = 0.0;
    for (const auto& term : termsOf (mode))
        product += static_cast<double> (term.batter) * field[term.basis] +
                   static_cast<double> (term.resonant) * field[basisSize() + term.basis];
    return mode.size > 0.0 ? product / mode.size : 0.0;
}

/** Writes the shape of another model's mode, times `share`, in this model's basis; the rest of `field` is unchanged. */
template <typename Scalar>
void BasicDrumModel<Scalar>::writeShape (const BasicDrumModel& former, const FieldMode& mode, double share,
                                         double* field) const noexcept
{
    for (const auto& term : former.termsOf (mode))
    {
        const auto& function = former.drumSetup.modes.basis[static_cast<std::size_t> (term.basis)];
        const int here = hasPlace (function) ? basisIndex[tablePlace (function)] : -1;
        if (here < 0)
            continue;
        field[here] = share * static_cast<double> (term.batter);
        field[basisSize() + here] = share * static_cast<double> (term.resonant);
    }
}

template <typename Scalar>
void BasicDrumModel<Scalar>::carryOver (const BasicDrumModel& former, int theirs, int ours, double sign, const Motion& from,
                                        const Motion& to) const noexcept
{
    double position = sign * static_cast<double> (from.position[theirs]);
    double step = sign * static_cast<double> (from.step[theirs]);
    recursion (ours).carryOver (former.recursion (theirs), position, step);
    to.position[ours] = static_cast<Scalar> (position);
    to.step[ours] = static_cast<Scalar> (step);
}

template <typename Scalar>
void BasicDrumModel<Scalar>::transferHeadModes (const BasicDrumModel& former, const Motion& from, const Motion& to,
                                                double* work) const noexcept
{
    std::bitset<maxModes> isTaken;
    std::fill_n (work, fieldSize(), 0.0);
    std::size_t group = 0;
    for (const auto& old : former.fieldModes)
    {
        while (group < fieldModes.size() && fieldModes[group].order < old.order)
            ++group;
        writeShape (former, old, 1.0, work);
        double most = leastLikeness * old.size, sign = 0.0;
        std::size_t best = 0;
        for (std::size_t i = group; i < fieldModes.size() && fieldModes[i].order == old.order; ++i)
        {
            if (isTaken[i])
                continue;
            const double likeness = similarity (fieldModes[i], work);
            if (std::abs (likeness) <= most)
                continue;
            most = std::abs (likeness);
            sign = likeness > 0.0 ? 1.0 : -1.0;
            best = i;
        }
        writeShape (former, old, 0.0, work);
        if (sign == 0.0)
            continue;
        isTaken.set (best);
        carryOver (former, old.bankMode, fieldModes[best].bankMode, sign, from, to);
    }
}

template <typename Scalar>
void BasicDrumModel<Scalar>::moveWiresWithHead (const BasicDrumModel& former, const Scalar* theirs, Scalar* ours) const noexcept
{
    std::array<Scalar, maxContacts> wanted, found;
    former.contactsMovedBy (theirs, wanted.data());
    contactsMovedBy (ours, found.data());
    const auto missing = [&] (int contact)
    {
        const auto i = static_cast<std::size_t> (contact);
        return static_cast<double> (wanted[i]) - static_cast<double> (found[i]);
    };
    for (int i = 0; i < combinations; ++i)
    {
        std::array<double, maxCouplingClasses> combined{};
        for (int c = 0; c < classes; ++c)
            combined[static_cast<std::size_t> (c)] = missing (c * combinations + i);
        fold (combined);
        for (int c = 0; c < classes; ++c)
            wanted[static_cast<std::size_t> (c * combinations + i)] =
                static_cast<Scalar> (combined[static_cast<std::size_t> (c)]);
    }
    const int n = classes > 0 ? realContacts / classes : 0;
    std::size_t next = 0;
    for (int c = 0; c < classes; ++c)
    {
        const auto& slow = slowMotion[static_cast<std::size_t> (c)];
        for (auto row = slow.begin(); row != slow.end(); row += n, ++next)
        {
            double move = 0.0;
            for (int i = 0; i < n; ++i)
                move += row[i] * static_cast<double> (wanted[static_cast<std::size_t> (c * combinations + i)]);
            ours[wireBankModes[next]] += static_cast<Scalar> (move);
        }
    }
}

template <typename Scalar>
void BasicDrumModel<Scalar>::transferState (const BasicDrumModel& former, const Motion& from, const Motion& to,
                                            double* work) const noexcept
{
    std::fill_n (to.position, keep.size(), Scalar (0));
    std::fill_n (to.step, keep.size(), Scalar (0));
    transferHeadModes (former, from, to, work);

    const auto oneByOne = [&] (const std::vector<int>& theirs, const std::vector<int>& ours)
    {
        if (theirs.size() == ours.size())
            for (std::size_t i = 0; i < ours.size(); ++i)
                carryOver (former, theirs[i], ours[i], 1.0, from, to);
    };
    oneByOne (former.airBankModes, airBankModes);
    oneByOne (former.wireBankModes, wireBankModes);
    oneByOne (former.filmBankModes, filmBankModes);
    oneByOne (former.ringBankModes, ringBankModes);
    if (wireBankModes.empty() || former.wireBankModes.size() != wireBankModes.size() || former.contacts() != contacts())
        return;

    // The head has moved slightly under the wires: move them with it, or they would hit it audibly.
    std::array<Scalar, maxModes> theirs, ours;
    const auto goBack = [] (const Motion& motion, int count, auto& aSampleAgo)
    {
        for (int k = 0; k < count; ++k)
            aSampleAgo[static_cast<std::size_t> (k)] = motion.position[k] - motion.step[k];
    };
    goBack (from, former.modes(), theirs);
    goBack (to, modes(), ours);
    moveWiresWithHead (former, theirs.data(), ours.data());
    moveWiresWithHead (former, from.position, to.position);
    for (const int mode : wireBankModes)
        to.step[mode] = to.position[mode] - ours[static_cast<std::size_t> (mode)];
}

template void BasicDrumModel<float>::sortFieldModes();
template void BasicDrumModel<double>::sortFieldModes();
template void BasicDrumModel<float>::transferState (const BasicDrumModel&, const Motion&, const Motion&, double*) const noexcept;
template void BasicDrumModel<double>::transferState (const BasicDrumModel&, const Motion&, const Motion&, double*) const noexcept;

} // namespace engine
