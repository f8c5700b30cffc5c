#include "PlayedMap.h"

#include "Parallel.h"

#include "Engine/Microphone.h"
#include "Engine/PlayedBand.h"
#include "Engine/PlayedResponse.h"
#include "Score/StrokeEnergy.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace finding
{

using namespace modal;

namespace
{

constexpr double sampleRate = 48000.0; // Hz

constexpr std::array<Figure, 6> playedFigures{ Figure::softestStroke, Figure::dryness,    Figure::brightness,
                                               Figure::contactTime,   Figure::snareSound, Figure::wiresCarry };

bool isLogarithmic (Figure figure)
{
    return infoOf (figure).kind != FigureInfo::Kind::decibels;
}

/** Between four neighbours; infinite where one of those that count is. */
double between (Figure figure, const std::array<double, 4>& values, const std::array<double, 4>& shares)
{
    double sum = 0.0;

    for (std::size_t i = 0; i < values.size(); ++i)
        if (shares[i] > 0.0)
            sum += shares[i] * (isLogarithmic (figure) ? std::log (std::max (values[i], 1.0e-6)) : values[i]);

    return isLogarithmic (figure) ? std::exp (sum) : sum;
}

} // namespace

void addPlayed (Figures& figures, const DrumSpec& drum, const Tensions& tensions, const Playing& playing)
{
    const auto& hand = playing.hand;
    const auto modes = solve (drum, tensions, { .highestFrequency = engine::playedBand (drum, tensions) });
    auto setup = engine::setUp (drum, tensions, modes, playing.fittings);
    const auto microphones = engine::defaultMicrophones (drum.depth);
    setup.microphones = { microphones.front() };
    setup.sampleRate = sampleRate;
    const auto response = engine::playedResponse (
        setup, { .speed = hand.usual, .position = hand.place, .wirePositions = { hand.place }, .withOthers = false });
    of (figures, Figure::dryness) = response.earlyToLate;
    of (figures, Figure::brightness) = response.brightness;
    of (figures, Figure::contactTime) = response.contactTime;

    if (! response.wireResponse.empty())
    {
        of (figures, Figure::softestStroke) = response.wireResponse.front().softestSpeed;
        of (figures, Figure::snareSound) = response.snareSound;

        if (playing.place)
        {
            engine::Stroke usual;
            usual.position = hand.place;
            usual.speed = hand.usual;
            setup.microphones = { microphones.back() };
            // How long the note lasts there does not matter to the wires.
            of (figures, Figure::wiresCarry) =
                place::atListener (*playing.place, 1000.0, 1.0, score::strokeEnergy (setup, usual)).wiresCarryTo();
        }
    }
}

std::shared_ptr<const PlayedMap> PlayedMap::make (const DrumTuner& tuner, const Playing& playing, const MapArea& area,
                                                  double step, unsigned threads, const std::atomic<bool>& cancel,
                                                  const std::function<void (double)>& progress)
{
    auto map = std::make_shared<PlayedMap>();
    map->playing = playing;
    map->batter = notesBetween (area.batter, step);
    map->resonant = notesBetween (area.resonant, step);
    Figures none;
    none.fill (std::numeric_limits<double>::quiet_NaN());
    map->points.assign (map->batter.size() * map->resonant.size(), none);

    constexpr double narrowest = -700.0, widest = 1400.0; // cents
    std::vector<std::size_t> toPlay;

    for (std::size_t i = 0; i < map->points.size(); ++i)
        if (const double interval = centsBetween (map->batter[i / map->resonant.size()], map->resonant[i % map->resonant.size()]);
            interval >= narrowest - step && interval <= widest + step)
            toPlay.push_back (i);

    inParallel (
        toPlay.size(), threads,
        [&] (std::size_t job)
        {
            const auto i = toPlay[job];
            const Tensions tensions{ tuner.notes (HeadSide::batter).tensionNear (map->batter[i / map->resonant.size()]),
                                     tuner.notes (HeadSide::resonant).tensionNear (map->resonant[i % map->resonant.size()]) };
            addPlayed (map->points[i], tuner.drum(), tensions, playing);
        },
        cancel,
        [&] (std::size_t done)
        {
            if (progress)
                progress (static_cast<double> (done) / static_cast<double> (toPlay.size()));
        });

    if (cancel)
        return nullptr;

    map->error = map->estimatedErrors();
    return map;
}

void PlayedMap::addTo (Figures& figures, double batterNote, double resonantNote) const
{
    const auto b = placeIn (batter, batterNote), r = placeIn (resonant, resonantNote);

    if (! b || ! r)
        return;

    const std::array<double, 4> shares{ (1.0 - b->share) * (1.0 - r->share), b->share * (1.0 - r->share),
                                        (1.0 - b->share) * r->share, b->share * r->share };

    for (const auto figure : playedFigures)
        of (figures, figure) =
            between (figure,
                     { of (point (b->below, r->below), figure), of (point (b->below + 1, r->below), figure),
                       of (point (b->below, r->below + 1), figure), of (point (b->below + 1, r->below + 1), figure) },
                     shares);
}

void PlayedMap::play (Figures& figures, const DrumTuner& tuner, double batterNote, double resonantNote) const
{
    const Tensions tensions{ tuner.notes (HeadSide::batter).tensionFor (batterNote),
                             tuner.notes (HeadSide::resonant).tensionFor (resonantNote) };
    addPlayed (figures, tuner.drum(), tensions, playing);
}

Figures PlayedMap::estimatedErrors() const
{
    constexpr std::size_t nine = 9, ten = 10;
    Figures errors{};

    for (const auto figure : playedFigures)
    {
        std::vector<double> misses;

        for (std::size_t b = 1; b + 1 < batter.size(); ++b)
            for (std::size_t r = 1; r + 1 < resonant.size(); ++r)
            {
                const double guess = between (figure,
                                              { of (point (b - 1, r), figure), of (point (b + 1, r), figure),
                                                of (point (b, r - 1), figure), of (point (b, r + 1), figure) },
                                              { 0.25, 0.25, 0.25, 0.25 });
                const double miss = std::abs (stepsBetween (figure, guess, of (point (b, r), figure)));

                if (std::isfinite (miss))
                    misses.push_back (miss);
            }

        std::sort (misses.begin(), misses.end());
        of (errors, figure) = misses.empty() ? 0.0 : misses[std::min (misses.size() - 1, misses.size() * nine / ten)];
    }

    return errors;
}

} // namespace finding
