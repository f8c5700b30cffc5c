#include "WebPage.h"

#include "Reports/Cautions.h"

#include <algorithm>
#include <array>

namespace sheets
{
namespace
{

/** The text of a file that is built into the program, or nothing. */
std::string_view textOf (std::string_view name)
{
    const auto all = embeddedPageFiles();
    const auto found = std::find_if (all.begin(), all.end(), [&] (const auto& file) { return file.name == name; });
    return found == all.end() ? std::string_view() : found->text;
}

} // namespace

std::string escaped (const std::string& words)
{
    std::string text;

    for (const char c : words)
    {
        if (c == '&')
            text += "&amp;";
        else if (c == '<')
            text += "&lt;";
        else if (c == '>')
            text += "&gt;";
        else if (c == '"')
            text += "&quot;";
        else
            text += c;
    }

    return text;
}

std::string inScript (const files::Json& json)
{
    std::string text;

    for (const char c : json.dump (-1, ' ', false, files::Json::error_handler_t::replace))
        c == '<' ? text += "\\u003c" : text += c;

    return text;
}

std::string pageHead (const std::string& title)
{
    // A page opened from a folder has the scheme file:; one on a server is its own origin.
    return R"(<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; script-src 'self' file:; style-src 'self' file:; img-src 'self' file:; media-src 'self' file:; base-uri 'none'; form-action 'none'">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>)" + escaped (title) +
           R"(</title>
<link rel="stylesheet" href="page.css">
</head>
<body>
)";
}

std::string pageFoot (const std::string& letterKeys)
{
    std::string text = "<footer>\n<p class=\"screen\"><label><input type=\"checkbox\" id=\"letters\" checked> Letter keys: " +
                       escaped (letterKeys) + "</label></p>\n<h2>Cautions</h2>\n<ul>\n";

    for (const auto& caution : reports::usualCautions())
        text += "<li>" + escaped (caution) + "</li>\n";

    return text + "<li>" + listeningCaution + "</li>\n</ul>\n</footer>\n";
}

std::string pageEnd (std::initializer_list<const char*> scripts)
{
    std::string text;

    for (const char* script : scripts)
        text += std::string ("<script src=\"") + script + "\"></script>\n";

    return text + "</body>\n</html>\n";
}

std::string_view browserPage()
{
    return textOf ("browser-page");
}

std::span<const PageFile> pageFiles()
{
    static const std::array<PageFile, 4> list{ { { "page.css", textOf ("page") },
                                                 { "sounds.js", textOf ("sounds") },
                                                 { "lesson.js", textOf ("lesson") },
                                                 { "exercise.js", textOf ("exercise") } } };
    return list;
}

} // namespace sheets
