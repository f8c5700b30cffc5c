#include "Finding/PlayedMap.h"
#include "tests/bench/TableRow.h"

#include "Modal/Units.h"

#include <cstdlib>
#include <ctime>

namespace
{

modal::DrumSpec drum()
{
    modal::DrumSpec spec;
    spec.diameter = 14.0 * modal::units::inch;
    spec.depth = 5.5 * modal::units::inch;
    spec.batter.plyThickness = 10.0 * modal::units::mil;
    spec.resonant.plyThickness = 3.0 * modal::units::mil;
    return spec;
}

/** Processor time of all threads, so that a busy machine does not count. */
template <typename Work>
double seconds (const Work& work)
{
    const std::clock_t start = std::clock();
    work();
    return static_cast<double> (std::clock() - start) / CLOCKS_PER_SEC;
}

} // namespace

/** A gel near the edge of the batter, which breaks the drum's symmetry. */
modal::DrumSpec muffled()
{
    auto spec = drum();
    spec.muffling.emplace_back();
    return spec;
}

/** Notes to tensions, drum note and ring of a thousand tunings at once, against the same one at a time, and of played strokes, in
    processor time: two idle processors take half of it.
      map-benchmark [tunings one at a time = 50] [tunings played = 100] */
int main (int argc, char** argv)
{
    const int single = argc > 1 ? std::atoi (argv[1]) : 50, played = argc > 2 ? std::atoi (argv[2]) : 100;
    const std::atomic<bool> cancel{ false };
    const auto spec = drum();
    const finding::MapArea area{ { 150.0, 300.0 }, { 180.0, 450.0 } };

    /** Processor time for each tuning of a map of this drum. */
    const auto timeOfEach = [&] (const modal::DrumSpec& mapped, double step)
    {
        std::size_t tunings = 0;
        const double all = seconds (
            [&]
            {
                const modal::DrumTuner tuner (mapped);
                const auto map = finding::TuningMap::make (tuner, finding::solverFor (tuner), area, step, 2, cancel);
                tunings = map->batterNotes().size() * map->resonantNotes().size();
            });
        return all / static_cast<double> (tunings);
    };
    const double together = timeOfEach (spec, 43.0), withGel = timeOfEach (muffled(), 200.0);
    const double alone = seconds (
        [&]
        {
            for (int i = 0; i < single; ++i)
            {
                const modal::DrumTuner tuner (spec);
                finding::figuresOf (tuner, finding::solverFor (tuner), 160.0 + i, 200.0 + 2.0 * i, {});
            }
        });
    bench::printRow ("map of 1000 tunings, processor time", 1000.0 * together, "s", "one at a time", alone / single / together);
    bench::printRow ("map of 1000 tunings of a drum with a gel, processor time", 1000.0 * withGel, "s",
                     "the same without the gel", together / withGel);

    const modal::DrumTuner tuner (spec);
    std::shared_ptr<const finding::PlayedMap> map;
    // Some seven by seven.
    const double playing = seconds ([&] { map = finding::PlayedMap::make (tuner, {}, area, 200.0, 2, cancel); });
    constexpr double playedTunings = 7.0 * 9.0;
    constexpr int playedSingle = 5;
    const double playedAlone = seconds (
        [&]
        {
            for (int i = 0; i < playedSingle; ++i)
            {
                const modal::DrumTuner own (spec);
                finding::Figures figures{};
                finding::addPlayed (figures, spec,
                                    { own.notes (modal::HeadSide::batter).tensionFor (160.0 + 20.0 * i),
                                      own.notes (modal::HeadSide::resonant).tensionFor (220.0 + 40.0 * i) },
                                    {});
            }
        });
    bench::printRow ("played strokes of 100 tunings, processor time", playing * played / playedTunings, "s", "one at a time",
                     playedAlone / playedSingle * playedTunings / playing);

    for (const auto& info : finding::figures())
        if (info.isPlayed)
            std::printf (
                "%s between played tunings 200 cents apart: nine of ten within %.0f hundredths of a semitone, decibel or 6 %%\n",
                info.name, of (map->errors(), info.figure));
}
