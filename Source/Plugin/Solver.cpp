#include "Solver.h"

#include "PlayedRoom.h"

#include "Modal/InputError.h"
#include "Modal/Solve.h"

#include <algorithm>
#include <chrono>

namespace plugin
{
namespace
{
using namespace std::chrono_literals;

/** How often the solver looks for changes that the audio thread made (it cannot wake the solver): just after a change, and
    otherwise. */
constexpr auto lookWhenBusy = 1ms, lookWhenIdle = 10ms;
constexpr auto busyFor = 500ms;

/** Limit of the tail that hosts are told: settings without losses would ring for ever. */
constexpr double longestTail = 30.0; // s

/** Whether all parameters for which `matters (index)` are the same. */
template <class Matters>
bool areSame (const Values& a, const Values& b, Matters matters) noexcept
{
    for (std::size_t i = 0; i < parameterCount; ++i)
        if (a[i] != b[i] && matters (i))
            return false;
    return true;
}

bool haveSameModes (const Values& a, const Values& b) noexcept
{
    return areSame (a, b, [] (std::size_t i) { return parameterTable()[i].effect == Effect::modes; });
}

bool haveSameDrum (const Values& a, const Values& b) noexcept
{
    return areSame (a, b,
                    [] (std::size_t i)
                    {
                        const auto effect = parameterTable()[i].effect;
                        return effect == Effect::modes || effect == Effect::drum;
                    });
}

/** The room depends on the air too, and on where the sound for it is picked up. */
bool haveSameRoom (const Values& a, const Values& b) noexcept
{
    if (! isOn (a, Parameter::placeOn) && ! isOn (b, Parameter::placeOn))
        return true;

    return areSame (a, b,
                    [] (std::size_t i)
                    {
                        const auto which = static_cast<Parameter> (i);
                        return specOf (which).effect == Effect::place || which == Parameter::temperature || which == Parameter::humidity ||
                               which == Parameter::distantDistance;
                    });
}
} // namespace

/** One drum on its way through the solver. */
struct Solver::Work
{
    Values values{};
    std::optional<int> playedNote;
    DrumRequest request;
    engine::DrumSetup setup;
    std::shared_ptr<const engine::DrumModel> model;
    modal::SolveOptions options;
};

Solver::Solver (const LiveSound& liveSound, Messages& toPeople, std::function<void()> whenSolved)
    : sound (liveSound), messages (toPeople), solved (std::move (whenSolved)), thread ([this] { run(); })
{
}

Solver::~Solver()
{
    {
        const std::scoped_lock lock (mutex);
        shouldStop = true;
    }
    news.notify_all();
    thread.join();
}

void Solver::setSampleRate (double rate)
{
    sampleRate.store (rate);
    wake();
}

void Solver::wake()
{
    {
        const std::scoped_lock lock (mutex);
        isWoken = true;
    }
    news.notify_one();
}

bool Solver::hasNews() const noexcept
{
    return ! hasFinishedAny || sound.changes() != finishedChanges || sampleRate.load() != finishedRate;
}

void Solver::waitUntilSolved()
{
    wake();
    std::unique_lock lock (mutex);
    done.wait (lock, [this] { return ! hasNews() || shouldStop; });
}

std::shared_ptr<const SolvedDrum> Solver::latest() const
{
    const std::scoped_lock lock (mutex);
    return current;
}

std::shared_ptr<const engine::DrumModel> Solver::latestModel() const
{
    const std::scoped_lock lock (mutex);
    return model;
}

void Solver::run()
{
    auto lastChange = std::chrono::steady_clock::now();
    for (;;)
    {
        bool isNew = false;
        {
            std::unique_lock lock (mutex);
            const auto now = std::chrono::steady_clock::now();
            const auto look = now - lastChange < busyFor ? lookWhenBusy : lookWhenIdle;

            // No sleep while a prediction is still to be made.
            if (! hasNews() && ! needsPrediction)
                news.wait_for (lock, look, [this] { return shouldStop || isWoken; });

            if (shouldStop)
                return;

            isWoken = false;
            isNew = hasNews();
        }

        handOver.collect();
        roomHandOver.collect();

        if (isNew)
        {
            lastChange = std::chrono::steady_clock::now();
            solveOnce();
        }
        else if (needsPrediction)
        {
            needsPrediction = false;
            predictFor (*last);
        }
    }
}

void Solver::solveOnce()
{
    const auto changes = sound.changes();
    const auto rate = sampleRate.load();

    try
    {
        needsPrediction = needsPrediction || ! refusal.empty();
        refusal.clear();
        solve (sound.effective(), sound.playedNote(), rate);
    }
    catch (const std::exception& e)
    {
        refusal = e.what();
        messages.say (Messages::Kind::refusal, refusal);
        fallBack (rate);
    }
    updateRoom (sound.effective(), rate);

    {
        const std::scoped_lock lock (mutex);
        finishedChanges = changes;
        finishedRate = rate;
        hasFinishedAny = true;
    }
    done.notify_all();
}

void Solver::solve (const Values& values, std::optional<int> playedNote, double rate)
{
    const bool sameNote = last && last->playedNote == playedNote;

    if (sameNote && last->setup.sampleRate == rate && haveSameDrum (values, last->values))
        return;

    auto work = std::make_unique<Work>();
    work->values = values;
    work->playedNote = playedNote;
    work->request = requestOf (values, playedNote);
    const auto& request = work->request;
    modal::Tensions tensions;
    modal::DrumModes modes;

    if (sameNote && haveSameModes (values, last->values))
    {
        tensions = last->setup.tensions;
        modes = last->setup.modes;
        work->options = last->options;
    }
    else
    {
        tensions = modal::tensionsFor (request.drum, request.tuning);
        work->options = playedModes (request.drum, tensions);
        modes = modal::solve (request.drum, tensions, work->options);
    }

    work->setup = setUpDrum (request, tensions, std::move (modes), rate);
    work->model = std::make_shared<const engine::DrumModel> (work->setup);
    deliver (*work);
    last = std::move (work);
    needsPrediction = true;
}

/** After settings that cannot be solved: keeps the last drum, or the plugin's initial one if there was none. */
void Solver::fallBack (double rate)
{
    if (last)
        solve (Values (last->values), last->playedNote, rate);
    else
        solve (initialValues(), std::nullopt, rate);

    needsPrediction = true;
}

void Solver::updateRoom (const Values& values, double rate)
{
    const bool isFirst = roomRate == 0.0;
    if (! isFirst && rate == roomRate && haveSameRoom (values, roomValues))
        return;

    const auto place = placeOf (values);
    if (place || ! isFirst)
    {
        auto delivery = std::make_unique<RoomDelivery>();
        delivery->sampleRate = rate;
        delivery->room = playedRoom (values, rate);
        roomHandOver.offer (std::move (delivery));
    }
    longestReverberation.store (reverberationOf (values));
    last->request.place = place;
    needsPrediction = true;
    roomValues = values;
    roomRate = rate;
}

void Solver::deliver (const Work& work)
{
    double sustain = 0.0;
    for (const auto& mode : work.setup.modes.modes)
        sustain = std::max (sustain, std::min (mode.decay.t60(), longestTail));

    longestSustain.store (sustain);
    {
        const std::scoped_lock lock (mutex);
        model = work.model;
    }
    handOver.offer (std::make_unique<Delivery> (Delivery{ work.model }));
    deliveries.fetch_add (1);
}

void Solver::predictFor (const Work& work)
{
    auto drum = std::make_shared<SolvedDrum>();
    drum->request = work.request;
    drum->tensions = work.setup.tensions;
    drum->model = work.model;
    drum->refusal = refusal;
    drum->prediction = modal::predict (work.request.drum, work.request.tuning, predictedModes (work.options));
    publish (std::move (drum));
}

void Solver::publish (std::shared_ptr<const SolvedDrum> drum)
{
    {
        const std::scoped_lock lock (mutex);
        current = std::move (drum);
    }
    solved();
}

} // namespace plugin
