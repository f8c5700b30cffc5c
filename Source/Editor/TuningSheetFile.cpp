#include "TuningSheetFile.h"

#include "Plugin/TakeWriter.h"
#include "Sheets/TuningSheet.h"

namespace editor
{

juce::String writeTuningSheet (const SheetRequest& request, const juce::File& file)
{
    try
    {
        const auto& solved = *request.drum;
        fitting::PlanRequest plan;
        plan.drum = solved.request.drum;
        plan.wanted = solved.request.tuning;
        plan.batter = request.batter;
        plan.resonant = request.resonant;

        reports::TuningSheet sheet;
        sheet.title = request.name.toStdString();
        sheet.date = juce::Time::getCurrentTime().formatted ("%Y-%m-%d").toStdString();
        sheet.wanted = solved.prediction;
        sheet.fittings = { solved.request.wires, solved.request.hoop, solved.request.stick };
        if (request.ringWiresOn > 0.0)
            sheet.ringWiresOn = request.ringWiresOn;
        if (plan.batter || plan.resonant)
            sheet.plan = fitting::makePlan (plan);
        reports::addTurns (sheet, plan);

        const auto pages = sheets::drawn (sheets::formatOf (file.getFileName().toStdString(), "sheet"), sheets::pageWidthA4,
                                          sheets::pageHeightA4,
                                          { [&] (sheets::Canvas& canvas) { sheets::draw (canvas, sheet); },
                                            [&] (sheets::Canvas& canvas) { sheets::drawWork (canvas, sheet); } });
        if (! file.replaceWithData (pages.data(), pages.size()))
            return plugin::cannotWrite (file);
        return {};
    }
    catch (const std::exception& error) // modal::InputError, or a drawing that fails
    {
        return juce::String::fromUTF8 (error.what());
    }
}

} // namespace editor
