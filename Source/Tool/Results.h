#pragma once

#include "Arguments.h"

#include "Files/Json.h"
#include "Sheets/Canvas.h"

#include <functional>
#include <string>
#include <vector>

namespace tool
{

/** Writes the text to standard output, and JSON to the file that --json names; without a file JSON takes the text's place. */
void writeJsonAndText (const Arguments&, const files::Json&, const std::string& text);

inline const Option jsonOption{
    "json", "FILE", "JSON to a file, besides the text; without a file, or with -, JSON to standard output instead", true
};

/** A page that can be written as a drawing or as data. */
struct Page
{
    double width = 0.0, height = 0.0; ///< points
    std::vector<std::function<void (sheets::Canvas&)>> draw; ///< page by page
    std::function<files::Json()> json;
    std::function<std::string()> csv;
};

/** The file that --output names. Throws modal::InputError if there is none, or if its ending is unknown. */
std::string pageTarget (const Arguments&);

/** Writes a page, or its data, by the target's ending. */
void writePage (const std::string& target, const Page&);

} // namespace tool
