#include "Results.h"

#include "Command.h"
#include "OutputFile.h"
#include "OutputTarget.h"

#include "Modal/InputError.h"

namespace tool
{

void writeJsonAndText (const Arguments& arguments, const files::Json& json, const std::string& text)
{
    const auto target = outputTarget (arguments, "json");

    if (target)
        writeText (*target, files::written (json));

    // Standard output carries either JSON or text, never both.
    if (! target || *target != "-")
        writeText ("-", text);
}

std::string pageTarget (const Arguments& arguments)
{
    const auto target = outputTarget (arguments, "output", { ".pdf", ".svg", ".png", ".csv", ".json" });

    if (! target || *target == "-")
        throw modal::InputError::fault ("--output", "is missing", "a file that ends in .pdf, .svg, .png, .csv or .json");

    return *target;
}

void writePage (const std::string& target, const Page& page)
{
    if (sheets::endsIn (target, ".json"))
        writeText (target, files::written (page.json()));
    else if (sheets::endsIn (target, ".csv"))
        writeText (target, page.csv());
    else
        writeText (target, sheets::drawn (sheets::formatOf (target, "--output"), page.width, page.height, page.draw));
}

} // namespace tool
