#pragma once

#include "EchoNetwork.h"
#include "HighPass.h"
#include "Stroke.h"
#include "UpperBand.h"

#include <span>
#include <vector>

namespace engine
{

template <typename Scalar>
class BasicDrumModel;

/** Plays the upper band: takes the forces that the inner loop tells, adds to what the microphones hear. Nothing here allocates,
    except when made. */
template <typename Scalar>
class UpperBandSound
{
public:
    explicit UpperBandSound (double sampleRate);

    /** Goes on with another model; echoes ring on. */
    void connect (const BasicDrumModel<Scalar>&) noexcept;
    void reset() noexcept;

    /** Where a striker pushes from now on; on the hoop it is not heard here. */
    void place (int striker, const Blow&, const BasicDrumModel<Scalar>&) noexcept;

    /** Makes room for so many samples of forces, and says where the inner loop puts them: see KernelView::toldForce. */
    void open (KernelView<Scalar>&, int frames) noexcept;

    /** Adds the pressure that these forces make to outputs[microphone][frame], Pa. */
    void add (Scalar* const* outputs, int frames) noexcept;

private:
    static constexpr int points = maxForcePoints + maxStrikers;

    struct Tap
    {
        Scalar gain = 0;
        int delay = 0; ///< samples
    };
    /** A value for each microphone, and one for nobody that fills a pack. */
    using Ears = std::array<Scalar, maxMicrophones + 1>;

    void addChunk (Scalar* const* outputs, int from, int frames) noexcept;
    const Scalar* told (int point) const noexcept { return forces.data() + point * room + written; }
    Tap tapFor (const BasicDrumModel<Scalar>&, int head, double x, double y, int microphone) const noexcept;

    double rate;
    int room;                   ///< samples that a row of forces holds
    int past;                   ///< of these, how many taps may look back
    int written;                ///< samples in a row so far
    std::vector<Scalar> forces; ///< [point][sample]
    std::array<EchoNetwork<Scalar>, 2> echoes;
    std::array<std::array<Tap, points>, maxMicrophones> taps{};
    std::array<OnePoles<Scalar, maxMicrophones + 1>, 2> corners; ///< of each head
    std::array<Ears, 2> echo{};                                  ///< Pa for each unit of an echo network's output
    HighPassShape<Scalar> entrance, exit;                        ///< the crossover: two poles each
    HighPass<Scalar, maxMicrophones + 1> afterEntrance, afterExit;
    std::array<bool, maxStrikers> isOnHead{};
    int microphones = 0, wirePoints = 0;
    bool isHeard = false;
};

} // namespace engine
