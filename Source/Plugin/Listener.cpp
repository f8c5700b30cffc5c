#include "Listener.h"

#include "PlayedLike.h"

#include "Modal/InputError.h"
#include "PlayLike/SideBySide.h"

#include <algorithm>
#include <cmath>

namespace plugin
{
namespace
{

constexpr std::size_t partialsKept = 16; // taps whose partials are shown

/** Appends the columns of a recording to a picture. */
void addPicture (RecordedColumns& picture, const listening::Recording& recording)
{
    listening::LevelColumns columns (recording.sampleRate);
    const std::vector<float> samples (recording.samples.begin(), recording.samples.end());
    columns.add (samples.data(), samples.size(),
                 [&] (const listening::LevelColumn& column) { picture.columns.push_back (column); });
}

} // namespace

int ListeningReport::heardCount() const noexcept
{
    return job == Job::strikes ? strikes
                               : static_cast<int> (std::count_if (notes.begin(), notes.end(),
                                                                  [] (const auto& note) { return note.has_value(); }));
}

double ListeningReport::meanNote() const noexcept
{
    double sum = 0.0;
    int count = 0;

    for (const auto& note : notes)
        if (note)
        {
            sum += std::log (note->value);
            ++count;
        }

    return count > 0 ? std::exp (sum / count) : 0.0;
}

Listener::Listener (std::function<void()> whenChanged) : changed (std::move (whenChanged)) {}

/** Calls `act` with the lug check or the strikes, whichever there is. */
template <typename Act> void Listener::withSession (Act&& act)
{
    if (lugCheck != nullptr)
        act (*lugCheck);
    else if (strikes != nullptr)
        act (*strikes);
}

/** An order for a thread that may not run yet. */
void Listener::begin (Order order)
{
    {
        const std::scoped_lock lock (mutex);

        if (! thread.joinable())
            thread = std::jthread ([this] (const std::stop_token& stop) { run (stop); });
    }
    ask (std::move (order));
}

void Listener::ask (Order order)
{
    {
        const std::scoped_lock lock (mutex);

        if (! thread.joinable())
            return; // nothing was started yet

        orders.push_back (std::move (order));
    }
    news.notify_all();
}

void Listener::start (const fitting::HeadFitSetup& setup, double sampleRate)
{
    auto begun = std::make_shared<listening::LiveLugCheck> (setup, sampleRate);
    begin (
        [this, begun, which = setup.side]
        {
            clear (Job::lugCheck);
            lugCheck = std::make_unique<listening::LiveLugCheck> (std::move (*begun));
            side = which;
            listenOn();
        });
}

void Listener::start (const fitting::DrumFitSetup& setup, double sampleRate)
{
    auto begun = std::make_shared<listening::LiveStrikes> (sampleRate);
    modal::check (setup.drum);
    begin (
        [this, begun, setup]
        {
            clear (Job::strikes);
            strikes = std::make_unique<listening::LiveStrikes> (std::move (*begun));
            known = setup;
            listenOn();
        });
}

void Listener::hearFiles (const fitting::HeadFitSetup& setup, double inputRate, Load load)
{
    begin (
        [this, setup, inputRate, load = std::move (load)]
        {
            clear (Job::lugCheck);
            side = setup.side;
            publish (ListeningReport::Stage::analysing);
            hearLugCheck (setup, inputRate, load);
        });
}

void Listener::hearFiles (const fitting::DrumFitSetup& setup, double inputRate, Load load)
{
    begin (
        [this, setup, inputRate, load = std::move (load)]
        {
            clear (Job::strikes);
            known = setup;
            publish (ListeningReport::Stage::analysing);
            hearStrikes (inputRate, load);
        });
}

void Listener::setKnown (const fitting::DrumFitSetup& setup)
{
    ask (
        [this, setup]
        {
            known = setup;

            if (strikes != nullptr && ! strikes->strikes().empty())
                fitStrikes();
        });
}

void Listener::playLike (const playlike::KnownDrum& drumKnown)
{
    ask (
        [this, drumKnown]
        {
            if (strikes != nullptr && strikes->lastHeard())
                makeAlike (drumKnown);
        });
}

void Listener::stop()
{
    ask (
        [this]
        {
            setOn (false);
            publish (ListeningReport::Stage::off);
        });
}

void Listener::forget()
{
    ask (
        [this]
        {
            clear (job);
            publish (ListeningReport::Stage::off);
        });
}

void Listener::setSampleRate (double hertz)
{
    forget();
    reader.setSampleRate (hertz);
}

void Listener::setWatched (bool isWanted)
{
    const std::scoped_lock lock (mutex);
    isWatched.store (isWanted);
    reader.setWanted (isWanted || isOn.load());
}

void Listener::deleteLastTap()
{
    ask (
        [this]
        {
            if (lugCheck != nullptr && lugCheck->deleteLastTap())
                return listenOn();

            if (strikes == nullptr || ! strikes->deleteLast())
                return;

            played.reset(); // it was like that strike

            if (! strikes->strikes().empty())
                return fitStrikes();

            drum = nullptr;
            publish (stageNow());
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
            if (strikes != nullptr || (lugCheck != nullptr && lugCheck->nextLug() >= 0))
                listenOn();
        });
}

void Listener::analyse()
{
    ask (
        [this]
        {
            if (lugCheck != nullptr && lugCheck->heardCount() > 0)
                fitHead();
            else if (strikes != nullptr && ! strikes->strikes().empty())
                fitStrikes();
        });
}

/** Drops what was heard; listening is then off. */
void Listener::clear (Job next)
{
    setOn (false);
    job = next;
    lugCheck.reset();
    strikes.reset();
    partials.clear();
    recorded.reset();
    head.reset();
    drum.reset();
    played.reset();
    failure = {};
}

void Listener::setOn (bool isListeningNow)
{
    const std::scoped_lock lock (mutex);
    isOn.store (isListeningNow);
    reader.setWanted (isListeningNow || isWatched.load());
}

/** Listens to the input from now on; earlier samples are dropped. */
void Listener::listenOn()
{
    failure = {};
    head.reset();

    if (recorded != nullptr)
    {
        recorded.reset();
        partials.clear(); // their times are in the file
    }

    if (! isOn.load())
    {
        withSession ([] (auto& session) { session.interrupt(); });
        {
            const std::scoped_lock lock (mutex);
            pieces.clear();
        }
        setOn (true);
    }

    publish (ListeningReport::Stage::listening);
}

void Listener::fitHead()
{
    failure = {};
    setOn (false);
    publish (ListeningReport::Stage::analysing);
    head = lugCheck->fit();
    publish (ListeningReport::Stage::off);
}

/** Strikes are heard on meanwhile. */
void Listener::fitStrikes()
{
    failure = {};
    publish (ListeningReport::Stage::analysing);
    const auto& heard = strikes->strikes();
    drum = std::make_shared<const fitting::DrumFit> (
        fitting::fitDrum (known, listening::linesOf (heard), static_cast<int> (heard.size())));
    publish (stageNow());
}

ListeningReport::Stage Listener::stageNow() const noexcept
{
    return isOn.load() ? ListeningReport::Stage::listening : ListeningReport::Stage::off;
}

void Listener::makeAlike (const playlike::KnownDrum& drumKnown)
{
    failure = {};
    publish (ListeningReport::Stage::analysing);
    const auto& [recording, tap, quiet] = *strikes->lastHeard();
    const auto goesOn = [stop = thread.get_stop_token()] (double) { return ! stop.stop_requested(); };
    auto likeness = playlike::likenessOf (drumKnown, *recording, tap, quiet, goesOn);
    auto both = playlike::sideBySide (*recording, tap.start, tap.end, likeness.sound);
    played = std::make_shared<const PlayedLike> (PlayedLike{ std::move (likeness), std::move (both) });
    publish (stageNow());
}

void Listener::hearLugCheck (const fitting::HeadFitSetup& setup, double inputRate, const Load& load)
{
    const auto files = load();
    const auto& [name, recording] = files.front();
    RecordedColumns picture{ name };
    addPicture (picture, recording);
    recorded = std::make_shared<const RecordedColumns> (std::move (picture));

    const auto check = listening::hearLugCheck (recording, setup.drum.lugs, false, name);
    auto session = std::make_unique<listening::LiveLugCheck> (setup, inputRate);

    for (std::size_t i = 0; i < check.taps.size(); ++i)
    {
        session->use (check.taps[i]);
        partials.push_back ({ check.starts[i], check.taps[i].partials });
    }

    if (check.taps.empty())
        throw modal::InputError::fault (name, "has no tap that can be used", "taps with the wires off, each a single hit, with time to ring");

    lugCheck = std::move (session);
    head = fitting::fitHead (setup, check.taps);
    publish (ListeningReport::Stage::off);
}

void Listener::hearStrikes (double inputRate, const Load& load)
{
    RecordedColumns picture;
    auto session = std::make_unique<listening::LiveStrikes> (inputRate);

    for (auto& [name, recording] : load())
    {
        const double offset = listening::LevelColumns::step * static_cast<double> (picture.columns.size());
        picture.name += (picture.name.empty() ? "" : ", ") + name;
        addPicture (picture, recording);

        for (auto& heard : session->add (std::make_shared<const listening::Recording> (std::move (recording))))
            partials.push_back ({ offset + heard.start, std::move (heard.partials) });
    }

    recorded = std::make_shared<const RecordedColumns> (std::move (picture));
    strikes = std::move (session);

    if (strikes->strikes().empty())
        return publish (ListeningReport::Stage::off); // the remark says why

    fitStrikes();
}

void Listener::receive (InputReader::Piece piece)
{
    if (! isOn.load())
        return;

    {
        const std::scoped_lock lock (mutex);
        pieces.push_back (std::move (piece));
    }
    news.notify_all();
}

void Listener::run (const std::stop_token& stop)
{
    std::unique_lock lock (mutex);

    while (true)
    {
        if (! news.wait (lock, stop, [this] { return ! orders.empty() || ! pieces.empty(); }) || stop.stop_requested())
            return;

        std::vector<Order> asked;
        std::vector<InputReader::Piece> arrived;
        asked.swap (orders);

        if (asked.empty())
            arrived.swap (pieces); // orders come first: the sound may belong to what they end

        isBusy = true;
        lock.unlock();

        try
        {
            for (const auto& order : asked)
                order();

            for (const auto& piece : arrived)
                listenTo (piece);

            if (std::exchange (isNewStrike, false) && strikes != nullptr)
                fitStrikes();
        }
        catch (const modal::InputError& error)
        {
            fail (error.what());
        }

        lock.lock();
        isBusy = false;
    }
}

void Listener::fail (const std::string& why)
{
    setOn (false);
    failure = { .kind = Remark::Kind::failed, .error = why };
    publish (ListeningReport::Stage::off);
}

void Listener::listenTo (const InputReader::Piece& piece)
{
    if (! isOn.load())
        return; // stopped since

    withSession (
        [&] (auto& session)
        {
            if (piece.isAfterGap)
            {
                session.interrupt ({ .kind = Remark::Kind::soundLost });
                publish (ListeningReport::Stage::listening);
            }

            const auto before = session.remark();
            const double last = session.lastPartials().start;
            session.add (piece.samples.data(), piece.samples.size());

            if (session.lastPartials().start != last)
            {
                auto heard = session.lastPartials();
                heard.start += piece.end - session.seconds(); // on the input's clock
                partials.push_back (std::move (heard));
                isNewStrike = strikes != nullptr;

                if (partials.size() > partialsKept)
                    partials.erase (partials.begin());
            }
            else if (session.remark() == before && session.isSilent() == wasSilent)
                return;

            if (session.remark().kind != before.kind || session.lastPartials().start != last)
                played.reset(); // it was like another strike

            publish (ListeningReport::Stage::listening);
        });

    if (lugCheck != nullptr && lugCheck->nextLug() < 0)
        fitHead();
}

void Listener::publish (ListeningReport::Stage stage)
{
    auto report = std::make_shared<ListeningReport>();
    report->stage = stage;
    report->job = job;
    report->side = side;
    report->head = head;
    report->drum = drum;
    report->partials = partials;
    report->recorded = recorded;
    withSession (
        [&] (const auto& session)
        {
            report->remark = session.remark();
            report->isSilent = wasSilent = session.isSilent();
        });

    if (lugCheck != nullptr)
    {
        for (const auto& lug : lugCheck->lugs())
            report->notes.push_back (lug ? std::optional (lug->tapNote) : std::nullopt);

        report->next = lugCheck->nextLug();
    }

    if (strikes != nullptr)
    {
        report->strikes = static_cast<int> (strikes->strikes().size());
        report->hasStroke = strikes->lastHeard().has_value();
    }

    report->played = played;

    if (failure.kind != Remark::Kind::none)
        report->remark = failure;

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
    if (! reader.isCaughtUp())
        return false;

    const std::scoped_lock lock (mutex);
    return orders.empty() && pieces.empty() && ! isBusy;
}

} // namespace plugin
