#include "Progress.h"

#include <algorithm>
#include <cstdio>
#include <string>

#ifdef _WIN32
#include <io.h>
#else
#include <unistd.h>
#endif

namespace tool
{

namespace
{
bool standardErrorIsTerminal()
{
#ifdef _WIN32
    return _isatty (_fileno (stderr)) != 0;
#else
    return isatty (STDERR_FILENO) != 0;
#endif
}

std::string barOf (int percent)
{
    constexpr int width = 40;
    const auto full = static_cast<std::size_t> (percent * width / 100);
    return "[" + std::string (full, '#') + std::string (width - full, '.') + "] " + std::to_string (percent) + " %";
}
} // namespace

Progress::Progress (bool isWanted) : isTerminal (standardErrorIsTerminal()), isShown (isTerminal || isWanted) {}

Progress::~Progress()
{
    // Clears the bar.
    if (isTerminal && lastShown >= 0)
        std::fputs ("\r\033[K", stderr);
}

void Progress::show (double share)
{
    const int step = isTerminal ? 1 : 10;
    const int percent = std::clamp (static_cast<int> (100.0 * share), 0, 100) / step * step;

    if (! isShown || percent == lastShown)
        return;

    lastShown = percent;
    const auto bar = isTerminal ? "\r" + barOf (percent) : barOf (percent) + "\n";
    std::fputs (bar.c_str(), stderr);
}

} // namespace tool
