#pragma once

#include "Files/EmbeddedFiles.h"
#include "Files/Json.h"

#include <span>
#include <string>

namespace sheets
{

/** What the pages of a lesson have in common. They work from a folder, without a network. */

/** Text for HTML: &, <, > and " as entities. */
std::string escaped (const std::string& words);

/** JSON for inside a script element: no "<", which could end it. */
std::string inScript (const files::Json&);

/** From the document's beginning to <body>. The content security policy allows nothing but files beside the page. */
std::string pageHead (const std::string& title);

/** Cautions, and the switch for letter keys with what they do. */
std::string pageFoot (const std::string& letterKeys);

/** Ends the document; `scripts` are file names. */
std::string pageEnd (std::initializer_list<const char*> scripts);

/** Style and scripts, to be written beside the pages. */
struct PageFile
{
    const char* name;
    std::string_view text;
};
std::span<const PageFile> pageFiles();

/** Style and scripts as built into the program, by name without ending. */
std::span<const files::EmbeddedFile> embeddedPageFiles();

/** The page on which the drum plays in a browser (Source/Web), as built into the program; empty if that was not built before. */
std::string_view browserPage();

/** To be read before the sound is turned on. */
inline constexpr const char* listeningCaution = "Start at low volume: a drum's attack is far louder than its average.";

} // namespace sheets
