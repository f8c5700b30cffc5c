#include "PlayedText.h"

#include "TextTable.h"

#include "Modal/NumberText.h"
#include "Reports/PlayedJson.h"

#include <algorithm>
#include <cmath>

namespace tool
{

std::string softestSpeedText (const engine::WireResponsePoint& point)
{
    return std::isfinite (point.softestSpeed) ? modal::fixedText (point.softestSpeed, 2) + " m/s" : "none";
}

std::string placeText (double position)
{
    return position < 0.01 ? "centre" : modal::fixedText (100.0 * position, 0) + " %";
}

std::string playedText (const engine::PlayedResponse& p)
{
    TextTable numbers ({ Column::left, Column::right, Column::left });

    for (const auto& number : reports::playedNumbers (p))
        numbers.add ({ number.name, modal::fixedText (number.value, number.decimals), number.unit });

    auto text = "  ONE STROKE AT 3 m/s, a quarter of the way from centre to edge\n" + numbers.written();

    if (p.wireResponse.empty())
        return text;

    TextTable curve (std::vector<Column> (p.wireResponse.size() + 1, Column::right));
    std::vector<std::string> places{ "strike point" }, speeds{ "softest stroke" };

    for (const auto& point : p.wireResponse)
    {
        places.push_back (placeText (point.position));
        speeds.push_back (softestSpeedText (point));
    }

    const auto isSilent = [] (const auto& point) { return ! std::isfinite (point.softestSpeed); };

    if (std::all_of (p.wireResponse.begin(), p.wireResponse.end(), isSilent))
        return text + "\n  SNARE RESPONSE  choked: no stroke up to the hardest tried wakes the wires\n";

    curve.add (places);
    curve.add (speeds);
    text += "\n  SNARE RESPONSE (softest stroke that wakes the wires, from centre to edge)\n" + curve.written();

    if (std::any_of (p.wireResponse.begin(), p.wireResponse.end(), isSilent))
        text += "  none: no stroke up to the hardest tried wakes the wires there\n";

    return text;
}

} // namespace tool
