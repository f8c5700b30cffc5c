#include "MomentCost.h"

#include "Engine/Drum.h"
#include "Engine/PlayedBand.h"

#include <algorithm>
#include <chrono>
#include <cstdio>
#include <memory>
#include <string>
#include <vector>

namespace bench
{
namespace
{

constexpr int block = 64;
constexpr double blockMilliseconds = 1000.0 * block / 48000.0;

/** A drum and the same one a little later, half a semitone up. */
struct Case
{
    std::string name;
    modal::DrumSpec drum;
    modal::Tensions tensions{ 2000.0, 1900.0 };

    std::shared_ptr<const engine::DrumModel> model (double factor) const
    {
        auto raised = tensions;
        raised.batter *= factor;
        raised.resonant *= factor;
        modal::SolveOptions options;
        options.highestFrequency = engine::playedBand (drum, tensions);
        auto setup = engine::setUp (drum, raised, modal::solve (drum, raised, options), {});
        setup.microphones = engine::defaultMicrophones (drum.depth);
        return std::make_shared<engine::DrumModel> (setup);
    }
};

std::vector<Case> casesOfSize (double diameter)
{
    Case even{ "even", {} };
    even.drum.diameter = diameter;
    auto oneLug = even, allLugs = even, patch = even, ring = even;
    oneLug.name = "one lug 5 % off";
    oneLug.tensions.batterLugs = { 0.05, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0 };
    allLugs.name = "lugs of both heads to 20 % off";
    allLugs.tensions.batterLugs = { -0.2, 0.0, 0.05, 0.0, 0.0, 0.1, 0.0, 0.0 };
    allLugs.tensions.resonantLugs = { 0.0, 0.1, 0.0, 0.0, 0.0, 0.0, -0.1, 0.0 };
    patch.name = "a patch of muffling";
    patch.drum.muffling.emplace_back();
    ring.name = "a ring of muffling";
    ring.drum.muffling.push_back ({ .shape = modal::MufflingItem::Shape::ring });
    for (auto* drum : { &even, &oneLug, &allLugs, &patch, &ring })
        drum->drum.lugs = 8;
    return { even, oneLug, allLugs, patch, ring };
}

template <typename Work>
double milliseconds (const Work& work)
{
    const auto start = std::chrono::steady_clock::now();
    work();
    return std::chrono::duration<double, std::milli> (std::chrono::steady_clock::now() - start).count();
}

double median (std::vector<double> values)
{
    const auto middle = values.begin() + static_cast<std::ptrdiff_t> (values.size() / 2);
    std::nth_element (values.begin(), middle, values.end());
    return *middle;
}

struct Moments
{
    double stroke, handOver; ///< ms
    int headModes;
};

Moments measure (const Case& played, int repeats)
{
    const std::shared_ptr<const engine::DrumModel> models[] = { played.model (1.0), played.model (1.06) };
    engine::Drum drum (models[0]);
    std::vector<float> sound (3 * block);
    float* outputs[] = { sound.data(), sound.data() + block, sound.data() + 2 * block };
    // Pressed sticks stay, so that every stroke lands beside three others.
    engine::Stroke stroke;
    stroke.kind = engine::StrokeKind::buzz;
    stroke.pressTime = 2.0;
    std::vector<double> strokes, handOvers;
    for (int i = 0; i < repeats + engine::mostWholeSticks; ++i)
    {
        stroke.position = 0.1 + 0.2 * (i % engine::mostWholeSticks);
        drum.strike (stroke);
        const double landing = milliseconds ([&] { drum.process (outputs, 1); });
        drum.process (outputs, block);
        const double handOver = milliseconds ([&] { drum.setModel (models[(i + 1) % 2]); });
        drum.process (outputs, block);
        if (i < engine::mostWholeSticks)
            continue;
        strokes.push_back (landing);
        handOvers.push_back (handOver);
    }
    return { median (strokes), median (handOvers), models[0]->headModes() };
}

} // namespace

void printMomentCosts (int repeats)
{
    std::printf ("\nwhat a stroke's landing and a hand-over cost, %d sticks on the head (%d samples last %.2f ms):\n",
                 engine::mostWholeSticks, block, blockMilliseconds);
    std::printf ("%-34s %5s %10s %7s %8s %11s %7s %8s\n", "", "heads", "stroke ms", "x even", "% block", "hand-over", "x even",
                 "% block");
    for (const double diameter : { 14.0, 26.0 })
    {
        Moments even{};
        for (const auto& played : casesOfSize (0.0254 * diameter))
        {
            const auto cost = measure (played, repeats);
            if (played.name == "even")
                even = cost;
            std::printf ("%2.0f in, %-27s %5d %10.3f %7.1f %8.0f %11.3f %7.1f %8.0f\n", diameter, played.name.c_str(),
                         cost.headModes, cost.stroke, cost.stroke / even.stroke, 100.0 * cost.stroke / blockMilliseconds,
                         cost.handOver, cost.handOver / even.handOver, 100.0 * cost.handOver / blockMilliseconds);
        }
    }
}

} // namespace bench
