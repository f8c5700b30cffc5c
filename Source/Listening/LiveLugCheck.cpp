#include "LiveLugCheck.h"

#include "Fitting/common/Statistics.h"
#include "Modal/InputError.h"
#include "Modal/pitch/Note.h"

#include <algorithm>
#include <cmath>

namespace listening
{
namespace
{

constexpr double furthestLug = 300.0; // cents from the others, as modal::LugCents allows

} // namespace

LiveLugCheck::LiveLugCheck (const fitting::HeadFitSetup& headSetup, double sampleRate)
    : setup (headSetup), incoming (sampleRate), heard (static_cast<std::size_t> (headSetup.drum.lugs))
{
    modal::check (setup.drum);
}

void LiveLugCheck::add (const float* samples, std::size_t count)
{
    incoming.add (samples, count, [this] (const LiveTap& tap) { take (tap); });
}

void LiveLugCheck::interrupt (Remark why)
{
    incoming.interrupt();

    if (why.kind != Remark::Kind::none)
        lastRemark = std::move (why);
}

int LiveLugCheck::heardCount() const noexcept
{
    return static_cast<int> (order.size());
}

void LiveLugCheck::take (const LiveTap& found)
{
    if (next < 0)
        return; // every lug has its tap

    // All troubles are reported: rattling wires look like a double hit and the reverse.
    if (! found.tap.troubles.empty())
    {
        lastRemark = { .kind = Remark::Kind::troubles, .troubles = found.tap.troubles };
        return;
    }

    auto heardHere = heardTap (found.window, found.tap, found.quiet, next);
    last = { found.start, heardHere.partials };
    use (std::move (heardHere));
}

void LiveLugCheck::use (fitting::HeardTap heardHere)
{
    const int lug = heardHere.lug;
    auto alone = setup;
    alone.startTension = tension;
    auto fit = fitting::fitHead (alone, { heardHere });

    if (! fit.isPossible && tension)
    {
        alone.startTension.reset();
        fit = fitting::fitHead (alone, { heardHere });
    }

    if (! fit.isPossible)
    {
        lastRemark = { .kind = Remark::Kind::noFit, .findings = fit.findings };
        return;
    }

    if (const auto others = medianNoteWithout (lug); others > 0.0)
        if (const double off = modal::centsBetween (others, fit.tapNote.value); std::abs (off) > furthestLug)
        {
            lastRemark = { .kind = Remark::Kind::farOff, .cents = off };
            return;
        }

    heard[static_cast<std::size_t> (lug)] = Lug{ fit.tapNote, std::move (heardHere) };
    std::erase (order, lug);
    order.push_back (lug);
    tension = fit.tension.value;
    lastRemark = { .kind = Remark::Kind::heard, .lug = lug };
    findNext();
}

/** The next lug without a tap, from the last one on. */
void LiveLugCheck::findNext()
{
    const int count = static_cast<int> (heard.size());
    const int from = order.empty() ? -1 : order.back();
    next = -1;

    for (int i = 1; i <= count && next < 0; ++i)
        if (const int lug = (from + i) % count; ! heard[static_cast<std::size_t> (lug)])
            next = lug;
}

void LiveLugCheck::chooseLug (int lug)
{
    if (lug >= 0 && lug < static_cast<int> (heard.size()))
        next = lug;
}

bool LiveLugCheck::deleteLastTap()
{
    if (order.empty())
        return false;

    next = order.back();
    heard[static_cast<std::size_t> (next)].reset();
    order.pop_back();
    lastRemark = { .kind = Remark::Kind::deleted, .lug = next };
    return true;
}

/** Hz, the median of the other lugs' notes; 0 if there are none. */
double LiveLugCheck::medianNoteWithout (int lug) const
{
    std::vector<double> notes;

    for (const int other : order)
        if (other != lug)
            notes.push_back (heard[static_cast<std::size_t> (other)]->tapNote.value);

    return notes.empty() ? 0.0 : fitting::median (notes);
}

fitting::HeadFit LiveLugCheck::fit() const
{
    std::vector<fitting::HeardTap> taps;

    for (const auto& lug : heard)
        if (lug)
            taps.push_back (lug->tap);

    return fitting::fitHead (setup, taps);
}

} // namespace listening
