#include "OutputFile.h"

#include <algorithm>
#include <atomic>
#include <cerrno>
#include <csignal>
#include <cstdio>
#include <cstdlib>
#include <cstring>
#include <fstream>
#include <iostream>
#include <iterator>
#include <random>

namespace tool
{
namespace
{
constexpr int statusWhenInterrupted = 130;

/** A temporary file to delete if the program is interrupted. The signal handler may only use these; the flag is set while
   the path is complete. */
struct TemporaryFile
{
    char path[4096];
    std::atomic<bool> mustRemove{ false };
    bool isTaken = false; ///< not used by the handler
};

TemporaryFile temporaryFiles[mostOpenFiles];

void onSignal (int)
{
    for (auto& file : temporaryFiles)
        if (file.mustRemove)
            std::remove (file.path);

    std::_Exit (statusWhenInterrupted);
}

std::size_t firstFreeSlot()
{
    const auto* free = std::find_if (std::begin (temporaryFiles), std::end (temporaryFiles),
                                     [] (const TemporaryFile& d) { return ! d.isTaken; });

    if (free == std::end (temporaryFiles))
        throw std::logic_error ("too many output files are open");

    return static_cast<std::size_t> (free - std::begin (temporaryFiles));
}

void removeOnSignal (const std::filesystem::path& path, std::size_t slot)
{
    const auto text = path.string();

    if (text.size() >= sizeof (temporaryFiles[slot].path))
        throw OutputError ("cannot write " + text + ": the path is too long");

    std::memcpy (temporaryFiles[slot].path, text.c_str(), text.size() + 1);
    temporaryFiles[slot].mustRemove = true;
}

[[noreturn]] void fail (const std::filesystem::path& path, const std::string& why)
{
    throw OutputError ("cannot write " + path.string() + ": " + why);
}

/** Creates an empty file of a name that nothing else has. */
std::filesystem::path createTemporary (const std::filesystem::path& folder, const std::string& name, std::size_t slot)
{
    std::random_device random;
    std::string why;

    for (int attempt = 0; attempt < 10; ++attempt)
    {
        const auto path = folder / ("." + name + "." + std::to_string (random()) + ".part");
        removeOnSignal (path, slot);

        if (auto* file = std::fopen (path.string().c_str(), "wbx"))
        {
            std::fclose (file);
            return path;
        }

        why = std::strerror (errno);
        temporaryFiles[slot].mustRemove = false;
    }

    fail (folder / name, why);
}

void copyTo (std::ostream& out, const std::filesystem::path& from, const std::filesystem::path& target)
{
    std::ifstream in (from, std::ios::binary);
    out << in.rdbuf() << std::flush;

    if (! in || ! out)
        fail (target, "the data did not get through");
}
} // namespace

void installSignalHandlers()
{
    std::signal (SIGINT, onSignal);
    std::signal (SIGTERM, onSignal);
}

OutputFile::OutputFile (const std::string& targetName) : target (targetName), slot (firstFreeSlot())
{
    namespace fs = std::filesystem;
    std::error_code error;
    const auto status = fs::status (target, error);

    if (fs::is_directory (status))
        fail (target, "it is a folder");

    isStream = targetName == "-" || (fs::exists (status) && ! fs::is_regular_file (status));

    // A link stays a link: what it points to is replaced.
    if (! isStream && fs::exists (status))
        target = fs::canonical (target);

    const auto folder = isStream ? fs::temp_directory_path() : target.has_parent_path() ? target.parent_path() : fs::path (".");
    temporary = createTemporary (folder, isStream ? "snarewright" : target.filename().string(), slot);
    temporaryFiles[slot].isTaken = true; // now that nothing can throw and leave it taken
}

OutputFile::~OutputFile()
{
    if (temporaryFiles[slot].mustRemove)
    {
        std::error_code ignored;
        std::filesystem::remove (temporary, ignored);
        temporaryFiles[slot].mustRemove = false;
    }

    temporaryFiles[slot].isTaken = false;
}

void OutputFile::commit()
{
    if (isStream && target == "-")
    {
        copyTo (std::cout, temporary, "standard output");
        return;
    }

    if (isStream)
    {
        std::ofstream out (target, std::ios::binary);
        copyTo (out, temporary, target);
        return;
    }

    std::error_code error;
    std::filesystem::rename (temporary, target, error);

    if (error)
        fail (target, error.message());

    temporaryFiles[slot].mustRemove = false;
}

void writeText (const std::string& target, std::string_view text)
{
    if (target == "-")
    {
        std::cout << text << std::flush;

        if (! std::cout)
            fail ("standard output", "the data did not get through");

        return;
    }

    OutputFile file (target);
    std::ofstream stream (file.temporaryPath(), std::ios::binary);
    stream << text;
    stream.close();

    if (! stream)
        fail (target, "the disk may be full");

    file.commit();
}

} // namespace tool
