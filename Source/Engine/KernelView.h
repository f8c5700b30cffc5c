#pragma once

#include "AlwaysInline.h"

namespace engine
{

inline constexpr int maxStrikers = 4;
inline constexpr int maxMicrophones = 3;
inline constexpr int maxCouplingClasses = 4;
inline constexpr int maxStretchSpans = 8;
inline constexpr int maxForcePoints = 16; ///< places where wires are taken to push the resonant head, for what UpperBand hears

/** Everything a striker (stick tip or shaft) needs in flight and in contact. Heights in m, positive upwards from the head at
 * rest. */
struct StrikerState
{
    bool active = false;
    double height = 0.0, step = 0.0;                   ///< m, and m since the last sample
    double drive = 0.0;                                ///< T²/mass, s²/kg
    double stiffness = 0.0, exponent = 1.5;            ///< N/m^exponent
    double lossRate = 0.0;                             ///< loss/(2T), 1/m
    double grip = 0.0;                                 ///< of the hand's flesh: its resistance × interval / (2 × mass)
    double hand = 0.0;                                 ///< N, downwards
    double lift = 0.0;                                 ///< N, upwards once the hand has let go
    int age = 0;                                       ///< samples since it came
    int liftAfter = 0;                                 ///< samples until the hand begins to let go
    int handWithin = 0;                                ///< samples that it takes the hand to come, and again to go
    double compression = 0.0, compressionBefore = 0.0; ///< m, positive in contact
    double dent = 0.0, dentBefore = 0.0;               ///< m, how far the film gives under the tip beyond what the modes show
    double dentRelease = 0.0;                          ///< share of the dent that goes back in two samples without force
    double dentYield = 0.0;                            ///< m/N, what a force adds to it; 0: none
    double free = 0.0;                                 ///< m, the compression that would come without any force
    double mobility = 0.0;                             ///< m/N a step: its own, head, dent and stick
    double crossMobility[maxStrikers] = {};            ///< m/N to the other strikers
    double force = 0.0;                                ///< N
    double peakForce = 0.0;                            ///< N, largest so far
    int contactSamples = 0;                            ///< samples in contact so far

    /** The dent is a spring and a resistance side by side: over two samples it goes from `dentBefore` to this, with the force
        stiffness × mean of both + resistance × speed. m. */
    SNAREWRIGHT_INLINE double nextDent (double pushedWith) const noexcept
    {
        return dentBefore * (1.0 - dentRelease) + dentYield * pushedWith;
    }

    SNAREWRIGHT_INLINE double dentStiffness() const noexcept { return dentYield > 0.0 ? dentRelease / dentYield : 0.0; } ///< N/m
    /** N for each metre in two samples. */
    SNAREWRIGHT_INLINE double dentResistance() const noexcept
    {
        return dentYield > 0.0 ? (1.0 - 0.5 * dentRelease) / dentYield : 0.0;
    }

    /** The compression that would come without any force, if the modes lifted the surface to `surface`. m. */
    SNAREWRIGHT_INLINE double freeCompression (double surface) const noexcept
    {
        return surface - nextDent (0.0) - (height + nextStep (0.0));
    }

    /** How far it moves in the next sample. m. */
    SNAREWRIGHT_INLINE double nextStep (double pushedWith) const noexcept
    {
        return (step * (1.0 - grip) + drive * (pushedWith - handNow())) / (1.0 + grip);
    }

    /** What the hand does in this sample, N, downwards. */
    SNAREWRIGHT_INLINE double handNow() const noexcept
    {
        return age < liftAfter ? hand * doneAfter (age) : hand - (hand + lift) * doneAfter (age - liftAfter);
    }

    /** Share of its coming or going that the hand has done after so many samples. */
    SNAREWRIGHT_INLINE double doneAfter (int samples) const noexcept
    {
        if (samples >= handWithin)
            return 1.0;
        const double share = static_cast<double> (samples) / handWithin;
        return share * share * (3.0 - 2.0 * share);
    }
};

/** Modes and contacts are padded to whole tiles, which are whole packs of every processor. */
inline constexpr int tileModes = 16, tileRows = 8;

/** What one parity class of modes and contacts has in common with no other. */
template <typename Scalar>
struct CouplingClass
{
    int firstMode = 0;                ///< in the bank
    int modes = 0;                    ///< whole tiles
    const Scalar* shapes = nullptr;   ///< 1/√kg, compression per modal coordinate, tile by tile: see shapeIndex()
    const Scalar* mobility = nullptr; ///< [combination][combination], m/N a step

    SNAREWRIGHT_INLINE Scalar shape (int combination, int mode) const noexcept
    {
        return shapes[shapeIndex (combination, mode, modes)];
    }

    /** Shapes lie in the order in which the inner loop reads them, which a processor fetches ahead by itself: for eight
       combinations after one another, for each sixteen modes, a row a combination. */
    static SNAREWRIGHT_INLINE int shapeIndex (int combination, int mode, int modes) noexcept
    {
        return combination / tileRows * tileRows * modes + mode / tileModes * tileRows * tileModes +
               combination % tileRows * tileModes + mode % tileModes;
    }
};

/** How far the heads are stretched, batter first, and what that does: see KernelTension.h. */
template <typename Scalar>
struct TensionState
{
    const Scalar* gradient[2] = {}; ///< [mode], 1/kg: ∫|∇w|² dA of a head for a modal coordinate of 1 m·√kg
    struct Span
    {
        int from, to;
    } spans[maxStretchSpans] = {}; ///< of the bank: no other mode stretches a head; whole packs
    int spanCount = 0;
    double rise[2] = {}; ///< N/m of tension for each m² of ∫|∇w|² dA
    double base[2] = {}; ///< N/m, tension at rest
    double least = 0.0;  ///< share of the tension below which its rise is left out; 0: never
    bool isActive = false;
    double stretch[2] = {}, byContacts[2] = {}; ///< m², ∫|∇w|² dA now, and how much of the last change came from contacts
    double ahead[2] = {};                       ///< m², what it would become without contacts and without what it does itself
    double force[2] = {};                       ///< N/m, the rise of tension in this sample
    double store = 0.0;                         ///< J, what the stretch has taken and may give back
};

/** Sums over time that the energy balance needs, J. */
struct EnergyFlows
{
    double work = 0.0; ///< done by the hand, and brought in by sticks
    double contactLoss = 0.0;
    double modalLoss = 0.0;
};

/** The state of a drum and the constants that move it on by a sample, as the inner loop wants them: plain pointers to packed
   arrays.

    Each mode obeys step⁺ = keep·step - spring·position + drive·force, position⁺ = position + step⁺. */
template <typename Scalar>
struct KernelView
{
    int modes = 0; ///< padded
    const Scalar *keep = nullptr, *spring = nullptr, *drive = nullptr;
    Scalar *position = nullptr, *step = nullptr;
    Scalar* trial = nullptr; ///< position after a step without contact forces
    Scalar* push = nullptr;  ///< modal force of the contacts

    int classes = 0;      ///< 0 without wires, 1 without symmetry, 4 with it
    int combinations = 0; ///< a class, padded
    CouplingClass<Scalar> coupling[maxCouplingClasses];
    const Scalar* stiffness = nullptr;       ///< N/m; every array from here on has classes × combinations entries
    const Scalar* lossRate = nullptr;        ///< N/m · s/m / (2T)
    Scalar contactResistance = 0;            ///< N s/m / (2T), of a contact that is closed, on top
    const Scalar* metric = nullptr;          ///< m/N, diagonal at least as large as the mobility
    const Scalar* restForce = nullptr;       ///< N
    const Scalar* restCompression = nullptr; ///< m
    Scalar *force = nullptr, *forceBefore = nullptr;
    Scalar *compression = nullptr, *compressionBefore = nullptr;
    Scalar* scratch = nullptr;    ///< 8 × classes × combinations
    Scalar tolerance = 0;         ///< N, the change of force at which the contacts count as settled,
    Scalar relativeTolerance = 0; ///< and what may be added for each newton of the largest force beyond rest
    int maxSweeps = 0;

    StrikerState* strikers = nullptr;
    const Scalar* strikerShape[maxStrikers] = {};  ///< [mode]
    const Scalar* strikerToWire[maxStrikers] = {}; ///< [contact], m/N a step

    TensionState<Scalar> tension;

    /** Neighbouring wire contacts whose forces are told as one. */
    struct ForcePoint
    {
        int first, count;
        Scalar atRest; ///< N, all together
    } forcePoints[maxForcePoints] = {};
    int forcePointCount = 0;
    Scalar* toldForce = nullptr; ///< N above that at rest: [striker, then force point][frame], rows `toldStride` apart
    int toldStride = 0;

    int microphones = 0;
    const Scalar* pressureOfAcceleration[maxMicrophones] = {}; ///< Pa per (m·√kg a step²)
    const Scalar* pressureOfVelocity[maxMicrophones] = {};     ///< Pa per (m·√kg a two steps)

    bool countsEnergy = false;
    EnergyFlows* flows = nullptr;
    const Scalar* lossOfStep = nullptr;     ///< J per (position⁺ - position⁻)², for the balance
    long long sweeps = 0, wireContacts = 0; ///< counted for benchmarks and tests
};

/** Moves a drum on by `frames` samples; adds pressure in Pa to outputs[microphone][frame]. */
template <typename Scalar>
using KernelFunction = void (*) (KernelView<Scalar>&, Scalar* const* outputs, int frames);

} // namespace engine
