#include "PatternBook.h"

#include "Files/EmbeddedFiles.h"

namespace plugin
{

const std::vector<Pattern>& patternBook()
{
    static const auto book = []
    {
        std::vector<Pattern> patterns;
        for (const auto& file : files::embeddedPatterns())
            patterns.push_back (readPattern (std::string (file.text), std::string (file.name)));
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
