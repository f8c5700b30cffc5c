#include "Command.h"
#include "OptionText.h"
#include "PlanOptions.h"
#include "Results.h"
#include "TunedDrum.h"

#include "Files/TuningRequest.h"
#include "Modal/InputError.h"
#include "Sheets/TuningSheet.h"

#include <cmath>

namespace tool
{
namespace
{
/** Refuses a present note that contradicts the measurement. */
void refuseContradictions (const Arguments& arguments, const std::vector<sheets::MeasuredHead>& measured,
                           modal::ConcertPitch pitch)
{
    constexpr double slack = 5.0; // cents beyond the measurement's own error

    for (const auto& head : measured)
    {
        const std::string option = head.side == modal::HeadSide::batter ? "now-batter" : "now-resonant";
        const auto text = arguments.value (option);

        if (! text)
            continue;

        const auto [hertz, error] = head.fit.tapNote;
        const auto apart = std::abs (modal::centsBetween (hertz, files::readNote (*text, pitch, "--" + option)));
        const auto allowed = slack + modal::centsBetween (hertz, hertz + error);

        if (apart > allowed)
            throw modal::InputError ("--" + option,
                                     '"' + *text + "\" beside a head that was measured at " +
                                         modal::Note::fromFrequency (hertz, pitch).nameWithCents(),
                                     "that note within " + modal::asText (allowed, 2) +
                                         " cents; --now-from plans from the measurement itself");
    }
}

void run (const std::vector<std::string>& words, const Command& command)
{
    const Arguments arguments (words, command.allOptions());
    const auto target = pageTarget (arguments);
    const auto tuned = chooseOne (arguments);
    sheets::TuningSheet sheet;
    sheet.title = tuned.label();
    sheet.date = readDate (arguments);
    sheet.notes = arguments.value ("notes").value_or ("");
    sheet.lugOne = arguments.value ("lug-1").value_or ("");
    sheet.fittings = tuned.fittings;
    sheet.wanted = modal::predict (tuned.drum, tuned.tuning);

    if (const auto files = arguments.value ("measured"))
        sheet.measured = measuredHeads (*files, "--measured", tuned.drum);

    refuseContradictions (arguments, sheet.measured, tuned.tuning.concertPitch);

    if (hasPlan (arguments))
        sheet.plan = fitting::makePlan (readPlanRequest (arguments, tuned.drum, tuned.tuning));

    writePage (target,
               { sheets::pageWidthA4, sheets::pageHeightA4, [&] (sheets::Canvas& canvas) { sheets::draw (canvas, sheet); },
                 [&] { return sheets::asJson (sheet); }, [&] { return sheets::asCsv (sheet); } });
}
} // namespace

const Command& sheetCommand()
{
    static const Command command{
        "sheet",
        "Makes a one-page tuning sheet: drum, target, lug map, plan, cautions",
        "[DRUM] [options] --output FILE.pdf",
        "With --now-batter and --now-resonant, or --now-from, the page includes the plan; with --measured, the measured heads. It is one "
        "A4\n"
        "page for black and white print; text that does not fit is shortened and marked.\n",
        { planOptions(),
          { "Output:",
            { { "output", "FILE", "format by ending: .pdf, .svg, .png; data: .csv or .json" },
              { "measured", "FILE,FILE...", "files that \"snarewright fit --json\" wrote, for one head or both" },
              { "date", "2024-05-17", "the date on the page" },
              { "lug-1", "TEXT", "where lug 1 is, such as \"beside the strainer\"" },
              { "notes", "TEXT", "any other text for the page" } } } },
        true,
        run
    };
    return command;
}

} // namespace tool
