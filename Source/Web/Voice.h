#pragma once

#include "Engine/Drum.h"
#include "Place/RoomFader.h"
#include "Plugin/Pattern.h"
#include "Plugin/Ramp.h"
#include "Score/UsualMix.h"

#include <array>
#include <memory>
#include <optional>
#include <span>
#include <vector>

namespace web
{

/** The drum that sounds: strokes and a pattern in, stereo out. For one thread, the browser's audio thread. Until the first model
   comes it is silent and keeps the strokes. */
class Voice
{
public:
    static constexpr int mostFrames = 512; ///< of one process()

    /** @param sampleRate  Hz, of the models to come */
    explicit Voice (double sampleRate);

    /** Space for the bytes of a model or a room, which one of the next two then takes. Both throw modal::InputError for other
       bytes or another sample rate. */
    std::span<std::byte> spaceFor (std::size_t size);

    /** Switches to the model (engine::DrumModel::write()) while the drum rings on. One of a size that was seen before needs no
       new memory. */
    void takeModel();

    /** Fades to what the listener hears in this room (place::Room::write()), or without any bytes back to the microphones' mix.
       Before the first model it is there at once. */
    void takeRoom();

    /** A stroke that lands before the next sample; values out of range are brought into range. */
    void strike (const engine::Stroke&, int sampleOffset = 0) noexcept;

    /** A pattern from its beginning; without strokes none. Times, those of sweeps too, are in beats. @param repeats  again and again */
    void setPattern (plugin::Pattern, bool repeats);
    void setTempo (double beatsPerMinute) noexcept; ///< 20 to 400

    /** Beats since the pattern began, taken round where it repeats; below 0: none plays. */
    double beat() const noexcept { return pattern.strokes.empty() ? -1.0 : now; }

    void silence() noexcept;
    void setGain (double decibels) noexcept; ///< at most 12; -100 and below: silence

    /** Writes the next `frames` samples, at most mostFrames; full scale 1, never beyond the ceiling of the plugin. */
    void process (float* left, float* right, int frames) noexcept;

private:
    void playPattern (int frames) noexcept;
    void changeRoom() noexcept;

    double rate;
    score::UsualMix mixer;
    std::unique_ptr<engine::Drum> drum;
    std::array<std::shared_ptr<engine::DrumModel>, 2> models; ///< one plays, the other is read into
    std::size_t free = 0;                                     ///< the latter
    std::vector<std::byte> received;
    std::vector<engine::Stroke> waiting; ///< for the first model
    plugin::Pattern pattern;
    bool patternRepeats = true;
    double now = 0.0, beatsPerSample = 0.0;
    place::RoomFader room;
    std::optional<std::unique_ptr<place::Room>> nextRoom; ///< once the change before it is over
    plugin::Ramp gain, microphones;                       ///< of everything, and of the microphones' mix, which a room replaces
    const float far = static_cast<float> (score::usualPlaceGain());
    std::array<std::array<float, mostFrames>, score::UsualMix::microphones> heard{};
    std::array<float, mostFrames> roomLeft{}, roomRight{};
};

} // namespace web
