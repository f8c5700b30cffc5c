#pragma once

#include "AlwaysInline.h"
#include "Roughness.h"
#include "StickState.h"

namespace engine
{

inline constexpr int maxCouplingClasses = 4;
inline constexpr int maxStretchSpans = 8;
inline constexpr int maxForcePoints = 16; ///< points at which wire forces are summed for UpperBand

/** Modes and contacts are padded to whole tiles, which are whole packs of every processor. */
inline constexpr int tileModes = 16, tileRows = 8;

/** Coupling of one parity class of modes and contacts. */
template <typename Scalar>
struct CouplingClass
{
    int firstMode = 0;                ///< in the bank
    int modes = 0;                    ///< whole tiles
    const Scalar* shapes = nullptr;   ///< 1/√kg, compression per modal coordinate, tile by tile: see shapeIndex()
    const Scalar* mobility = nullptr; ///< [combination][combination], m/N a step

    /** Shapes are stored in the order in which the inner loop reads them, so that hardware prefetching works: blocks of eight
       combinations, in each tiles of sixteen modes, one row per combination. */
    static SNAREWRIGHT_INLINE int shapeIndex (int combination, int mode, int modes) noexcept
    {
        return combination / tileRows * tileRows * modes + mode / tileModes * tileRows * tileModes +
               combination % tileRows * tileModes + mode % tileModes;
    }
};

/** Stretch of the heads, batter first, and the rise of tension: see KernelTension.h. */
template <typename Scalar>
struct TensionState
{
    const Scalar* gradient[2] = {}; ///< [mode], 1/kg: ∫|∇w|² dA of a head for a modal coordinate of 1 m·√kg
    struct Span
    {
        int from, to;
    } spans[maxStretchSpans] = {}; ///< modes that stretch a head; whole packs
    int spanCount = 0;
    double rise[2] = {}; ///< N/m of tension for each m² of ∫|∇w|² dA
    double base[2] = {}; ///< N/m, tension at rest
    double least = 0.0;  ///< rises below this share of the tension are skipped; 0: never
    bool isActive = false;
    double stretch[2] = {}, byContacts[2] = {}; ///< m², ∫|∇w|² dA now, and how much of the last change came from contacts
    double predicted[2] = {};                   ///< m², prediction without contacts and without its own force
    double force[2] = {};                       ///< N/m, the rise of tension in this sample
    double store = 0.0;                         ///< J, energy that the stretch has taken and may give back
};

/** Energy flows for the balance, J. */
struct EnergyFlows
{
    double work = 0.0; ///< by the hand, and kinetic energy of arriving sticks
    double contactLoss = 0.0;
    double modalLoss = 0.0;
};

/** State and constants of a drum for the inner loop: plain pointers to packed arrays.

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
    Scalar contactResistance = 0;            ///< N s/m / (2T), added while a contact is closed
    const Scalar* metric = nullptr;          ///< m/N, diagonal that bounds the mobility matrix from above
    const Scalar* restForce = nullptr;       ///< N
    const Scalar* restCompression = nullptr; ///< m
    Scalar *force = nullptr, *forceBefore = nullptr;
    Scalar *compression = nullptr, *compressionBefore = nullptr;
    Scalar* scratch = nullptr;    ///< 8 × classes × combinations
    Scalar tolerance = 0;         ///< N, change of force at which the contacts have converged,
    Scalar relativeTolerance = 0; ///< plus this share of the largest force beyond rest
    int maxSweeps = 0;

    StickState* sticks = nullptr;
    const Scalar* stickShape[maxStickContacts] = {};  ///< [mode], 1/√kg: how the drum's modes press each contact of a stick
    const Scalar* stickToWire[maxStickContacts] = {}; ///< [contact], m/N a step

    double roughness = 0.0;                           ///< m, of the batter head, root mean square
    const RoughnessProfile* roughnessProfile = nullptr;
    double wiresPeakForce = 0.0;                      ///< N, most that a brush's wires pushed with together since it was set to 0

    TensionState<Scalar> tension;

    /** Neighbouring wire contacts whose forces are logged as one sum. */
    struct ForcePoint
    {
        int first, count;
        Scalar atRest; ///< N, all together
    } forcePoints[maxForcePoints] = {};
    int forcePointCount = 0;
    Scalar* forceLog = nullptr; ///< N above that at rest: [stick, then force point][frame], rows `forceLogStride` apart
    int forceLogStride = 0;

    int microphones = 0;
    const Scalar* pressureOfAcceleration[maxMicrophones] = {}; ///< Pa per (m·√kg a step²)
    const Scalar* pressureOfVelocity[maxMicrophones] = {};     ///< Pa per (m·√kg a two steps)

    bool countsEnergy = false;
    EnergyFlows* flows = nullptr;
    const Scalar* lossOfStep = nullptr;     ///< J per (position⁺ - position⁻)², for the balance
    long long stickTurns = 0, sweeps = 0, wireContacts = 0; ///< counted for benchmarks and tests
};

/** Advances a drum by `frames` samples; adds pressure in Pa to outputs[microphone][frame]. */
template <typename Scalar>
using KernelFunction = void (*) (KernelView<Scalar>&, Scalar* const* outputs, int frames);

} // namespace engine
