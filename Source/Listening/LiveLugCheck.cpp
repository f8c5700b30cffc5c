#include "LiveLugCheck.h"

#include "Modal/InputError.h"
#include "Modal/pitch/Note.h"

#include <algorithm>
#include <cmath>

namespace listening
{
namespace
{

constexpr double lookEvery = 0.25;                   // s of new sound
constexpr double windowLength = 10.0, trimmed = 2.0; // s: kept, and cut off at once
constexpr double rungOut = 0.9;                      // s after a blow: needed to read its partials
constexpr double startsWithSound = 0.02;             // s: sound at the start of the window is no tap
constexpr double silence = 1.0;                      // s
constexpr double furthestLug = 300.0;                // cents from the others, as modal::LugCents allows

} // namespace

LiveLugCheck::LiveLugCheck (const fitting::HeadFitSetup& headSetup, double sampleRate)
    : setup (headSetup), heard (static_cast<std::size_t> (headSetup.drum.lugs))
{
    modal::requireInRange (sampleRate, { 8000.0, 192000.0, "Hz" }, "sample rate of the input");
    modal::check (setup.drum);
    window.sampleRate = sampleRate;
}

void LiveLugCheck::add (const float* samples, std::size_t count)
{
    const auto step = static_cast<std::size_t> (lookEvery * window.sampleRate);

    // Analyses at the same samples for pieces of any size.
    for (std::size_t done = 0; done < count;)
    {
        const auto part = std::min (count - done, step - unheard);

        for (std::size_t i = done; i < done + part; ++i)
        {
            zeros = samples[i] == 0.0f ? zeros + 1 : 0;
            window.samples.push_back (std::isfinite (samples[i]) ? static_cast<double> (samples[i]) : 0.0);
        }

        done += part;
        unheard += part;

        if (unheard == step)
            analyse();
    }
}

void LiveLugCheck::interrupt (Remark why)
{
    windowStart += window.seconds();
    judgedUntil = windowStart;
    window.samples.clear();
    unheard = 0;

    if (why.kind != Remark::Kind::none)
        lastRemark = std::move (why);
}

bool LiveLugCheck::isSilent() const noexcept
{
    return static_cast<double> (zeros) >= silence * window.sampleRate;
}

int LiveLugCheck::heardCount() const noexcept
{
    return static_cast<int> (order.size());
}

void LiveLugCheck::analyse()
{
    unheard = 0;

    if (window.seconds() > windowLength + trimmed)
    {
        const auto cut = static_cast<std::ptrdiff_t> (trimmed * window.sampleRate);
        window.samples.erase (window.samples.begin(), window.samples.begin() + cut);
        windowStart += static_cast<double> (cut) / window.sampleRate;
    }

    if (std::all_of (window.samples.begin(), window.samples.end(), [&] (double s) { return s == window.samples.front(); }))
        return;

    const auto taps = findTaps (window);
    const double quiet = quietestMoment (window);

    for (const auto& tap : taps)
    {
        const double start = windowStart + tap.start;
        const bool isOver = &tap != &taps.back() || window.seconds() - tap.start >= rungOut;

        if (start < judgedUntil || tap.start < startsWithSound || ! isOver || next < 0)
            continue;

        // A second onset within this time belongs to the same tap.
        constexpr double oneTap = 0.26;
        judgedUntil = start + oneTap;
        take (tap, quiet);
    }
}

void LiveLugCheck::take (const Tap& tap, double quiet)
{
    // All troubles are reported: rattling wires look like a double hit and the reverse.
    if (! tap.troubles.empty())
    {
        lastRemark = { .kind = Remark::Kind::troubles, .troubles = tap.troubles };
        return;
    }

    const int lug = next;
    auto heardHere = heardTap (window, tap, quiet, lug);

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

    if (notes.empty())
        return 0.0;

    const auto middle = notes.begin() + static_cast<std::ptrdiff_t> (notes.size() / 2);
    std::nth_element (notes.begin(), middle, notes.end());
    return *middle;
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
