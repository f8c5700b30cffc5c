#include "PredictionText.h"

#include "TextTable.h"
#include "TunedDrum.h"

#include "Files/HeadText.h"
#include "Modal/InputError.h"
#include "Modal/Units.h"

#include <algorithm>
#include <cmath>

namespace tool
{

using namespace modal;

namespace
{
constexpr std::size_t modesInSummary = 12;

// Common practice, no source: half of the yield strength leaves room for the stress at the bearing edge and for a hard stroke, and
// hand tuning needs less than 1 kN per rod. The maker's limits come first.
constexpr double cautiousYieldShare = 0.5;
constexpr double cautiousRodForce = 1000.0; // N

std::string percent (double share, int decimals = 0)
{
    return fixedText (100.0 * share, decimals) + " %";
}

std::string ringTime (double t60)
{
    return std::isfinite (t60) ? fixedText (t60, 2) + " s" : "no decay";
}

std::string motionOf (const Mode& mode, bool hasResonantHead)
{
    if (mode.isAirMode)
        return "air";
    if (! hasResonantHead)
        return "";

    // Below this one head moves so little that the mode belongs to the other.
    constexpr double clear = 0.2;
    return mode.togetherness > clear                    ? "in phase"
           : mode.togetherness < -clear                 ? "opposed"
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

std::string answerTable (const Prediction& p)
{
    TextTable table ({ Align::left, Align::left, Align::right, Align::left });
    table.add (
        { "DRUM NOTE", noteOf (p.drumNote, p), fixedText (p.drumNote, 1) + " Hz", "ring " + ringTime (p.sustain) + " to -60 dB, wires off" });

    if (p.drum.hasResonantHead())
        table.add ({ "INTERVAL", p.interval.name(), "", p.interval.longName() + ", resonant over batter" });

    return table.written();
}

std::string headTable (const Prediction& p)
{
    TextTable table ({ Align::left, Align::left, Align::right, Align::right, Align::right, Align::right, Align::right });
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
    TextTable table ({ Align::left, Align::right, Align::right });
    table.add ({ "PER SEMITONE ON", "TENSION", "DRUM NOTE" });
    table.add ({ "batter", "+" + percent (p.batter.semitoneTension, 1), signedText (p.drumNotePerBatterSemitone, 0) + " cents" });

    if (p.drum.hasResonantHead())
        table.add ({ "resonant", "+" + percent (p.resonant.semitoneTension, 1),
                     signedText (p.drumNotePerResonantSemitone, 0) + " cents" });

    return table.written();
}

void addCautions (std::vector<std::string>& list, const char* name, const HeadPrediction& head)
{
    if (head.yieldShare > cautiousYieldShare)
        list.push_back (std::string ("The ") + name + " head is at " + percent (head.yieldShare) +
                        " of its yield strength: it may stretch permanently or split. Keep to the head maker's limits.");

    if (head.forcePerLug > cautiousRodForce)
        list.push_back (std::string ("The ") + name + " head's force per rod is " + fixedText (head.forcePerLug, 0) +
                        " N: lugs, hoop and shell may not be made for it. Keep to the drum maker's limits.");
}
} // namespace

std::string noteOf (double hertz, const Prediction& p)
{
    return Note::fromFrequency (hertz, p.tuning.concertPitch).nameWithCents();
}

std::vector<std::string> cautions (const Prediction& p)
{
    std::vector<std::string> list;
    addCautions (list, "batter", p.batter);

    if (p.drum.hasResonantHead())
        addCautions (list, "resonant", p.resonant);

    return list;
}

std::string modeTable (const Prediction& p, std::size_t mostRows)
{
    TextTable table ({ Align::left, Align::left, Align::right, Align::right, Align::right, Align::right, Align::right,
                       Align::right, Align::left });
    table.add ({ "MODE", "NOTE", "HZ", "RATIO", "RING", "BATTER", "RESONANT", "AIR", "HEADS" });

    for (std::size_t i = 0; i < std::min<std::size_t> (mostRows, p.modes.size()); ++i)
    {
        const auto& mode = p.modes[i];
        table.add ({ "(" + std::to_string (mode.m) + "," + std::to_string (mode.n) + ")", noteOf (mode.frequency, p),
                     fixedText (mode.frequency, 1), fixedText (mode.frequency / p.drumNote, 3), ringTime (mode.decay.t60()),
                     percent (mode.shares.batter), percent (mode.shares.resonant), percent (mode.shares.air),
                     motionOf (mode, p.drum.hasResonantHead()) });
    }

    return table.written();
}

std::string predictionText (const Prediction& p, const std::string& label)
{
    auto text = titleOf (p, label) + "\n" + answerTable (p) + "\n" + headTable (p) + "\n" + sensitivityTable (p) + "\n" +
                modeTable (p, modesInSummary);

    if (p.modes.size() > modesInSummary)
        text += "  and " + std::to_string (p.modes.size() - modesInSummary) + " more up to " + fixedText (p.highestFrequency, 0) +
                " Hz: see \"snarewright modes\"\n";

    for (const auto& caution : cautions (p))
        text += "\nCAUTION  " + caution + "\n";

    return text;
}

} // namespace tool
