#pragma once

namespace tool
{

/** A progress bar on standard error. On a terminal it redraws itself; elsewhere, if wanted, it prints a line for every 10 %. */
class Progress
{
public:
    /** @param isWanted   show it even if standard error is not a terminal */
    explicit Progress (bool isWanted);
    ~Progress();
    Progress (const Progress&) = delete;
    Progress& operator= (const Progress&) = delete;

    /** `share` 0 to 1. */
    void show (double share);

private:
    bool isTerminal, isShown;
    int lastShown = -1; ///< percent
};

} // namespace tool
