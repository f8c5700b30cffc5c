#include "Trial.h"

#include <algorithm>
#include <atomic>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <string>
#include <thread>
#include <vector>

namespace
{

struct Options
{
    int drums = 500;
    std::string heard = "lugs";
    std::vector<double> ratios{}; // dB
    int first = 1, threads = 1;
    synthetic::Mistake mistake = synthetic::Mistake::none;
    synthetic::Played played = synthetic::Played::asModel;
    bool listsMisses = false;
};

/** Outcomes by ratio, then by drum. @param tryOne  from a seed to an outcome for each ratio */
template <typename Outcome, typename TryOne>
std::vector<std::vector<Outcome>> tryAll (const Options& options, TryOne tryOne)
{
    std::vector<std::vector<Outcome>> all (options.ratios.size(),
                                           std::vector<Outcome> (static_cast<std::size_t> (options.drums)));
    std::atomic<int> next{ 0 };
    const auto work = [&]
    {
        for (int i = next++; i < options.drums; i = next++)
        {
            const auto outcomes = tryOne (static_cast<unsigned> (options.first + i));

            for (std::size_t r = 0; r < outcomes.size(); ++r)
                all[r][static_cast<std::size_t> (i)] = outcomes[r];
        }
    };
    std::vector<std::thread> workers;

    for (int t = 1; t < options.threads; ++t)
        workers.emplace_back (work);

    work();

    for (auto& worker : workers)
        worker.join();

    return all;
}

template <typename Outcome, typename Is>
double percent (const std::vector<Outcome>& outcomes, Is is)
{
    int count = 0;

    for (const auto& outcome : outcomes)
        count += outcome.isPossible && is (outcome) ? 1 : 0;

    return 100.0 * count / static_cast<double> (outcomes.size());
}

/** Sums what single drums have counted. */
template <typename Outcome, typename Of>
void printCalibration (const char* what, const std::vector<Outcome>& outcomes, Of of)
{
    synthetic::Calibration sum;

    for (const auto& outcome : outcomes)
        sum.add (of (outcome));

    std::printf ("%8s %d of %d %s within the 95 %% stated: %.1f %%\n", "", sum.within, sum.told, what,
                 100.0 * sum.within / std::max (1, sum.told));
}

bool isNote (const synthetic::Outcome& o)
{
    return std::abs (o.noteCents) < 3.0;
}

bool isTension (const synthetic::Outcome& o)
{
    return std::abs (o.tensionShare) < 0.02;
}

/** Lug checks of one head. */
void tryLugChecks (const Options& options)
{
    const bool hasPatchCheck = options.heard == "weight";
    std::printf ("%d random drums, one lug 20 cents off%s\n", options.drums,
                 hasPatchCheck ? ", second lug check with a weight" : "");
    std::printf ("%8s %8s %8s %14s %14s %12s %10s\n", "S/N dB", "fitted", "warned", "note < 3 c", "tension < 2 %", "axis named",
                 "lug named");

    const auto all = tryAll<synthetic::Outcome> (options,
                                                 [&] (unsigned seed)
                                                 {
                                                     const synthetic::LugCheckTrial trial (seed, hasPatchCheck, options.mistake,
                                                                                           options.played);
                                                     std::vector<synthetic::Outcome> outcomes;

                                                     for (const double ratio : options.ratios)
                                                         outcomes.push_back (trial.at (ratio));

                                                     return outcomes;
                                                 });

    for (std::size_t r = 0; r < all.size(); ++r)
    {
        std::printf ("%8.0f %7.1f%% %7.1f%% %13.1f%% %13.1f%% %11.1f%% %9.1f%%\n", options.ratios[r],
                     percent (all[r], [] (const auto&) { return true; }),
                     percent (all[r], [] (const auto& o) { return o.isWarned; }), percent (all[r], isNote),
                     percent (all[r], isTension), percent (all[r], [] (const auto& o) { return o.isAxisNamed; }),
                     percent (all[r], [] (const auto& o) { return o.isLugNamed; }));

        printCalibration ("tap notes", all[r], [] (const auto& o) { return o.note; });
        printCalibration ("tensions", all[r], [] (const auto& o) { return o.tension; });
        printCalibration ("lugs", all[r], [] (const auto& o) { return o.lugs; });

        for (int i = 0; options.listsMisses && i < options.drums; ++i)
            if (const auto& o = all[r][static_cast<std::size_t> (i)]; ! o.isPossible || o.isWarned)
                std::printf ("    drum %d%s: %s\n", options.first + i, o.isWarned ? ", warned" : "", o.refusal.c_str());
            else if (! isNote (o) || ! isTension (o) || ! o.isAxisNamed)
                std::printf ("    drum %d: note off by %.1f cents, tension by %.1f %%, lug %s by %.0f cents\n", options.first + i,
                             o.noteCents, 100.0 * o.tensionShare, o.isAxisNamed ? "found off" : "mistaken, off", o.suspectCents);
    }
}

/** Strikes of the whole drum; batter and resonant head in turn. */
void tryStrikes (const Options& options)
{
    std::printf ("%d random drums, six strikes each; batter, resonant\n", options.drums);
    std::printf ("%8s %8s %19s %19s %19s\n", "S/N dB", "fitted", "notes < 3 c", "tensions < 2 %", "within 2 sigma");

    const auto all =
        tryAll<synthetic::StrikesOutcome> (options,
                                           [&] (unsigned seed)
                                           {
                                               const synthetic::StrikesTrial trial (seed, 20.0, false, options.played);
                                               std::vector<synthetic::StrikesOutcome> outcomes;

                                               for (const double ratio : options.ratios)
                                                   outcomes.push_back (trial.at (ratio));

                                               return outcomes;
                                           });

    for (std::size_t r = 0; r < all.size(); ++r)
    {
        std::printf ("%8.0f %7.1f%%", options.ratios[r], percent (all[r], [] (const auto&) { return true; }));

        for (int h = 0; h < 2; ++h)
            std::printf (" %8.1f%%", percent (all[r], [h] (const auto& o) { return std::abs (o.noteCents[h]) < 3.0; }));

        for (int h = 0; h < 2; ++h)
            std::printf (" %8.1f%%", percent (all[r], [h] (const auto& o) { return std::abs (o.tensionShare[h]) < 0.02; }));

        for (int h = 0; h < 2; ++h)
            std::printf (" %8.1f%%", percent (all[r], [h] (const auto& o) { return std::abs (o.pull[h]) < 2.0; }));

        int waves = 0, seen = 0, within = 0;

        for (const auto& outcome : all[r])
            for (const auto& wave : outcome.waves)
            {
                ++waves;
                seen += wave.found.value > 2.0 * wave.found.error ? 1 : 0;
                within += wave.isWithin() ? 1 : 0;
            }

        printCalibration ("batter tensions", all[r], [] (const auto& o) { return o.tension[0]; });
        printCalibration ("resonant tensions", all[r], [] (const auto& o) { return o.tension[1]; });

        const auto boundAbove = [&] (double synthetic::StrikesOutcome::Bound::*which)
        { return percent (all[r], [which] (const auto& o) { return o.bound.*which > 3.0; }); };
        std::printf ("\n%8s %d lug waves told, %d seen, %d within two errors\n", "", waves, seen, within);
        std::printf ("%8s resonant note's bound above 3 c: noise %.1f%%, room %.1f%%, own modes heard %.1f%%\n", "",
                     boundAbove (&synthetic::StrikesOutcome::Bound::byNoise),
                     boundAbove (&synthetic::StrikesOutcome::Bound::inRoom),
                     boundAbove (&synthetic::StrikesOutcome::Bound::ifHeard));

        for (int i = 0; options.listsMisses && i < options.drums; ++i)
            if (const auto& o = all[r][static_cast<std::size_t> (i)]; ! o.isPossible)
                std::printf ("    drum %d: %s\n", options.first + i, o.refusal.c_str());
            else if (std::max (std::abs (o.tensionShare[0]), std::abs (o.tensionShare[1])) > 0.02)
                std::printf ("    drum %d: tensions off by %.1f %%, %.1f %%\n", options.first + i, 100.0 * o.tensionShare[0],
                             100.0 * o.tensionShare[1]);
    }
}

synthetic::Mistake mistakeNamed (const std::string& name)
{
    using synthetic::Mistake;
    return name == "rings"  ? Mistake::otherHeadRings
           : name == "open" ? Mistake::openBelow
           : name == "inch" ? Mistake::inchMore
                            : Mistake::none;
}

} // namespace

/** How well random drums are fitted, percent of all drums.
      accuracy-benchmark [drums = 500] [lugs | weight | strikes] [decibels...] [--first seed = 1] [--threads number = 1] [--list]
                   [--mistake rings | open | inch] [--real]
    The ratios of signal to noise are 40, 30, 20, 10 and 5 dB if not given; --list names the drums that are missed; --mistake
    has lug checks whose other head rings along or is missing, or a drum that is said to be an inch wider than it is; --real plays
   drums as real ones are, see Trial.h. */
int main (int argc, char** argv)
{
    Options options;
    int place = 0;

    for (int i = 1; i < argc; ++i)
    {
        const std::string text = argv[i];
        const auto number = [&] { return i + 1 < argc ? std::atoi (argv[++i]) : 0; };

        if (text == "--first")
            options.first = number();
        else if (text == "--threads")
            options.threads = number();
        else if (text == "--mistake")
            options.mistake = mistakeNamed (i + 1 < argc ? argv[++i] : "");
        else if (text == "--real")
            options.played = synthetic::Played::asReal;
        else if (text == "--list")
            options.listsMisses = true;
        else if (++place == 1)
            options.drums = std::atoi (text.c_str());
        else if (place == 2)
            options.heard = text;
        else
            options.ratios.push_back (std::atof (text.c_str()));
    }

    if (options.ratios.empty())
        options.ratios = { 40.0, 30.0, 20.0, 10.0, 5.0 };

    if (options.drums < 1 || options.drums > 100000 || options.first < 1 || options.threads < 1 || options.threads > 64 ||
        (options.heard != "lugs" && options.heard != "weight" && options.heard != "strikes"))
        return 2;

    if (options.heard == "strikes")
        tryStrikes (options);
    else
        tryLugChecks (options);

    return 0;
}
