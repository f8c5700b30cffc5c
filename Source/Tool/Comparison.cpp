#include "Comparison.h"

#include "PlaceText.h"
#include "PlayedText.h"
#include "PredictionText.h"
#include "TextTable.h"

#include "Modal/NumberText.h"
#include "Reports/Cautions.h"
#include "Reports/ComparisonJson.h"
#include "Reports/Label.h"
#include "Reports/PlayedJson.h"

#include <algorithm>
#include <cmath>
#include <functional>
#include <string_view>
#include <utility>

namespace tool
{

using namespace modal;
using namespace reports;

namespace
{
std::string noteAndHertz (double hertz, const Prediction& p)
{
    return noteOf (hertz, p) + "  " + fixedText (hertz, 1) + " Hz";
}

/** Adds one row: a heading and a cell for each tuning. */
void addRow (TextTable& table, const std::string& heading, const std::vector<NamedPrediction>& tunings,
             const std::function<std::string (const NamedPrediction&)>& cell)
{
    std::vector<std::string> row{ heading };

    for (const auto& tuning : tunings)
        row.push_back (cell (tuning));

    table.add (std::move (row));
}

/** A change with its sign and unit, or "held" where it is smaller than can be tuned. */
std::string changeText (double value, double smallest, int decimals, const char* unit)
{
    return std::abs (value) < smallest ? "held" : signedText (value, decimals) + unit;
}

/** Splits a label for two lines: the drum, and the tuning after the comma. */
std::pair<std::string, std::string> linesOf (const std::string& label)
{
    const auto comma = label.find (", ");
    return comma == std::string::npos ? std::pair (label, std::string())
                                      : std::pair (label.substr (0, comma), label.substr (comma + 2));
}

void addHeadRows (TextTable& table, const std::string& name, const std::vector<NamedPrediction>& tunings,
                  HeadPrediction Prediction::*head)
{
    const auto& reference = tunings.front().prediction.*head;
    const auto change = [&] (const NamedPrediction& tuning) { return changeOf (reference, tuning.prediction.*head); };
    const auto unlessReference = [&] (const NamedPrediction& tuning, const std::string& text)
    { return &tuning == &tunings.front() ? std::string ("-") : text; };

    table.add ({ name });
    addRow (table, "  tap note", tunings,
            [&] (const auto& t) { return noteAndHertz ((t.prediction.*head).tapNote, t.prediction); });
    addRow (table, "    change", tunings,
            [&] (const auto& t) { return unlessReference (t, changeText (change (t).semitones, 0.01, 2, " semitones")); });
    addRow (table, "  tension", tunings, [&] (const auto& t) { return fixedText ((t.prediction.*head).tension, 0) + " N/m"; });
    addRow (table, "    change", tunings,
            [&] (const auto& t) { return unlessReference (t, changeText (100.0 * change (t).tensionShare, 0.1, 1, " %")); });
    addRow (table, "  % of yield strength", tunings,
            [&] (const auto& t) { return fixedText (100.0 * (t.prediction.*head).yieldShare, 0) + " %"; });
}

/** One row for each number of the played stroke, one for each place of the snare response. */
void addPlayedRows (TextTable& table, const std::vector<NamedPrediction>& tunings)
{
    const auto addNumber = [&] (const char* name)
    {
        addRow (table, std::string ("  ") + name, tunings,
                [&] (const auto& t)
                {
                    for (const auto& number : playedNumbers (*t.played))
                        if (number.name == std::string_view (name))
                            return fixedText (number.value, number.decimals) + " " + number.unit;

                    return std::string ("no wires");
                });
    };

    const auto hasWires = [] (const NamedPrediction& t) { return ! t.played->wireResponse.empty(); };
    const auto wired = std::find_if (tunings.begin(), tunings.end(), hasWires);
    const auto& fullest = wired == tunings.end() ? tunings.front() : *wired;

    table.add ({ "ONE STROKE AT 3 m/s" });

    for (const auto& number : playedNumbers (*fullest.played))
        addNumber (number.name);

    if (wired == tunings.end())
        return;

    table.add ({ "SNARE RESPONSE (softest stroke)" });

    for (std::size_t i = 0; i < wired->played->wireResponse.size(); ++i)
        addRow (table, "  " + placeText (wired->played->wireResponse[i].position), tunings,
                [&] (const auto& t)
                { return hasWires (t) ? softestSpeedText (t.played->wireResponse[i]) : std::string ("no wires"); });
}

/** One row for each result of the places that applies to any tuning. */
void addPlaceRows (TextTable& table, const std::vector<NamedPrediction>& tunings)
{
    std::vector<std::vector<PlaceRow>> columns;

    for (const auto& tuning : tunings)
        columns.push_back (tuning.inPlace ? placeRows (*tuning.inPlace) : std::vector<PlaceRow>());

    const auto inPlace = std::find_if (columns.begin(), columns.end(), [] (const auto& rows) { return ! rows.empty(); });

    if (inPlace == columns.end())
        return;

    addRow (table, "AT THE LISTENER", tunings,
            [] (const auto& t) { return t.inPlace ? whereText (*t.inPlace) : std::string ("no place"); });

    for (std::size_t i = 0; i < inPlace->size(); ++i)
    {
        std::vector<std::string> row{ "  " + (*inPlace)[i].name };

        for (const auto& rows : columns)
            row.push_back (rows.empty() || rows[i].value.empty() ? "-" : rows[i].value);

        if (std::any_of (row.begin() + 1, row.end(), [] (const auto& cell) { return cell != "-"; }))
            table.add (std::move (row));
    }
}

} // namespace

std::string comparisonText (const std::vector<NamedPrediction>& tunings)
{
    const auto& reference = tunings.front().prediction;
    TextTable table (std::vector<Column> (tunings.size() + 1, Column::left));

    addRow (table, "", tunings, [] (const auto& t) { return linesOf (t.label).first; });
    addRow (table, "", tunings, [] (const auto& t) { return linesOf (t.label).second; });
    addRow (table, "DRUM NOTE", tunings, [] (const auto& t) { return noteAndHertz (t.prediction.drumNote, t.prediction); });
    addRow (table, "  change", tunings,
            [&] (const auto& t)
            {
                return &t == &tunings.front()
                           ? std::string ("-")
                           : signedText (centsBetween (reference.drumNote, t.prediction.drumNote), 0) + " cents";
            });
    addRow (table, "  ring, wires off", tunings, [] (const auto& t) { return ringText (t.prediction.sustain); });

    if (std::any_of (tunings.begin(), tunings.end(), [] (const auto& t) { return t.ringWiresOn.has_value(); }))
        addRow (table, "  ring, wires on", tunings,
                [] (const auto& t) { return t.ringWiresOn ? ringText (*t.ringWiresOn) : std::string ("wires off"); });

    if (haveResonantHeads (tunings))
        addRow (table, "INTERVAL", tunings, [] (const auto& t) { return t.prediction.interval.longName(); });

    addHeadRows (table, "BATTER", tunings, &Prediction::batter);

    if (haveResonantHeads (tunings))
        addHeadRows (table, "RESONANT", tunings, &Prediction::resonant);

    if (tunings.front().played)
        addPlayedRows (table, tunings);

    addPlaceRows (table, tunings);
    auto text = table.written();

    for (const auto& tuning : tunings)
        for (const auto& caution : cautions (tuning.prediction))
            text += "\nCAUTION  " + tuning.label + ": " + caution + "\n";

    return text;
}

} // namespace tool
