#include "PatternBook.h"

#include <PatternData.h>

#include <map>

namespace plugin
{

const std::vector<Pattern>& patternBook()
{
    static const auto book = []
    {
        std::map<std::string, Pattern> byFile;

        for (int i = 0; i < PatternData::namedResourceListSize; ++i)
        {
            int size = 0;
            const auto* bytes = PatternData::getNamedResource (PatternData::namedResourceList[i], size);
            const std::string file = PatternData::originalFilenames[i];
            byFile[file] = readPattern (std::string (bytes, static_cast<std::size_t> (size)), file);
        }

        std::vector<Pattern> patterns;
        for (auto& [file, pattern] : byFile)
            patterns.push_back (std::move (pattern));
        return patterns;
    }();

    return book;
}

std::vector<std::string> patternNames()
{
    std::vector<std::string> names;
    for (const auto& pattern : patternBook())
        names.push_back (pattern.name);
    return names;
}

} // namespace plugin
