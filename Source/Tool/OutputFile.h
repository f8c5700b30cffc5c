#pragma once

#include <filesystem>
#include <stdexcept>
#include <string>
#include <string_view>

namespace tool
{

/** Something could not be written: the program ends with status 1. */
class OutputError : public std::runtime_error
{
public:
    using std::runtime_error::runtime_error;
};

/** How many output files may be open at a time. */
inline constexpr std::size_t mostOpenFiles = 40;

/** An output file, written completely or not at all: first under a temporary name beside its target, then renamed.

    While any is open, SIGINT and SIGTERM remove the temporary files and end the program with status 130. At most mostOpenFiles
   may be open at a time. The target "-" is standard output; a device or a pipe is written to rather than replaced.
*/
class OutputFile
{
public:
    explicit OutputFile (const std::string& target);
    ~OutputFile();
    OutputFile (const OutputFile&) = delete;
    OutputFile& operator= (const OutputFile&) = delete;

    /** Where to write until commit(). */
    const std::filesystem::path& temporaryPath() const noexcept { return temporary; }

    /** Puts the file in its place. Throws OutputError. */
    void commit();

private:
    std::filesystem::path target, temporary;
    std::size_t slot;
    bool isStream = false;
};

/** Writes a whole text to a file, or to standard output for "-". Throws OutputError. */
void writeText (const std::string& target, std::string_view text);

/** Makes SIGINT and SIGTERM end the program as described above. Call once, first. */
void installSignalHandlers();

} // namespace tool
