#include "Score.h"

namespace score
{

double lastStroke (const Score& strokes) noexcept
{
    return strokes.empty() ? 0.0 : strokes.back().time;
}

} // namespace score
