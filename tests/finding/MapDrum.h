#pragma once

#include "Finding/Find.h"

#include "Modal/Units.h"

/** A 14 x 5 inch drum and its map, made once for all tests. */
namespace mapped
{

inline modal::DrumSpec drum()
{
    modal::DrumSpec spec;
    spec.diameter = 14.0 * modal::units::inch;
    spec.depth = 5.0 * modal::units::inch;
    spec.batter.plyThickness = 10.0 * modal::units::mil;
    spec.resonant.plyThickness = 3.0 * modal::units::mil;
    return spec;
}

inline const modal::DrumTuner& tuner()
{
    static const modal::DrumTuner value (drum());
    return value;
}

inline const modal::DrumSolver& solver()
{
    static const auto value = finding::solverFor (tuner());
    return value;
}

/** Two octaves of either head; some 2400 tunings. */
inline finding::MapArea area()
{
    return { { 130.0, 390.0 }, { 160.0, 450.0 } };
}

inline const finding::TuningMap& map()
{
    static const std::atomic<bool> cancel{ false };
    static const auto value = finding::TuningMap::make (tuner(), solver(), area(), 50.0, 0, cancel);
    return *value;
}

} // namespace mapped
