#pragma once

#include "Morph.h"

#include <array>
#include <atomic>
#include <cstdint>
#include <optional>

namespace plugin
{

/** The plugin's settings, readable by every thread: the parameters, the snapshots and the last note played to tune the batter.
 */
class LiveSound
{
public:
    /** Drums that are kept; the morph runs from the first to the second. */
    enum Snapshot
    {
        a,
        b,
        c,
        d,
        e,
        f,
        g,
        h
    };
    static constexpr std::size_t snapshotCount = h + 1;

    SharedValues live{ initialValues() };

    /** The values in use: the parameters', or a mix of the snapshots while the morph is on. */
    Values effective() const noexcept
    {
        const auto values = live.copy();
        return isMorphing() ? morphed (snapshots[a].copy(), snapshots[b].copy(),
                                       static_cast<double> (live[Parameter::morph]) / 100.0, values)
                            : values;
    }

    bool isMorphing() const noexcept { return live[Parameter::morphOn] >= 0.5f && hasSnapshot (a) && hasSnapshot (b); }

    bool hasSnapshot (Snapshot which) const noexcept { return isFilled[which].load (std::memory_order_acquire); }
    Values snapshot (Snapshot which) const noexcept { return snapshots[which].copy(); }

    void setSnapshot (Snapshot which, const std::optional<Values>& values) noexcept
    {
        if (values)
            snapshots[which].setAll (*values);
        isFilled[which].store (values.has_value(), std::memory_order_release);
        noteChange();
    }

    /** The note played on the tuning channel; valid until the batter note is set again. */
    std::optional<int> playedNote() const noexcept
    {
        const auto note = played.load (std::memory_order_relaxed);
        return note < 0 ? std::nullopt : std::optional<int> (note);
    }

    void setPlayedNote (std::optional<int> note) noexcept
    {
        if (played.exchange (note.value_or (-1), std::memory_order_relaxed) != note.value_or (-1))
            noteChange();
    }

    /** Call after a change that needs a new solution. */
    void noteChange() noexcept { changeCount.fetch_add (1, std::memory_order_release); }
    std::uint32_t changes() const noexcept { return changeCount.load (std::memory_order_acquire); }

private:
    std::array<SharedValues, snapshotCount> snapshots;
    std::array<std::atomic<bool>, snapshotCount> isFilled{};
    std::atomic<int> played{ -1 };
    std::atomic<std::uint32_t> changeCount{ 0 };
};

} // namespace plugin
