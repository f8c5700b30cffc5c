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
        result.tempo =
            readNumber (arguments, "tempo", files::Quantity{ "tempo", { { "bpm", "bpm", 1.0 } }, true }, { 20.0, 400.0 }, 0.0);

    return result;
}

std::string placeText (const InPlace& in)
{
    const auto& at = in.atListener;
    const auto inBeats = [&] (double seconds)
    {
        return in.tempo ? fixedText (seconds * *in.tempo / 60.0, 1) + " beats at " + modal::asText (*in.tempo, 4) + " bpm; "
                        : std::string();
    };

    TextTable table ({ Align::left, Align::right, Align::left });
    table.add ({ "drum note lasts", fixedText (at.noteLasts, 2) + " s",
                 inBeats (at.noteLasts) + "to -60 dB, wires off; " + fixedText (in.drumAlone, 2) + " s without the place" });
    table.add ({ "level", fixedText (at.level, 0) + " dB(A)", "one stroke a second at 3 m/s" });

    if (std::isfinite (at.directOverReverberant))
        table.add ({ "direct over reverberant sound", modal::signedText (at.directOverReverberant, 1) + " dB", "at 1 kHz" });

    if (in.hasWires)
    {
        if (std::isfinite (at.wiresClearTo))
            table.add (
                { "wires clear to", metres (at.wiresClearTo), "where their reverberation is as loud as their direct sound" });
        table.add ({ "wires heard to", std::isfinite (at.wiresHeardTo) ? metres (at.wiresHeardTo) : "everywhere",
                     "where they are 10 dB above the usual noise at 4 kHz, NR " + modal::asText (in.place.noiseRating, 3) });
    }

    return "  AT THE LISTENER  " + (in.place.name.empty() ? "" : in.place.name + ", ") + metres (at.distance) +
           " from the drum\n" + table.written();
}

} // namespace tool
