#include "RunProgram.h"

#include <chrono>
#include <csignal>
#include <fcntl.h>
#include <fstream>
#include <sstream>
#include <stdexcept>
#include <sys/wait.h>
#include <thread>
#include <unistd.h>

namespace
{

/** In the child: output and errors go to files, which unlike pipes never fill up. */
[[noreturn]] void becomeProgram (const std::vector<std::string>& arguments, const std::filesystem::path& folder,
                                 const std::filesystem::path& output, const std::filesystem::path& errors)
{
    std::vector<char*> words{ const_cast<char*> (SNAREWRIGHT_PROGRAM) };

    for (const auto& argument : arguments)
        words.push_back (const_cast<char*> (argument.c_str()));

    words.push_back (nullptr);

    const auto redirect = [] (const std::filesystem::path& path, int to)
    { return dup2 (open (path.c_str(), O_WRONLY | O_CREAT | O_TRUNC, 0600), to) >= 0; };

    if (redirect (output, STDOUT_FILENO) && redirect (errors, STDERR_FILENO) && chdir (folder.c_str()) == 0)
        execv (SNAREWRIGHT_PROGRAM, words.data());

    _exit (127);
}

template <class WhileRunning>
ProgramRun run (const std::vector<std::string>& arguments, const std::filesystem::path& folder, WhileRunning whileRunning)
{
    const TemporaryFolder results;
    const auto output = results.path() / "output", errors = results.path() / "errors";
    const auto child = fork();

    if (child == 0)
        becomeProgram (arguments, folder, output, errors);
    if (child < 0)
        throw std::runtime_error ("cannot start the program");

    whileRunning (child);

    int status = 0;
    waitpid (child, &status, 0);
    return { WIFEXITED (status) ? WEXITSTATUS (status) : 128 + WTERMSIG (status), readBytes (output), readBytes (errors) };
}

} // namespace

ProgramRun runProgram (const std::vector<std::string>& arguments, const std::filesystem::path& folder)
{
    return run (arguments, folder, [] (pid_t) {});
}

ProgramRun interruptProgram (const std::vector<std::string>& arguments, const std::filesystem::path& folder, int signal,
                             const std::function<bool()>& isReady)
{
    return run (arguments, folder,
                [&] (pid_t child)
                {
                    const auto hasEnded = [child]
                    {
                        siginfo_t state{};
                        return waitid (P_PID, static_cast<id_t> (child), &state, WEXITED | WNOHANG | WNOWAIT) != 0 ||
                               state.si_pid == child;
                    };

                    while (! isReady() && ! hasEnded())
                        std::this_thread::sleep_for (std::chrono::milliseconds (5));

                    kill (child, signal);
                });
}

TemporaryFolder::TemporaryFolder()
{
    auto pattern = (std::filesystem::temp_directory_path() / "snarewright-test-XXXXXX").string();

    if (mkdtemp (pattern.data()) == nullptr)
        throw std::runtime_error ("cannot make a temporary folder");

    folder = pattern;
}

TemporaryFolder::~TemporaryFolder()
{
    std::error_code ignored;
    std::filesystem::remove_all (folder, ignored);
}

void TemporaryFolder::write (const std::string& name, const std::string& bytes) const
{
    std::ofstream (folder / name, std::ios::binary) << bytes;
}

int TemporaryFolder::count() const
{
    int entries = 0;

    for ([[maybe_unused]] const auto& entry : std::filesystem::directory_iterator (folder))
        ++entries;

    return entries;
}

std::string readBytes (const std::filesystem::path& path)
{
    std::ostringstream bytes;
    bytes << std::ifstream (path, std::ios::binary).rdbuf();
    return bytes.str();
}
