#include "BenchOptions.h"
#include "Command.h"
#include "DrumOptions.h"
#include "OutputFile.h"

#include "Modal/InputError.h"
#include "Sheets/TuningSheet.h"

namespace tool
{
namespace
{
std::string bytesOf (const sheets::TuningSheet& sheet, const std::string& target)
{
    if (target.ends_with (".json"))
        return sheets::asJson (sheet).written();

    if (target.ends_with (".csv"))
        return sheets::asCsv (sheet);

    return sheets::drawn (sheets::formatOf (target, "--output"), sheets::pageWidthA4, sheets::pageHeightA4,
                          [&] (sheets::Canvas& canvas) { sheets::draw (canvas, sheet); });
}

void run (const std::vector<std::string>& words, const Command& command)
{
    const Arguments arguments (words, command.allOptions());
    const auto target = outputTarget (arguments, "output");

    if (! target || *target == "-")
        throw modal::InputError ("--output", "a missing value", "a file that ends in .pdf, .svg, .png, .csv or .json");

    const auto tuned = chooseOne (arguments);
    sheets::TuningSheet sheet;
    sheet.title = tuned.label();
    sheet.date = arguments.value ("date").value_or ("");
    sheet.notes = arguments.value ("notes").value_or ("");
    sheet.wanted = modal::predict (tuned.drum, tuned.tuning);

    if (hasPlan (arguments))
        sheet.plan = modal::makePlan (readPlanRequest (arguments, tuned.drum, tuned.tuning));

    writeText (*target, bytesOf (sheet, *target));
}
} // namespace

const Command& sheetCommand()
{
    static const Command command{
        "sheet",
        "One page for the drum's case: drum, target, lug map, plan, cautions",
        "[DRUM] [options] --output FILE.pdf",
        "With --now-batter and --now-resonant the plan to get there is on the page too. Prints well in black and white.\n",
        { planOptions(),
          { "Output:",
            { { "output", "FILE", "by its ending: .pdf, .svg, .png, and for a database .csv or .json" },
              { "date", "2024-05-17", "as it is to stand on the page" },
              { "notes", "TEXT", "anything else for whoever opens the case" } } } },
        true,
        run
    };
    return command;
}

} // namespace tool
