#include "Roll.h"

#include "Modal/InputError.h"

#include <algorithm>
#include <cmath>

namespace score
{

namespace
{

void check (const Roll& roll)
{
    modal::requireInRange (roll.start, { 0.0, 3600.0, "s" }, "start of the roll");
    modal::requireInRange (roll.length, { 0.001, 60.0, "s" }, "length of the roll");
    modal::requireInRange (roll.handsPerSecond, { 2.0, 25.0, "a second" }, "hands a second");
    modal::requireInRange (roll.firstSpeed, { 0.01, 12.0, "m/s" }, "first speed of the roll");
    modal::requireInRange (roll.lastSpeed, { 0.01, 12.0, "m/s" }, "last speed of the roll");
    modal::requireInRange (roll.position, { 0.0, 0.98, "" }, "position of the roll");
    modal::requireInRange (roll.handsApart, { 0.0, 3.0, "rad" }, "angle between the hands");
}

engine::StrokeKind kindOf (Roll::Kind kind) noexcept
{
    switch (kind)
    {
    case Roll::Kind::doubles:
        return engine::StrokeKind::doubleStroke;
    case Roll::Kind::buzzes:
        return engine::StrokeKind::buzz;
    case Roll::Kind::singles:
        break;
    }
    return engine::StrokeKind::tip;
}

} // namespace

Score strokesOf (const Roll& roll)
{
    check (roll);
    const double interval = 1.0 / roll.handsPerSecond;
    const int hands = std::max (1, static_cast<int> (std::floor (roll.length * roll.handsPerSecond + 1.0e-9)));

    Score strokes;
    for (int i = 0; i < hands; ++i)
    {
        engine::Stroke stroke;
        stroke.kind = kindOf (roll.kind);
        stroke.position = roll.position;
        stroke.angle += (i % 2 == 0 ? -0.5 : 0.5) * roll.handsApart;
        const double share = hands > 1 ? static_cast<double> (i) / (hands - 1) : 0.0;
        stroke.speed = roll.firstSpeed * std::pow (roll.lastSpeed / roll.firstSpeed, share);
        // Half way to the next hand, so that an open roll is even; the same strength twice is what it is practised for.
        stroke.secondDelay = 0.5 * interval;
        stroke.secondShare = 1.0;
        // Each buzz lasts until the next begins.
        stroke.pressTime = interval;
        strokes.push_back ({ roll.start + i * interval, stroke });
    }
    return strokes;
}

} // namespace score
