#include "PlayedText.h"

#include "TextTable.h"

#include "Modal/NumberText.h"

#include <algorithm>
#include <cmath>

namespace tool
{

std::vector<PlayedNumber> playedNumbers (const engine::PlayedResponse& p)
{
    std::vector<PlayedNumber> numbers{
        { "stick on the head for", "contact_ms", 1.0e3 * p.contactTime, 1, "ms" },
        { "pushing at most with", "peak_force_n", p.peakForce, 0, "N" },
        { "stick comes back at", "rebound_share", p.rebound, 2, "of its speed" },
        { "attack brightness, microphone above", "attack_brightness_hz", p.brightness, 0, "Hz" },
        { "first 50 ms over the rest, above", "early_to_late_db", p.earlyToLate, 1, "dB" },
    };

    if (! p.wireResponse.empty())
        numbers.push_back ({ "wires last", "wires_last_ms", 1.0e3 * p.wireDuration, 0, "ms" });

    return numbers;
}

std::string softestSpeedText (const engine::WireResponsePoint& point)
{
    return std::isfinite (point.softestSpeed) ? modal::fixedText (point.softestSpeed, 2) + " m/s" : "none";
}

std::string playedText (const engine::PlayedResponse& p)
{
    TextTable numbers ({ Align::left, Align::right, Align::left });

    for (const auto& number : playedNumbers (p))
        numbers.add ({ number.words, modal::fixedText (number.value, number.decimals), number.unit });

    auto text = "  ONE STROKE at 3 m/s, a quarter of the way from the middle to the edge\n" + numbers.written();

    if (p.wireResponse.empty())
        return text;

    TextTable curve (std::vector<Align> (p.wireResponse.size() + 1, Align::right));
    std::vector<std::string> places{ "of the way to the edge" }, speeds{ "stick's speed" };

    for (const auto& point : p.wireResponse)
    {
        places.push_back (modal::fixedText (100.0 * point.position, 0) + " %");
        speeds.push_back (softestSpeedText (point));
    }

    const auto isSilent = [] (const auto& point) { return ! std::isfinite (point.softestSpeed); };

    if (std::all_of (p.wireResponse.begin(), p.wireResponse.end(), isSilent))
        return text + "\n  WIRES ANSWER  choked: no stroke tried woke them\n";

    curve.add (places);
    curve.add (speeds);
    text += "\n  WIRES ANSWER, softest stroke that wakes them\n" + curve.written();

    if (std::any_of (p.wireResponse.begin(), p.wireResponse.end(), isSilent))
        text += "  none: no stroke tried woke them there\n";

    return text;
}

files::Json playedJson (const engine::PlayedResponse& p)
{
    files::Json object = files::Json::object();
    files::Json curve = files::Json::array();

    for (const auto& number : playedNumbers (p))
        object[number.jsonKey] = number.value;

    for (const auto& point : p.wireResponse)
        curve.push_back (files::Json{
            { "position_share", point.position },
            { "softest_speed_m_per_s", std::isfinite (point.softestSpeed) ? files::Json (point.softestSpeed) : files::Json() } });

    object["wire_response"] = curve;
    return object;
}

} // namespace tool
