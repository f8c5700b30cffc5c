#pragma once

#include <string>
#include <vector>

namespace tool
{

enum class Column
{
    left,
    right
};

/** Rows of cells in aligned columns, two spaces apart. The alignment applies to the heading too. */
class TextTable
{
public:
    explicit TextTable (std::vector<Column> columns) : alignments (std::move (columns)) {}

    /** A row may have fewer cells than there are columns, not more. */
    void add (std::vector<std::string> cells);

    /** The table, each line behind `indent` spaces. */
    std::string written (int indent = 2) const;

private:
    std::vector<Column> alignments;
    std::vector<std::vector<std::string>> rows;
};

} // namespace tool
