#include "FitMass.h"

namespace modal
{

DrumSpec withHeadMass (DrumSpec drum, HeadSide side, double ratio)
{
    auto& head = side == HeadSide::batter ? drum.batter : drum.resonant;
    head.plyThickness += (ratio - 1.0) * head.baseDensity() / (Film::density * head.plies);
    return drum;
}

} // namespace modal
