#pragma once

#include "AlignedArray.h"
#include "DrumSetup.h"
#include "KernelView.h"
#include "ModalRecursion.h"
#include "UpperBand.h"

#include <array>
#include <memory>
#include <span>

namespace engine
{

struct Bank;

/** No model is larger than this, so that a drum can hold the state of any. */
inline constexpr int maxModes = 2048;
inline constexpr int maxContacts = 1024;

/** A drum made ready to play at one sample rate: every constant of the inner loop, and how to reach the heads from it.

    Immutable once built; build it off the audio thread (some tens of milliseconds). `Scalar` is float for playing and double for
   the energy balance. */
template <typename Scalar>
class BasicDrumModel
{
public:
    /** @throws modal::InputError for a setup out of range or larger than the limits above */
    explicit BasicDrumModel (const DrumSetup&);

    const DrumSetup& setup() const noexcept { return made; }
    int modes() const noexcept { return static_cast<int> (keep.size()); }
    int headModes() const noexcept { return static_cast<int> (modesOfHeads.size()); } ///< modes of the drum among them
    int contacts() const noexcept { return static_cast<int> (stiffness.size()); }     ///< padding included
    int wireContacts() const noexcept { return realContacts; }                        ///< without padding
    double interval() const noexcept { return 1.0 / made.sampleRate; }                ///< s

    /** Points the constants of an inner loop at this model. */
    void connect (KernelView<Scalar>&) const noexcept;

    /** The shapes of the bank's modes where a stick meets the batter head, 1/√kg. Realtime safe. r in m, theta in rad. */
    void headShape (double r, double theta, Scalar* to) const noexcept;

    /** The same where a stick meets the batter hoop. */
    void hoopShape (double theta, Scalar* to) const noexcept;

    /** How the batter film gives under a tip by what is too narrow for its modes to show; all zero if the film's density is not
       known.

        Around a load of half width ε a membrane under the tension T sinks by F/(2πT)·(ln(2/κε) - 0.577 + 1/2) on account of waves
        shorter than 2π/κ (the static Green's function over an even disc), where κ is the shortest wave that the modes show. For
        the resistance see filmContactResistance(). */
    struct FilmUnderTip
    {
        double stiffness = 0.0;  ///< N/m
        double resistance = 0.0; ///< N s/m
    };
    FilmUnderTip filmUnderTip() const noexcept;

    /** Displacement of both heads in terms of the basis: batter first, then resonant. Realtime safe. */
    int fieldSize() const noexcept { return 2 * basisSize(); }
    void toField (const Scalar* modesIn, double* field) const noexcept;
    int basisSize() const noexcept { return static_cast<int> (made.modes.basis.size()); }

    /** Where modes are, and how far they went in the last sample. */
    struct Motion
    {
        Scalar* position;
        Scalar* step;
    };

    /** Carries the motion of another model's modes over to this one, each to the mode of the same order whose shape is most
        alike, with its energy and phase; strands, rings and air one by one where both models have the same. What has no
        counterpart is lost. Strands then go where the head is under them, which is all that may add energy. `work` has room for
       this model's field. Realtime safe. */
    void takeOver (const BasicDrumModel& former, const Motion& from, const Motion& to, double* work) const noexcept;

    /** How far modes at these positions move the head and the strands together at every wire contact, m. Realtime safe. */
    void contactsMovedBy (const Scalar* position, Scalar* to) const noexcept;

    /** Compression of every wire contact for these positions, m. Realtime safe. */
    void compressionsAt (const Scalar* position, Scalar* to) const noexcept;

    /** Energy of a state of this model's modes, J. */
    double modalEnergy (const Scalar* position, const Scalar* step) const noexcept;
    /** Whether that is more than `least`; as soon as a few modes have it, the others are not asked. */
    bool hasModalEnergy (const Scalar* position, const Scalar* step, double least) const noexcept;
    /** Energy in the wires' contacts above that at rest, J. */
    double contactEnergy (const Scalar* compression, const Scalar* before) const noexcept;

    /** Where neighbouring wires push the resonant head as one, m. */
    struct ForcePoint
    {
        double x, y;
        int first, count; ///< contacts
    };
    std::span<const ForcePoint> forcePoints() const noexcept { return wirePoints; }
    const UpperBand& upperBand() const noexcept { return upper; }

    double delay (int microphone) const noexcept { return delays[static_cast<std::size_t> (microphone)]; } ///< s
    int microphones() const noexcept { return static_cast<int> (made.microphones.size()); }

private:
    void gatherRecursions (const Bank&); ///< how each mode moves on
    void gatherWires (const Bank&);      ///< contacts, and what couples them
    void gatherForcePoints (const Bank&);
    void gatherStrands (const Bank&);
    void gatherRings (const Bank&);
    void gatherSound (const Bank&); ///< what microphones hear of each mode, and above the modes
    void gatherHeadShapes (const Bank&);
    void buildTables();
    void sortFieldModes();
    void buildStretch();
    void basisAt (double r, double theta, Scalar* values) const noexcept;
    /** From the contacts of four quadrants to their combinations, which the coupling classes move, and back: its own inverse.
        Without symmetry both are the same. */
    void fold (std::array<double, maxCouplingClasses>& values) const noexcept;
    /** Moves the strands alone until their contacts are as far from rest as the former model's, as nearly as their strings can.
     */
    void leanStrands (const BasicDrumModel& former, const Scalar* theirs, Scalar* ours) const noexcept;
    double energyOf (std::size_t bankMode, const Scalar* position, const Scalar* step) const noexcept;

    DrumSetup made;
    int realContacts = 0, classes = 0, combinations = 0;

    AlignedArray<Scalar> keep, spring, drive, lossOfStep;
    AlignedArray<double> exactKeep, exactSpring, exactDrive;
    std::array<CouplingClass<Scalar>, maxCouplingClasses> coupling;
    std::array<AlignedArray<Scalar>, maxCouplingClasses> shapes, mobility;
    std::array<AlignedArray<Scalar>, 2> stretchGradient; ///< batter, resonant
    std::vector<std::pair<int, int>> stretchSpans;       ///< of the bank, where these are not zero; whole packs
    Scalar contactResistance = 0;
    AlignedArray<Scalar> stiffness, lossRate, metric, restForce, restCompression;
    std::array<AlignedArray<Scalar>, maxMicrophones> pressureOfAcceleration, pressureOfVelocity;
    std::array<double, maxMicrophones> delays{};

    std::vector<ForcePoint> wirePoints; ///< at most maxForcePoints
    UpperBand upper;

    /** A mode of the drum in the bank, and the run of basis functions that it is made of: one order's on an even drum, nearly all
        on an uneven one. */
    struct HeadMode
    {
        int bankMode, drumMode;
        int firstFunction, functions;
        bool isOfAir; ///< of the cavity or its vent
    };
    std::vector<HeadMode> modesOfHeads;
    AlignedArray<Scalar> batterShapes; ///< 1/√kg·m, the runs of all modes after one another
    std::vector<float> radialTable;
    std::vector<int> bankOfAir;     ///< bank modes of the cavity and its vent
    std::vector<int> bankOfStrands; ///< modal strings, in an order that depends on the wires' detail alone
    std::vector<int> bankOfRings;

    /** A mode that moves the heads, as another model's modes are compared with it. */
    struct FieldMode
    {
        int bankMode, drumMode;
        int order; ///< nodal diameters of its strongest part
        double frequency;
        int firstTerm = 0, terms = 0; ///< of `leadingTerms`
        double size = 0.0;            ///< of its shape as far as these go, 1/√kg
    };
    std::vector<FieldMode> fieldModes; ///< by order, and by frequency within each

    /** How much a mode moves a basis function on the batter and the resonant head. */
    struct Term
    {
        int basis;
        float batter, resonant;
    };
    std::vector<Term> leadingTerms; ///< the strongest of each mode
    std::vector<short> basisIndex;  ///< by order, circle and parity; -1 where there is none

    void gatherLeadingTerms (FieldMode&);
    std::span<const Term> termsOf (const FieldMode& mode) const noexcept
    {
        return { leadingTerms.data() + mode.firstTerm, static_cast<std::size_t> (mode.terms) };
    }
    ModalRecursion recursion (int bankMode) const noexcept;
    double alike (const FieldMode&, const double* field) const noexcept;
    void layOut (const BasicDrumModel& former, const FieldMode&, double share, double* field) const noexcept;
    void carryOver (const BasicDrumModel& former, int theirs, int ours, double sign, const Motion& from,
                    const Motion& to) const noexcept;
    void takeOverHeads (const BasicDrumModel& former, const Motion& from, const Motion& to, double* work) const noexcept;

    struct HoopTerm
    {
        int bankMode, n;
        bool isSine;
        double amplitude;
    };
    std::vector<HoopTerm> hoopTerms;
};

using DrumModel = BasicDrumModel<float>;
using ExactDrumModel = BasicDrumModel<double>;

} // namespace engine
