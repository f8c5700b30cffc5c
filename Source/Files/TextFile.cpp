#include "TextFile.h"

#include "Modal/InputError.h"

#include <fstream>

namespace files
{

std::string loadText (const std::filesystem::path& path)
{
    const auto fail = [&] (const std::string& found, const std::string& allowed)
    { throw modal::InputError::fault ("file \"" + path.string() + '"', found, allowed); };

    std::error_code error;
    const auto status = std::filesystem::status (path, error);

    if (! std::filesystem::exists (status))
        fail ("does not exist", "an existing file");

    if (std::filesystem::is_directory (status))
        fail ("is a folder", "a file");

    std::ifstream stream (path, std::ios::binary);

    if (! stream)
        fail ("cannot be opened", "a file that may be read");

    // Reads one byte more than allowed instead of asking for the size: a pipe has none.
    std::string text (largestTextFile + 1, '\0');
    stream.read (text.data(), static_cast<std::streamsize> (text.size()));
    text.resize (static_cast<std::size_t> (stream.gcount()));

    if (stream.bad())
        fail ("cannot be read", "a file that may be read");

    if (text.size() > largestTextFile)
        fail ("has more than 1 MB", "at most 1 MB");

    if (text.empty())
        fail ("is empty", "a file that holds something");

    return text;
}

} // namespace files
