#include "BenchOptions.h"
#include "Command.h"
#include "DrumOptions.h"
#include "OptionText.h"
#include "Results.h"

#include "Sheets/TuningSheet.h"

namespace tool
{
namespace
{
void run (const std::vector<std::string>& words, const Command& command)
{
    const Arguments arguments (words, command.allOptions());
    const auto target = pageTarget (arguments);
    const auto tuned = chooseOne (arguments);
    sheets::TuningSheet sheet;
    sheet.title = tuned.label();
    sheet.date = readDate (arguments);
    sheet.notes = arguments.value ("notes").value_or ("");
    sheet.wanted = modal::predict (tuned.drum, tuned.tuning);

    if (hasPlan (arguments))
        sheet.plan = modal::makePlan (readPlanRequest (arguments, tuned.drum, tuned.tuning));

    if (const auto files = arguments.value ("measured"))
        sheet.measured = measuredHeads (*files, "--measured", tuned.drum);

    writePage (target,
               { sheets::pageWidthA4, sheets::pageHeightA4, [&] (sheets::Canvas& canvas) { sheets::draw (canvas, sheet); },
                 [&] { return sheets::asJson (sheet); }, [&] { return sheets::asCsv (sheet); } });
}
} // namespace

const Command& sheetCommand()
{
    static const Command command{
        "sheet",
        "One page for the drum's case: drum, target, lug map, plan, cautions",
        "[DRUM] [options] --output FILE.pdf",
        "With --now-batter and --now-resonant, or --now-from, the plan to get there is on the page too; with --measured what the "
        "heads "
        "were\n"
        "found to be. Prints well in black and white.\n",
        { planOptions(),
          { "Output:",
            { { "output", "FILE", "by its ending: .pdf, .svg, .png, and for a database .csv or .json" },
              { "measured", "FILE,FILE...", "what \"snarewright fit --json\" wrote, of one head or both" },
              { "date", "2024-05-17", "as it is to stand on the page" },
              { "notes", "TEXT", "anything else for whoever opens the case" } } } },
        true,
        run
    };
    return command;
}

} // namespace tool
