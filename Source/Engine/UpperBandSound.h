#pragma once

#include "FeedbackDelayNetwork.h"
#include "Filters.h"
#include "Stroke.h"
#include "UpperBand.h"

#include <span>
#include <vector>

namespace engine
{

template <typename Scalar>
class BasicDrumModel;

/** Renders the upper band from the forces that the inner loop logs. Only the constructor allocates. */
template <typename Scalar>
class UpperBandSound
{
public:
    explicit UpperBandSound (double sampleRate);

    /** Switches to another model; the reverberation keeps ringing. */
    void connect (const BasicDrumModel<Scalar>&) noexcept;
    void reset() noexcept;

    /** Where a stick's tip pushes from now on. */
    void place (int stick, const Blow&, const BasicDrumModel<Scalar>&) noexcept;

    /** Makes room for `frames` samples of forces and points KernelView::forceLog at it. */
    void open (KernelView<Scalar>&, int frames) noexcept;

    /** Adds the pressure caused by these forces to outputs[microphone][frame], Pa. */
    void add (Scalar* const* outputs, int frames) noexcept;

private:
    static constexpr int points = maxForcePoints + maxSticks;

    struct Tap
    {
        Scalar gain = 0;
        int delay = 0; ///< samples
    };
    /** One value per microphone, plus a padding lane. */
    using PerMicrophone = std::array<Scalar, maxMicrophones + 1>;

    void addChunk (Scalar* const* outputs, int from, int frames) noexcept;
    const Scalar* forcesOf (int point) const noexcept { return forces.data() + point * room + written; }
    Scalar inputFor (const BasicDrumModel<Scalar>& model, std::size_t head, double radius) const noexcept;
    Tap tapFor (const BasicDrumModel<Scalar>&, int head, double x, double y, int microphone) const noexcept;

    double rate;
    int room;                   ///< samples that a row of forces holds
    int past;                   ///< of these, the longest delay of a tap
    int written;                ///< samples in a row so far
    std::vector<Scalar> forces; ///< [point][sample]
    std::array<FeedbackDelayNetwork<Scalar>, 2> networks;
    std::array<std::array<Tap, points>, maxMicrophones> taps{};
    std::array<Scalar, points> networkInput{};                            ///< share of each force that enters its head's network
    OnePoleLowPasses<Scalar, FeedbackDelayNetwork<Scalar>::lines> patch;  ///< of the sticks' forces, see UpperBand::tipCorner
    std::array<OnePoleHighPasses<Scalar, maxMicrophones + 1>, 2> corners; ///< of each head
    std::array<PerMicrophone, 2> networkGain{};                           ///< Pa per unit of a network's output
    // The crossover: two poles before direct sound and networks are added, six behind.
    HighPassCoefficients<Scalar> inputHighPass;
    HighPassState<Scalar, maxMicrophones + 1> inputState;
    std::array<HighPassCoefficients<Scalar>, 3> outputHighPass;
    std::array<HighPassState<Scalar, maxMicrophones + 1>, 3> outputState;
    int microphones = 0, wirePoints = 0;
    bool isHeard = false;
};

} // namespace engine
