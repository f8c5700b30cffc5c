#include "Listener.h"

#include "Modal/InputError.h"

#include <algorithm>
#include <chrono>
#include <cmath>

namespace plugin
{
namespace
{
/** How often the thread looks for new samples. */
constexpr auto lookEvery = std::chrono::milliseconds (20);
} // namespace

int ListeningReport::heardCount() const noexcept
{
    return static_cast<int> (std::count_if (notes.begin(), notes.end(), [] (const auto& note) { return note.has_value(); }));
}

double ListeningReport::meanNote() const noexcept
{
    double sum = 0.0;

    for (const auto& note : notes)
        sum += note ? std::log (note->value) : 0.0;

    return heardCount() > 0 ? std::exp (sum / heardCount()) : 0.0;
}

Listener::Listener (std::function<void()> whenChanged) : changed (std::move (whenChanged)) {}

Listener::~Listener()
{
    {
        const std::scoped_lock lock (mutex);
        shouldStop = true;
    }
    news.notify_all();

    if (thread.joinable())
        thread.join();
}

void Listener::ask (Order order)
{
    {
        const std::scoped_lock lock (mutex);

        if (! thread.joinable())
            return; // no lug check was started yet

        orders.push_back (std::move (order));
    }
    news.notify_all();
}

void Listener::start (const fitting::HeadFitSetup& setup, double sampleRate)
{
    auto begun = std::make_shared<listening::LiveLugCheck> (setup, sampleRate);
    {
        const std::scoped_lock lock (mutex);

        if (! thread.joinable())
            thread = std::thread ([this] { run(); });
    }
    ask (
        [this, begun, which = setup.side]
        {
            lugCheck = std::make_unique<listening::LiveLugCheck> (std::move (*begun));
            side = which;
            head.reset();
            listenOn();
        });
}

void Listener::stop()
{
    ask (
        [this]
        {
            isOn.store (false);
            publish (ListeningReport::Stage::off);
        });
}

void Listener::forget()
{
    ask (
        [this]
        {
            isOn.store (false);
            lugCheck.reset();
            head.reset();
            publish (ListeningReport::Stage::off);
        });
}

void Listener::deleteLastTap()
{
    ask (
        [this]
        {
            if (lugCheck != nullptr && lugCheck->deleteLastTap())
                listenOn();
        });
}

void Listener::chooseLug (int lug)
{
    ask (
        [this, lug]
        {
            if (lugCheck == nullptr)
                return;

            lugCheck->chooseLug (lug);
            if (isOn.load())
                listenOn();
            else
                publish (ListeningReport::Stage::off);
        });
}

void Listener::resume()
{
    ask (
        [this]
        {
            if (lugCheck != nullptr && lugCheck->nextLug() >= 0)
                listenOn();
        });
}

void Listener::analyse()
{
    ask (
        [this]
        {
            if (lugCheck != nullptr && lugCheck->heardCount() > 0)
                finish();
        });
}

/** Listens from now on; earlier samples are dropped. */
void Listener::listenOn()
{
    head.reset();

    if (! isOn.load())
    {
        ring.clear();
        ring.lostSome();
        lugCheck->interrupt();
        isOn.store (true, std::memory_order_release);
    }

    publish (ListeningReport::Stage::listening);
}

void Listener::finish()
{
    isOn.store (false);
    publish (ListeningReport::Stage::analysing);
    head = lugCheck->fit();
    publish (ListeningReport::Stage::off);
}

void Listener::run()
{
    std::unique_lock lock (mutex);

    while (! shouldStop)
    {
        if (orders.empty() && ! isOn.load())
            news.wait (lock, [this] { return shouldStop || ! orders.empty(); });
        else if (orders.empty() && ring.waiting() == 0)
            news.wait_for (lock, lookEvery);

        std::vector<Order> asked;
        asked.swap (orders);
        isBusy = true;
        lock.unlock();

        try
        {
            for (const auto& order : asked)
                order();

            if (isOn.load())
                collect();
        }
        catch (const modal::InputError& error)
        {
            isOn.store (false);
            lugCheck->interrupt ({ .kind = listening::LiveLugCheck::Remark::Kind::failed, .error = error.what() });
            publish (ListeningReport::Stage::off);
        }

        lock.lock();
        isBusy = false;
    }
}

void Listener::collect()
{
    if (ring.lostSome())
    {
        ring.clear();
        lugCheck->interrupt ({ .kind = listening::LiveLugCheck::Remark::Kind::soundLost });
        publish (ListeningReport::Stage::listening);
    }

    const auto count = ring.take (taken.data(), taken.size());
    const auto before = lugCheck->remark();
    const int wanted = lugCheck->nextLug();
    lugCheck->add (taken.data(), count);

    const auto loudest = std::max_element (taken.begin(), taken.begin() + static_cast<std::ptrdiff_t> (count),
                                           [] (float a, float b) { return std::abs (a) < std::abs (b); });
    if (count > 0)
        peak.store (std::max (peak.load (std::memory_order_relaxed), std::abs (*loudest)), std::memory_order_relaxed);

    if (lugCheck->nextLug() < 0)
        return finish();

    if (lugCheck->nextLug() != wanted || lugCheck->remark() != before || lugCheck->isSilent() != wasSilent)
        publish (ListeningReport::Stage::listening);
}

void Listener::publish (ListeningReport::Stage stage)
{
    auto report = std::make_shared<ListeningReport>();
    report->stage = stage;
    report->side = side;
    report->head = head;

    if (lugCheck != nullptr)
    {
        for (const auto& lug : lugCheck->lugs())
            report->notes.push_back (lug ? std::optional (lug->tapNote) : std::nullopt);

        report->next = lugCheck->nextLug();
        report->remark = lugCheck->remark();
        report->isSilent = wasSilent = lugCheck->isSilent();
    }
    {
        const std::scoped_lock lock (mutex);
        latest = std::move (report);
    }
    changed();
}

std::shared_ptr<const ListeningReport> Listener::report() const
{
    const std::scoped_lock lock (mutex);
    return latest;
}

bool Listener::isCaughtUp() const
{
    const std::scoped_lock lock (mutex);
    return orders.empty() && ! isBusy && (! isOn.load() || ring.waiting() == 0);
}

} // namespace plugin
