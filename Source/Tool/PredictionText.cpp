#include "PredictionText.h"

#include "TextTable.h"
#include "TunedDrum.h"

#include "Files/HeadText.h"
#include "Modal/InputError.h"
#include "Modal/Units.h"
#include "Reports/Cautions.h"
#include "Reports/Label.h"

#include <algorithm>
#include <cmath>

namespace tool
{

using namespace modal;
using namespace reports;

namespace
{
constexpr std::size_t modesInSummary = 12;

std::string percent (double share, int decimals = 0)
{
    return fixedText (100.0 * share, decimals) + " %";
}

std::string motionOf (const Mode& mode, bool hasResonantHead)
{
    if (mode.isAirMode)
        return "air";
    if (! hasResonantHead)
        return "";

    // Below this one head moves so little that the mode belongs to the other.
    constexpr double clear = 0.2;
    return mode.headCorrelation > clear                 ? "in phase"
           : mode.headCorrelation < -clear              ? "opposed"
           : mode.shares.batter >= mode.shares.resonant ? "batter"
                                                        : "resonant";
}

std::string titleOf (const Prediction& p, const std::string& label)
{
    const auto& drum = p.drum;
    auto line = sizeText (drum) + ", " + std::to_string (drum.lugs) + " lugs, batter " + files::headText (drum.batter);

    if (drum.hasResonantHead())
        line += ", resonant " + files::headText (drum.resonant);
    else
        line += drum.bottom == Bottom::closed ? ", closed bottom" : ", open bottom";

    // The label of a drum without a name is its size, which is in the line already.
    return (label == sizeText (drum) ? "" : label + "\n") + line + "\n";
}

std::string answerTable (const NamedPrediction& named)
{
    const auto& p = named.prediction;
    TextTable table ({ Column::left, Column::left, Column::right, Column::left });
    table.add ({ "DRUM NOTE", noteOf (p.drumNote, p), fixedText (p.drumNote, 1) + " Hz", ringsText (p, named.ringWiresOn) });

    if (p.drum.hasResonantHead())
        table.add ({ "INTERVAL", p.interval.name(), "", p.interval.longName() + ", resonant over batter" });

    return table.written();
}

std::string headTable (const Prediction& p)
{
    TextTable table ({ Column::left, Column::left, Column::right, Column::right, Column::right, Column::right, Column::right });
    table.add ({ "HEAD", "TAP NOTE", "", "TENSION", "FORCE PER ROD", "HEAD STRESS", "% OF YIELD STRENGTH" });

    const auto add = [&] (const char* name, const HeadPrediction& head)
    {
        table.add ({ name, noteOf (head.tapNote, p), fixedText (head.tapNote, 1) + " Hz", fixedText (head.tension, 0) + " N/m",
                     fixedText (head.forcePerLug, 0) + " N", fixedText (head.stress / units::megapascal, 1) + " MPa",
                     percent (head.yieldShare) });
    };

    add ("batter", p.batter);

    if (p.drum.hasResonantHead())
        add ("resonant", p.resonant);

    return table.written();
}

std::string sensitivityTable (const Prediction& p)
{
    TextTable table ({ Column::left, Column::right, Column::right });
    table.add ({ "PER SEMITONE ON", "TENSION", "DRUM NOTE" });
    table.add ({ "batter", "+" + percent (p.batter.semitoneTension, 1), signedText (p.drumNotePerBatterSemitone, 0) + " cents" });

    if (p.drum.hasResonantHead())
        table.add ({ "resonant", "+" + percent (p.resonant.semitoneTension, 1),
                     signedText (p.drumNotePerResonantSemitone, 0) + " cents" });

    return table.written();
}

} // namespace

std::string ringText (double t60)
{
    return std::isfinite (t60) ? fixedText (t60, 2) + " s" : "no decay";
}

std::string ringsText (const Prediction& p, std::optional<double> ringWiresOn)
{
    const auto off = "ring " + ringText (p.sustain) + " to -60 dB";
    return ! p.drum.hasResonantHead() ? off
                                      : off + ", wires off" + (ringWiresOn ? "; " + ringText (*ringWiresOn) + ", wires on" : "");
}

std::string modeTable (const std::vector<Mode>& modes, const Prediction& p)
{
    TextTable table ({ Column::left, Column::left, Column::right, Column::right, Column::right, Column::right, Column::right,
                       Column::right, Column::left });
    table.add ({ "MODE", "NOTE", "HZ", "RATIO", "RING", "BATTER", "RESONANT", "AIR", "HEADS" });

    for (const auto& mode : modes)
        table.add ({ nameOf (mode), noteOf (mode.frequency, p), fixedText (mode.frequency, 1),
                     fixedText (mode.frequency / p.drumNote, 3), ringText (mode.decay.t60()), percent (mode.shares.batter),
                     percent (mode.shares.resonant), percent (mode.shares.air), motionOf (mode, p.drum.hasResonantHead()) });

    return table.written();
}

std::vector<Mode> modesOfHeads (const Prediction& p)
{
    std::vector<Mode> modes;
    std::copy_if (p.modes.begin(), p.modes.end(), std::back_inserter (modes), [] (const Mode& mode) { return ! mode.isAirMode; });
    return modes;
}

std::string predictionText (const NamedPrediction& named)
{
    const auto& p = named.prediction;
    auto modes = modesOfHeads (p);
    const auto more = modes.size() - std::min (modes.size(), modesInSummary);
    modes.resize (modes.size() - more);
    auto text = titleOf (p, named.label) + "\nPREDICTED RESULT\n\n" + answerTable (named) + "\n" + headTable (p) + "\n" +
                sensitivityTable (p) + "\n" + modeTable (modes, p);

    if (more > 0)
        text += "  and " + std::to_string (more) + " more up to " + fixedText (p.highestFrequency, 0) +
                " Hz: see \"snarewright modes\"\n";

    for (const auto& caution : cautions (p))
        text += "\nCAUTION  " + caution + "\n";

    return text;
}

} // namespace tool
