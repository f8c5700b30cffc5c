#include "TextTable.h"

#include "Files/Utf8.h"

#include <algorithm>

namespace tool
{

void TextTable::add (std::vector<std::string> cells)
{
    cells.resize (alignments.size());
    rows.push_back (std::move (cells));
}

std::string TextTable::written (int indent) const
{
    std::vector<std::size_t> widths (alignments.size());

    for (const auto& row : rows)
        for (std::size_t i = 0; i < row.size(); ++i)
            widths[i] = std::max (widths[i], files::countCharacters (row[i]));

    std::string text;

    for (const auto& row : rows)
    {
        std::string line (static_cast<std::size_t> (indent), ' ');

        for (std::size_t i = 0; i < row.size(); ++i)
        {
            const std::string padding (widths[i] - files::countCharacters (row[i]), ' ');
            line += i == 0 ? "" : "  ";
            line += alignments[i] == Column::left ? row[i] + padding : padding + row[i];
        }

        line.erase (line.find_last_not_of (' ') + 1);
        text += line + "\n";
    }

    return text;
}

} // namespace tool
