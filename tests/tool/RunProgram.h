#pragma once

#include <filesystem>
#include <functional>
#include <string>
#include <vector>

/** What a run of the program left. */
struct ProgramRun
{
    int status = -1;    ///< its exit status, or 128 + the signal that killed it
    std::string output; ///< standard output
    std::string errors; ///< standard error
};

/** Runs `snarewright` with these arguments in `folder` and waits for it. */
ProgramRun runProgram (const std::vector<std::string>& arguments, const std::filesystem::path& folder = ".");

/** Starts it, waits until `isReady` (asked every few milliseconds) or the program has ended, sends the signal, and waits for the
    end. */
ProgramRun interruptProgram (const std::vector<std::string>& arguments, const std::filesystem::path& folder, int signal,
                             const std::function<bool()>& isReady);

/** A folder that is there as long as this object. */
class TemporaryFolder
{
public:
    TemporaryFolder();
    ~TemporaryFolder();
    TemporaryFolder (const TemporaryFolder&) = delete;
    TemporaryFolder& operator= (const TemporaryFolder&) = delete;

    const std::filesystem::path& path() const { return folder; }

    /** Writes a file into it. */
    void write (const std::string& name, const std::string& bytes) const;

    /** How many entries it has. */
    int count() const;

private:
    std::filesystem::path folder;
};

/** All bytes of a file. */
std::string readBytes (const std::filesystem::path&);
