#include "HeadMass.h"

namespace fitting
{

modal::DrumSpec withHeadMass (modal::DrumSpec drum, modal::HeadSide side, double ratio)
{
    auto& head = side == modal::HeadSide::batter ? drum.batter : drum.resonant;
    head.plyThickness += (ratio - 1.0) * head.baseDensity() / (modal::Film::density * head.plies);
    return drum;
}

} // namespace fitting
