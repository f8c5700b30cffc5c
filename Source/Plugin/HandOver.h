#pragma once

#include <atomic>
#include <memory>

namespace plugin
{

/** Passes objects from a normal thread to the audio thread by atomic exchange, and takes used ones back to be freed.

    The latest offer wins. The receiver takes no lock and frees nothing. */
template <class Item>
class HandOver
{
public:
    HandOver() = default;
    HandOver (const HandOver&) = delete;
    HandOver& operator= (const HandOver&) = delete;

    ~HandOver()
    {
        delete incoming.load();
        delete returned.load();
    }

    /** Sender: offers an item and deletes one that was not taken yet. */
    void offer (std::unique_ptr<Item> item)
    {
        collect();
        delete incoming.exchange (item.release(), std::memory_order_acq_rel);
    }

    /** Sender: frees the item that the receiver has given back. Call it regularly. */
    void collect() { delete returned.exchange (nullptr, std::memory_order_acq_rel); }

    /** Sender: whether an item waits on either side. */
    bool isIdle() const noexcept { return incoming.load() == nullptr && returned.load() == nullptr; }

    /** Receiver: the latest item, or nullptr; also nullptr while there is no room to give one back. */
    Item* take() noexcept
    {
        return returned.load (std::memory_order_acquire) != nullptr ? nullptr
                                                                    : incoming.exchange (nullptr, std::memory_order_acq_rel);
    }

    /** Receiver: an item that take() returned goes back to be freed. */
    void giveBack (Item* item) noexcept { returned.store (item, std::memory_order_release); }

private:
    std::atomic<Item*> incoming{ nullptr }, returned{ nullptr };
};

} // namespace plugin
