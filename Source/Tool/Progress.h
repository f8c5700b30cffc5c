#pragma once

namespace tool
{

/** A bar on standard error while something takes its time. On a terminal it is drawn over itself; elsewhere, if it is wanted at
    all, it is a line for every tenth. */
class Progress
{
public:
    /** @param isWanted   show it even where standard error is no terminal */
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
