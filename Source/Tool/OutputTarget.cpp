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
/** "a drum" for a preset or a drum file, "a file that the program reads" for other documents of its own, and else "". */
std::string documentKind (const std::string& presetOrPath)
{
    const std::string drum = "a drum";
    std::error_code error;

    if (files::findDrumPreset (presetOrPath) != nullptr)
        return drum;

    if (! std::filesystem::is_regular_file (presetOrPath, error))
        return {};

    const auto size = std::filesystem::file_size (presetOrPath, error);

    if (error || size == 0 || size > files::largestTextFile)
        return {};

    constexpr std::string_view anyFormat = "\"snarewright-";
    const auto text = files::loadText (presetOrPath);
    return text.find (files::drumFormat) != std::string::npos ? drum
           : text.find (anyFormat) != std::string::npos       ? "a file that the program reads"
                                                              : "";
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

    if (const auto kind = documentKind (*given); ! kind.empty())
        throw InputError ("--" + option, '"' + *given + "\" (" + kind + ")", "a file to write; put the drum before the options");

    const auto ends = [&] (const std::string& ending) { return sheets::endsIn (*given, ending); };

    if (! endings.empty() && *given != "-" && ! isDevice (*given) && std::none_of (endings.begin(), endings.end(), ends))
        throw InputError ("--" + option, '"' + *given + '"', "a file name that ends in " + files::listed (endings));

    return given;
}

} // namespace tool
