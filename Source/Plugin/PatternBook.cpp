#include "PatternBook.h"

#include "Files/EmbeddedFiles.h"

#include <algorithm>

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

std::optional<std::size_t> findPattern (const std::string& text, int stepsPerBeat)
{
    const auto& book = patternBook();
    const auto found = std::find_if (book.begin(), book.end(),
                                     [&] (const Pattern& p) { return p.text == text && p.stepsPerBeat == stepsPerBeat; });
    return found == book.end() ? std::nullopt : std::optional (static_cast<std::size_t> (found - book.begin()));
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
