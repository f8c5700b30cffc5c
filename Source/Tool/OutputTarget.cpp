#include "OutputTarget.h"

#include "Files/DrumWords.h"
#include "Files/NearestWord.h"
#include "Files/Presets.h"
#include "Files/TextFile.h"
#include "Modal/InputError.h"
#include "Sheets/Canvas.h"

#include <algorithm>
#include <filesystem>

namespace tool
{

using modal::InputError;

namespace
{
bool isDrum (const std::string& presetOrPath)
{
    std::error_code error;

    if (files::findDrumPreset (presetOrPath) != nullptr)
        return true;

    if (! std::filesystem::is_regular_file (presetOrPath, error))
        return false;

    const auto size = std::filesystem::file_size (presetOrPath, error);
    return ! error && size > 0 && size <= files::largestTextFile &&
           files::loadText (presetOrPath).find (files::drumFormat) != std::string::npos;
}

/** Pipes and devices may have any name. */
bool isDevice (const std::string& path)
{
    std::error_code error;
    const auto status = std::filesystem::status (path, error);
    return std::filesystem::exists (status) && ! std::filesystem::is_regular_file (status) &&
           ! std::filesystem::is_directory (status);
}
} // namespace

std::optional<std::string> outputTarget (const Arguments& arguments, const std::string& option,
                                         const std::vector<std::string>& endings)
{
    const auto given = arguments.value (option);

    if (! given || given->empty())
        return given ? std::optional<std::string> ("-") : std::nullopt;

    if (isDrum (*given))
        throw InputError ("--" + option, '"' + *given + "\" (a drum)", "a file to write; put the drum before the options");

    const auto ends = [&] (const std::string& ending) { return sheets::endsIn (*given, ending); };

    if (! endings.empty() && *given != "-" && ! isDevice (*given) && std::none_of (endings.begin(), endings.end(), ends))
        throw InputError ("--" + option, '"' + *given + '"', "a file name that ends in " + files::listed (endings));

    return given;
}

} // namespace tool
