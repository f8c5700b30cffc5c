#include "Band.h"
#include "Command.h"
#include "OutputFile.h"
#include "OutputTarget.h"
#include "PredictionText.h"

#include "Modal/InputError.h"
#include "Reports/Label.h"
#include "Reports/PredictionJson.h"

#include <cmath>

namespace tool
{
namespace
{
constexpr double usualHighestFrequency = 2000.0; // Hz

std::string csvNumber (double value)
{
    return std::isfinite (value) ? modal::exactText (value) : "";
}

/** Comma separated, a heading with units, no quoting needed (RFC 4180). */
std::string modesCsv (const modal::Prediction& p)
{
    std::string text = "m,n,frequency_hz,ratio,note,t60_s,radiation_per_s,film_per_s,bending_per_s,ply_per_s,edge_per_s,air_per_"
                       "s,muffling_per_s,"
                       "batter_share,resonant_share,air_share,head_correlation\r\n";

    for (const auto& mode : p.modes)
    {
        const auto& d = mode.decay;
        text += std::to_string (mode.m) + "," + std::to_string (mode.n) + "," + csvNumber (mode.frequency) + "," +
                csvNumber (mode.frequency / p.drumNote) + "," + reports::noteOf (mode.frequency, p);

        for (const double value : { d.t60(), d.radiation, d.film, d.bending, d.ply, d.edge, d.air, d.muffling, mode.shares.batter,
                                    mode.shares.resonant, mode.shares.air, mode.headCorrelation })
            text += "," + csvNumber (value);

        text += "\r\n";
    }

    return text;
}

void runModes (const std::vector<std::string>& words, const Command& command)
{
    const auto arguments = command.read (words);

    if (arguments.has ("json") && arguments.has ("csv"))
        throw modal::InputError::fault ("--csv", "is given beside --json", "one of them");

    const auto tuned = chooseOne (arguments);
    const auto prediction = predictAsked (arguments, tuned, usualHighestFrequency);

    if (const auto json = outputTarget (arguments, "json"))
        writeText (*json, files::written (reports::modesJson (prediction)));
    else if (const auto csv = outputTarget (arguments, "csv"))
        writeText (*csv, modesCsv (prediction));
    else
        writeText ("-", modeTable (arguments.has ("all") ? prediction.modes : modesOfHeads (prediction), prediction));
}
} // namespace

const Command& modesCommand()
{
    static const Command command{
        "modes",
        "Lists every mode: note, frequency, ring, where its energy is",
        "[DRUM] [options]",
        "A mode (m,n) has m nodal diameters and n nodal circles; the rim counts as one circle. RATIO is the frequency over the "
        "drum note's.\n"
        "RING is the time to -60 dB. BATTER, RESONANT and AIR are shares of the mode's kinetic energy. HEADS tells which head "
        "moves, or whether\n"
        "both move in phase or opposed, which squeezes the air between them. \"mixed\": less than two thirds of a mode moves as "
        "its\n"
        "name says, since a patch or uneven lugs mix it with others.\n",
        { { "Output:",
            { { "all", "",
                "also the modes of the air, in vent and cavity, in which the heads hardly move; JSON and CSV always have\nthem" },
              { "json", "FILE", "as JSON", true },
              { "csv", "FILE", "as comma separated values", true } } } },
        true,
        runModes
    };
    return command;
}

} // namespace tool
