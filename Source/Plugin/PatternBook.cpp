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

namespace
{
std::vector<std::string> allOf (std::string Pattern::*member)
{
    std::vector<std::string> names;
    for (const auto& pattern : patternBook())
        names.push_back (pattern.*member);
    return names;
}
} // namespace

std::vector<std::string> patternNames()
{
    return allOf (&Pattern::name);
}

std::vector<std::string> formerPatternNames()
{
    return allOf (&Pattern::formerName);
}

} // namespace plugin
