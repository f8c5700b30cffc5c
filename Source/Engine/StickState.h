#pragma once

#include "AlwaysInline.h"
#include "HandleMotion.h"

#include "Modal/hardware/StickBody.h"
#include "Modal/heads/LocalStretch.h"

#include <array>

namespace engine
{

inline constexpr int maxMicrophones = 3;

/** Bodies that may be on the drum at once: the groups of wires of two brushes; and how many of them may be sticks. */
inline constexpr int maxSticks = 12, mostWholeSticks = 4;

/** Waves of the film under a tip that are too short for the drum's modes: see BasicDrumModel::wavesUnderTip(). */
inline constexpr int maxFilmWaves = 8;
inline constexpr int maxStickModes = modal::StickBody::maxModes + maxFilmWaves;

/** Room for these and for the contacts of all sticks in whole packs of eight; what is beyond stays zero. */
inline constexpr int wholePacks (int count)
{
    return (count + 7) / 8 * 8;
}
using StickModes = std::array<double, wholePacks (maxStickModes)>;

/** A stick that has bounced this high off head and hoop has left, m. On the way its sound fades: the hand stills it. */
inline constexpr double bouncedReach = 1.0e-3;

/** Where a stick touches the drum, and the film's own stretch under its tip, which is solved together with these. */
enum class StickContactKind
{
    tip,         ///< the tip on the batter head
    stretch,     ///< the film round the tip: its local stretch, a spring that works both ways
    shaft,       ///< the shaft on the batter hoop
    slip = shaft ///< of a brush's wires, which meet no hoop: the friction of their tips on the head, which they slip along
};
inline constexpr int contactsPerStick = 3;
inline constexpr int maxStickContacts = maxSticks * contactsPerStick;

/** One contact of a stick. Compression is
        shape·(modes of the drum) + ofStick·(modes of the stick and of the film under it) + offset,
    positive when pressed, with what the hand imposes on it for a brush: how far it has led the wires down, over the head's
   roughness, or along. For the stretch it is how deep the film is pushed in under the tip, for the slip how far the tip has come
   along the head. m. */
struct StickContact
{
    bool active = false;
    double compression = 0.0, compressionBefore = 0.0; ///< m, now and a sample ago
    double offset = 0.0;                               ///< m
    alignas (64) StickModes ofStick{};                 ///< 1/√kg
    bool isStretch = false, isSlip = false;
    double imposed = 0.0, imposedBefore = 0.0, imposedNext = 0.0; ///< m, now, a sample ago, in the next sample
    double friction = 0.0;                                        ///< coefficient of the slip in this sample
    double stiffness = 0.0, exponent = 1.5;                       ///< N/m^exponent
    double lossRate = 0.0;                                        ///< damping/(2T), 1/m
    double free = 0.0;                                            ///< m, the compression in the next sample if no contact pushed
    double fromWires = 0.0;                                       ///< m, by which the wires' forces open it
    alignas (
        64) std::array<double, wholePacks (maxStickContacts)> mobility{}; ///< m/N a step, of this contact for a force at each
    double force = 0.0;                                                   ///< N
    double peakForce = 0.0;                                               ///< N, largest so far
    int samples = 0;                                                      ///< in contact so far
    int touchedAt = 0;                                                    ///< age of the stick at its first contact

    /** How far these values of the stick's modes press it, m. */
    double pressedBy (const StickModes& values) const noexcept
    {
        double sum = 0.0;
        for (std::size_t k = 0; k < values.size(); ++k)
            sum += ofStick[k] * values[k];
        return sum;
    }
};

/** A stick in flight and in contact, or a group of a brush's wires as seen from its handle: one body, whose modes the contacts
   and the hand push, and behind these the short waves of the film under its tip, which are modes in the same way. Heights in m,
   upwards. */
struct StickState
{
    bool active = false;
    int modes = 0, bodyModes = 0,
        rigidModes = 0; ///< all, the first of them that are the stick's, the first of these that are rigid
    alignas (64) StickModes position{}, step{}, trial{}; ///< m·√kg: now, since the last sample, next without contact forces
    alignas (64) StickModes keep{}, spring{}, drive{}, lossOfStep{}; ///< see ModalRecursion
    alignas (64) StickModes ofHand{};                                ///< 1/√kg, motion against the hand's push
    double handPush = 0.0;                                           ///< N, downwards
    double handLift = 0.0;                                           ///< N, upwards once the hand has let go
    int age = 0;                                                     ///< samples since it came
    int liftAfter = 0;                                               ///< samples until the hand begins to let go
    int handWithin = 0;                                              ///< samples that it takes the hand to come, and again to go
    bool isWires = false;                                            ///< of a brush
    HandleMotion handle;                                             ///< of a brush; its acceleration is the "push" of its hand
    int fan = 0;                                                     ///< which brush's, counted as they land
    double lateral = 0.0;                                            ///< m, where these wires lie in the fan
    double roughPlace = 0.0;                                         ///< m, where these wires begin in the head's roughness
    alignas (64) StickModes dipole{};                                ///< see modal::StickBody::Mode
    double airForce = 0.0; ///< what pushes the air around the moving stick, over the air's density, m⁴ a sample²
    /** Pressure of that at each microphone, Pa: near × airForce + far × (its change in a sample). */
    std::array<double, maxMicrophones> near{}, far{};
    modal::LocalStretch stretch;
    std::array<StickContact, contactsPerStick> contact;

    SNAREWRIGHT_INLINE StickContact& at (StickContactKind kind) noexcept { return contact[static_cast<std::size_t> (kind)]; }
    SNAREWRIGHT_INLINE const StickContact& at (StickContactKind kind) const noexcept
    {
        return contact[static_cast<std::size_t> (kind)];
    }

    /** What the hand does in this sample, N, downwards; to a brush's wires, m/s². */
    SNAREWRIGHT_INLINE double handNow() const noexcept
    {
        if (isWires)
            return handle.acceleration (age);
        return age < liftAfter ? handPush * doneAfter (age) : handPush - (handPush + handLift) * doneAfter (age - liftAfter);
    }

    /** Share of its coming or going that the hand has done after so many samples. */
    SNAREWRIGHT_INLINE double doneAfter (int samples) const noexcept
    {
        if (samples >= handWithin)
            return 1.0;
        const double share = static_cast<double> (samples) / handWithin;
        return share * share * (3.0 - 2.0 * share);
    }

    /** Of the tip above the plane of the head at rest, m. */
    double tipHeight() const noexcept
    {
        const auto& tip = at (StickContactKind::tip);
        double sum = tip.offset + tip.imposed;
        for (std::size_t k = 0; k < static_cast<std::size_t> (bodyModes); ++k)
            sum += tip.ofStick[k] * position[k];
        return -sum;
    }

    /** How fast the tip rises as if the stick could not bend, m a sample. */
    SNAREWRIGHT_INLINE double rigidStepOfTip() const noexcept
    {
        double sum = 0.0;
        for (std::size_t k = 0; k < static_cast<std::size_t> (rigidModes); ++k)
            sum -= at (StickContactKind::tip).ofStick[k] * step[k];
        return sum;
    }
};

} // namespace engine
