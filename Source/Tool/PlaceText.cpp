#include "PlaceText.h"

#include "OptionText.h"
#include "Playing.h"
#include "TextTable.h"

#include "Score/StrokeEnergy.h"

#include <cmath>

namespace tool
{

using reports::InPlace;

using modal::fixedText;

namespace
{
std::string metres (double distance)
{
    return fixedText (distance, distance < 10.0 ? 1 : 0) + " m";
}
} // namespace

const Option tempoOption{ "tempo", "100bpm",
                          "with a place: beats per minute, against which the drum note is counted, 20 to 400" };

std::optional<InPlace> inPlace (const Arguments& arguments, const TunedDrum& tuned, const modal::Prediction& prediction)
{
    if (! tuned.place)
        return std::nullopt;

    constexpr double sampleRate = 48000.0;
    const auto energy =
        score::strokeEnergy (setUpToPlay (tuned, engine::defaultMicrophones (tuned.drum.depth), sampleRate, std::nullopt));
    InPlace result{ *tuned.place, place::atListener (*tuned.place, prediction.drumNote, prediction.sustain, energy),
                    prediction.sustain, tuned.drum.hasResonantHead() && tuned.fittings.wires.on, std::nullopt };

    if (arguments.has ("tempo"))
        result.tempo = readTempo (arguments, 0.0);

    return result;
}

std::vector<PlaceRow> placeRows (const InPlace& in)
{
    const auto& at = in.atListener;
    const auto ifWires = [&] (const std::string& text) { return in.hasWires ? text : std::string(); };

    return { { "drum note lasts", fixedText (at.noteLasts, 2) + " s",
               "to -60 dB, wires off; " + fixedText (in.drumAlone, 2) + " s without the place" },
             { "drum note lasts, in beats", in.tempo ? fixedText (at.noteLasts * *in.tempo / 60.0, 1) : "",
               in.tempo ? "at " + modal::asText (*in.tempo, 4) + " bpm" : "" },
             { "level", fixedText (at.level, 0) + " dB(A)", "one stroke a second at 3 m/s" },
             { "direct over reverberant sound",
               std::isfinite (at.directOverReverberant) ? modal::signedText (at.directOverReverberant, 1) + " dB" : "",
               "at 1 kHz" },
             { "wires clear to", std::isfinite (at.wiresClearTo) ? ifWires (metres (at.wiresClearTo)) : "",
               "where their reverberation is as loud as their direct sound" },
             { "wires heard to", ifWires (std::isfinite (at.wiresHeardTo) ? metres (at.wiresHeardTo) : "everywhere"),
               "where they are 10 dB above the usual noise at 4 kHz, NR " + modal::asText (in.place.noiseRating, 3) } };
}

std::string whereText (const InPlace& in)
{
    return (in.place.name.empty() ? "" : in.place.name + ", ") + metres (in.atListener.distance) + " from the drum";
}

std::string placeText (const InPlace& in)
{
    TextTable table ({ Column::left, Column::right, Column::left });

    for (const auto& row : placeRows (in))
        if (! row.value.empty())
            table.add ({ row.name, row.value, row.note });

    return "  AT THE LISTENER  " + whereText (in) + "\n" + table.written();
}

} // namespace tool
