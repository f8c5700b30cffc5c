#include "Command.h"
#include "OptionText.h"
#include "PlanOptions.h"
#include "Playing.h"
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
void refuseContradictions (const Arguments& arguments, const std::vector<reports::MeasuredHead>& measured,
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

void runSheet (const std::vector<std::string>& words, const Command& command)
{
    const auto arguments = command.read (words);
    const auto target = pageTarget (arguments);
    const auto tuned = chooseOne (arguments);
    reports::TuningSheet sheet;
    sheet.title = tuned.label();
    sheet.date = readDate (arguments);
    sheet.notes = arguments.value ("notes").value_or ("");
    sheet.lugOne = arguments.value ("lug-1").value_or ("");
    sheet.fittings = tuned.fittings;
    const auto predicted = predictAndPlay (arguments, tuned, tuned.label());
    sheet.wanted = predicted.prediction;
    sheet.ringWiresOn = predicted.ringWiresOn;

    if (const auto files = arguments.value ("measured"))
        sheet.measured = measuredHeads (*files, "--measured", tuned.drum);

    refuseContradictions (arguments, sheet.measured, tuned.tuning.concertPitch);

    fitting::PlanRequest request;

    if (hasPlan (arguments))
    {
        request = readPlanRequest (arguments, tuned.drum, tuned.tuning);
        sheet.plan = fitting::makePlan (request);
    }
    else
    {
        readRods (arguments, tuned.tuning, request);

        for (const auto* option : { "step", "below" })
            arguments.refuse (option, "a plan: --now-batter, --now-resonant, --now-from or --observed");
    }

    if (const auto wanted = arguments.value ("next"))
    {
        const auto next = otherTuning (arguments, tuned, *wanted, "--next");
        reports::addTurns (sheet, request, next.name.empty() ? *wanted : next.name, modal::tensionsFor (tuned.drum, next));
    }
    else
    {
        reports::addTurns (sheet, request);
    }

    writePage (target, { sheets::pageWidthA4,
                         sheets::pageHeightA4,
                         { [&] (sheets::Canvas& canvas) { sheets::draw (canvas, sheet); },
                           [&] (sheets::Canvas& canvas) { sheets::drawWork (canvas, sheet); } },
                         [&] { return reports::asJson (sheet); },
                         [&] { return reports::asCsv (sheet); } });
}
} // namespace

const Command& sheetCommand()
{
    static const Command command{
        "sheet",
        "Makes a tuning sheet for the case: drum, target, lug map; plan, corrections, next tuning",
        "[DRUM] [options] --output FILE.pdf",
        "Two A4 pages for black and white print. The first has the target, the lugs and, with --measured, the measured heads. The\n"
        "second is for the work: the order of work, the turns that correct an error, with --next another tuning and the turns there\n"
        "and back, with --now-batter and --now-resonant, or --now-from, the plan. Text that does not fit is shortened and marked.\n",
        { planOptions(),
          { "Output:",
            { { "output", "FILE", "format by ending: .pdf, .svg, .png; data: .csv or .json" },
              { "measured", "FILE,FILE...", "files that \"snarewright fit --json\" wrote, for one head or both" },
              { "next", "NAME|\"A3 D4\"", "another tuning of this drum, or tap notes of batter and resonant head" },
              { "date", "2024-05-17", "the date on the page" },
              { "lug-1", "TEXT", "where lug 1 is, such as \"beside the strainer\"" },
              { "notes", "TEXT", "any other text for the page" } } } },
        true,
        runSheet
    };
    return command;
}

} // namespace tool
