#include "Label.h"

#include "Modal/InputError.h"
#include "Modal/NumberText.h"
#include "Modal/Units.h"

namespace reports
{

using namespace modal;

std::string sizeText (const DrumSpec& drum)
{
    const auto inches = [] (double metres) { return asText (metres / units::inch, 4); };
    return inches (drum.diameter) + " x " + inches (drum.depth) + " in";
}

std::string labelOf (const DrumSpec& drum, const Tuning& tuning)
{
    return (drum.name.empty() ? sizeText (drum) : drum.name) + (tuning.name.empty() ? "" : ", " + tuning.name);
}

std::string noteOf (double hertz, const Prediction& p)
{
    return Note::fromFrequency (hertz, p.tuning.concertPitch).nameWithCents();
}

} // namespace reports
