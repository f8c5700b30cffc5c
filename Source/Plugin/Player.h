#pragma once

#include "Midi.h"
#include "PatternPlayer.h"
#include "Ramp.h"
#include "StrikeRecording.h"
#include "Values.h"

#include "Engine/Drum.h"
#include "Place/RoomFader.h"

#include <array>
#include <memory>
#include <vector>

namespace plugin
{

inline constexpr int microphoneCount = 3; ///< above, below, distant

/** Output buffers; null where the host has no such output. */
struct PlayerOutputs
{
    float* left = nullptr;
    float* right = nullptr; ///< null: the main output has one channel, `left`
    std::array<float*, microphoneCount> microphones{};
};

/** Plays the drum: strokes, controllers, microphones, gains. All but prepare() are for the audio thread and realtime safe; the
 * result does not depend on the block size. */
class Player
{
public:
    explicit Player (StrikeRecording& toRecord) : recording (toRecord) {}

    /** @param model at the sample rate of the coming blocks */
    void prepare (std::shared_ptr<const engine::DrumModel> model, const Values&);

    bool isReady() const noexcept { return drum != nullptr; }
    double sampleRate() const noexcept { return rate; }

    /** Switches to another model; returns the former. */
    std::shared_ptr<const engine::DrumModel> setModel (std::shared_ptr<const engine::DrumModel>) noexcept;

    /** The room that the drum is heard in, if there is one; it is prepared and set before prepare(). */
    place::RoomFader& room() noexcept { return roomFader; }

    /** Settings for the following samples and strokes. */
    void setValues (const Values&) noexcept;

    /** A stroke that lands before the next sample. Kind, speed and (unless the player's is used) position are as given; angle,
     * pressure and timing come from settings and controllers. */
    void strike (engine::Stroke, bool usesPlayersPosition) noexcept;

    /** A stroke exactly as given. */
    void strikeExactly (const engine::Stroke&) noexcept;

    /** Ends a brush's sweep. */
    void liftBrush() noexcept { drum->endSweeps(); }
    bool hasBrush() const noexcept { return drum->model().setup().stick.isBrush(); }

    void choke() noexcept;
    void silence() noexcept;
    void setPosition (double share) noexcept { heldPosition = share; }
    void setPressure (double share) noexcept { pressure = share; }
    void resetControllers() noexcept;

    /** Writes the next `frames` samples. */
    void render (const PlayerOutputs&, int frames) noexcept;

private:
    void restart() noexcept;
    void renderPart (const PlayerOutputs&, int offset, int frames) noexcept;

    static constexpr int longestPart = 256;
    static constexpr double notHeld = -1.0;

    StrikeRecording& recording;
    std::unique_ptr<engine::Drum> drum;
    double rate = 48000.0;
    Values settings = initialValues();
    double heldPosition = notHeld, pressure = 0.0;
    bool isBypassed = false, isChoking = false;

    struct Channel
    {
        Ramp level, left, right;
    };
    std::array<Channel, microphoneCount> channels;
    Ramp output, choked, bypassed;

    place::RoomFader roomFader;
    Ramp placeGain, microphonesGain; ///< of the sound at the listener, and of the microphones' mix
    std::array<float, longestPart> placeLeft{}, placeRight{};

    std::array<std::array<float, longestPart>, microphoneCount> heard{};
};

} // namespace plugin
