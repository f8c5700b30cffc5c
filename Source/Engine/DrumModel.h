#pragma once

#include "AlignedArray.h"
#include "DrumSetup.h"
#include "KernelView.h"
#include "ModalRecursion.h"
#include "UpperBand.h"

#include <array>
#include <cstddef>
#include <memory>
#include <span>

namespace engine
{

struct Bank;

/** Upper limits of a model, so that a drum can hold the state of any. */
inline constexpr int maxModes = 4096;
inline constexpr int maxContacts = 1024;

/** A drum prepared for playing at one sample rate: all constants of the inner loop, and the mapping to the heads.

    Immutable; build it off the audio thread (some tens of milliseconds). `Scalar` is float for playing, double for tests of the
   energy balance. */
template <typename Scalar>
class BasicDrumModel
{
public:
    /** @throws modal::InputError for a setup out of range or larger than the limits above */
    explicit BasicDrumModel (const DrumSetup&);

    /** No drum yet: to be read(). */
    BasicDrumModel() = default;

    /** All that playing needs, as bytes for a thread that shares no memory with this one; the reader has to be of the same build.
     */
    std::vector<std::byte> write() const;

    /** Becomes a model that plays exactly as the one written. Its setup() lacks the list and the shapes of the modes, and
       toField() gives zeros. Memory is reused where it is large enough. @throws modal::InputError for bytes cut short; the model
       is then no drum */
    void read (std::span<const std::byte>);

    const DrumSetup& setup() const noexcept { return drumSetup; }
    int modes() const noexcept { return static_cast<int> (keep.size()); }
    int headModes() const noexcept { return static_cast<int> (headBankModes.size()); } ///< modes of the drum among them
    int contacts() const noexcept { return static_cast<int> (stiffness.size()); }      ///< padding included
    int wireContacts() const noexcept { return realContacts; }                         ///< without padding
    double interval() const noexcept { return 1.0 / drumSetup.sampleRate; }            ///< s

    /** Sets the constants of an inner loop to this model's. */
    void connect (KernelView<Scalar>&) const noexcept;

    /** Shapes of the bank's modes at a point of the batter head, 1/√kg. Realtime safe. r in m, theta in rad. */
    void headShape (double r, double theta, Scalar* to) const noexcept;

    /** The same at a point of the batter hoop. */
    void hoopShape (double theta, Scalar* to) const noexcept;

    /** Waves of the batter head under a tip that are too short for the modes. Empty if the film's density is not known.

        Under a load of half width ε a membrane with tension T deflects by F/(2πT)·(ln(2/κε) - 0.577 + 1/2) due to waves shorter
       than 2π/κ (the static Green's function over a uniform disc), where κ is the largest wave number of the modes. These waves
       leave and do not come back; they are modelled as a few modes, the closer in ln k the nearer to the drum's own, each with
       its share of that deflection at its own frequency (of a film that also bends, Tk² + Dk⁴ = σω²) and so damped that they
       overlap: at any frequency above the modes' they yield 1/4T out of phase, as an endless membrane does. */
    struct FilmWaves
    {
        struct Wave
        {
            double frequency, decay; ///< Hz, 1/s
            double shape;            ///< 1/√kg
        };
        std::array<Wave, maxFilmWaves> wave{};
        int count = 0;
    };
    const FilmWaves& wavesUnderTip() const noexcept { return filmWaves; }

    /** How the film round the tip stretches; all zero where wavesUnderTip() is empty. */
    const modal::LocalStretch& stretchUnderTip() const noexcept { return localStretch; }

    /** How much of a mode's motion deepens the dent at a place against the ring of stretchUnderTip(), 1/√kg. Realtime safe. */
    void stretchShape (double r, double theta, Scalar* to) const noexcept;

    /** Displacement of both heads in terms of the basis: batter first, then resonant. Realtime safe. */
    int fieldSize() const noexcept { return 2 * basisSize(); }
    void toField (const Scalar* modesIn, double* field) const noexcept;
    int basisSize() const noexcept { return static_cast<int> (drumSetup.modes.basis.size()); }

    /** Positions of the modes and their steps in the last sample. */
    struct Motion
    {
        Scalar* position;
        Scalar* step;
    };

    /** Transfers the motion of another model's modes: each goes to the most similar mode of the same order, with its energy and
       phase; wires, film under them, rings and air modes one by one if both models have the same number. Modes without
       counterpart are lost. The wires then move with the head above them, the only step that may add energy. `work` has room for
       this model's field. Realtime safe. */
    void transferState (const BasicDrumModel& former, const Motion& from, const Motion& to, double* work) const noexcept;

    /** Relative displacement of head and strands at every wire contact for these mode positions, m. Realtime safe. */
    void contactsMovedBy (const Scalar* position, Scalar* to) const noexcept;

    /** Compression of every wire contact for these mode positions, m. Realtime safe. */
    void compressionsAt (const Scalar* position, Scalar* to) const noexcept;

    /** Energy of the modes, J. */
    double modalEnergy (const Scalar* position, const Scalar* step) const noexcept;
    /** Whether that exceeds `least`; stops at the first modes that have it together. */
    bool hasModalEnergy (const Scalar* position, const Scalar* step, double least) const noexcept;
    /** Energy of the wire contacts above that at rest, J. */
    double contactEnergy (const Scalar* compression, const Scalar* before) const noexcept;

    /** Point on the resonant head where the forces of neighbouring wires are summed, m. */
    struct ForcePoint
    {
        double x, y;
        int first, count; ///< contacts
    };
    std::span<const ForcePoint> forcePoints() const noexcept { return wirePoints; }
    const UpperBand& upperBand() const noexcept { return upper; }

    double delay (int microphone) const noexcept { return delays[static_cast<std::size_t> (microphone)]; } ///< s
    int microphones() const noexcept { return static_cast<int> (drumSetup.microphones.size()); }

private:
    template <class Self, class Stream>
    static void passMembers (Self&, Stream&); ///< every member, in DrumModelBytes.cpp: a new one belongs there, too

    void gatherRecursions (const Bank&); ///< recursion of each mode
    void gatherWires (const Bank&);      ///< contacts and their coupling
    void gatherForcePoints (const Bank&);
    void gatherWireModes (const Bank&);
    void gatherRings (const Bank&);
    void gatherSound (const Bank&); ///< pressure of the modes and of the upper band at the microphones
    void gatherHeadShapes (const Bank&);
    void buildTables();
    void sortFieldModes();
    void buildStretch();
    double halfWidthUnderTip() const; ///< m, of the load that film of this stiffness takes a tip for
    void buildFilmUnderTip();
    void buildStretchUnderTip();
    void shapeOf (const Scalar* values, Scalar* to) const noexcept;
    void basisAt (double r, double theta, Scalar* values) const noexcept;
    /** Converts between the contacts of four quadrants and their combinations, one per coupling class; its own inverse. Does
       nothing without symmetry. */
    void fold (std::array<double, maxCouplingClasses>& values) const noexcept;
    /** Moves the wires so that their contacts are as compressed as in the former model, as closely as their modes allow. */
    void moveWiresWithHead (const BasicDrumModel& former, const Scalar* theirs, Scalar* ours) const noexcept;
    double energyOf (std::size_t bankMode, const Scalar* position, const Scalar* step) const noexcept;

    DrumSetup drumSetup;
    int realContacts = 0, classes = 0, combinations = 0;

    AlignedArray<Scalar> keep, spring, drive, lossOfStep;
    AlignedArray<double> exactKeep, exactSpring, exactDrive;
    std::array<CouplingClass<Scalar>, maxCouplingClasses> coupling{};
    std::array<AlignedArray<Scalar>, maxCouplingClasses> shapes, mobility;
    std::array<AlignedArray<Scalar>, 2> stretchGradient; ///< batter, resonant
    std::vector<std::pair<int, int>> stretchSpans;       ///< ranges of the bank where these are not zero; whole packs
    Scalar contactResistance = 0;
    AlignedArray<Scalar> stiffness, lossRate, metric, restForce, restCompression;
    std::array<AlignedArray<Scalar>, maxMicrophones> pressureOfAcceleration, pressureOfVelocity;
    std::array<double, maxMicrophones> delays{};

    std::vector<ForcePoint> wirePoints; ///< at most maxForcePoints
    UpperBand upper;
    FilmWaves filmWaves;
    modal::LocalStretch localStretch;
    std::vector<Scalar> ringShare; ///< of each basis function: its mean over the ring round a place over its value there

    /** A mode of the drum in the bank and its range of basis functions: those of one order on an even drum, nearly all on an
       uneven one. */
    struct HeadMode
    {
        int bankMode, drumMode;
        int firstFunction, functions;
        bool isAirMode; ///< of the cavity or its vent
    };
    std::vector<HeadMode> headBankModes;
    AlignedArray<Scalar> batterShapes; ///< 1/√kg·m, the ranges of all modes, concatenated
    std::vector<float> radialTable;
    std::vector<int> airBankModes;  ///< bank modes of the cavity and its vent
    std::vector<int> wireBankModes; ///< modes of the wires, in the order of the parity classes and softest first
    std::vector<int> filmBankModes; ///< short waves of the film under the wires
    /** For each class, wire modes × combinations, 1/m: how the wires lie when their contacts are moved slowly. */
    std::array<std::vector<double>, maxCouplingClasses> slowMotion;
    std::vector<int> ringBankModes;

    /** A mode of the heads as it is compared with another model's modes. */
    struct FieldMode
    {
        int bankMode, drumMode;
        int order; ///< nodal diameters of its strongest part
        double frequency;
        int firstTerm = 0, terms = 0; ///< of `leadingTerms`
        double size = 0.0;            ///< norm of these terms, 1/√kg
    };
    std::vector<FieldMode> fieldModes; ///< by order, and by frequency within each

    /** Coefficient of a mode for one basis function on both heads. */
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
    double similarity (const FieldMode&, const double* field) const noexcept;
    void writeShape (const BasicDrumModel& former, const FieldMode&, double share, double* field) const noexcept;
    void carryOver (const BasicDrumModel& former, int theirs, int ours, double sign, const Motion& from,
                    const Motion& to) const noexcept;
    void transferHeadModes (const BasicDrumModel& former, const Motion& from, const Motion& to, double* work) const noexcept;

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
