#pragma once

#include <cstdio>
#include <functional>
#include <memory>
#include <vector>

namespace tool
{

/** Keeps a take in a temporary file until its peak, and so its scale, is known. */
class Spool
{
public:
    /** @throws modal::InputError if there is no room for temporary files */
    explicit Spool (int channelCount);

    void append (const float* const* channels, int frames);

    /** Calls `use (channels, frames)` for each block that was appended, in order. */
    void replay (const std::function<void (const float* const*, int)>& use);

private:
    struct Closer
    {
        void operator() (std::FILE* f) const noexcept { std::fclose (f); }
    };

    int channels;
    std::unique_ptr<std::FILE, Closer> file;
    std::vector<int> blocks; ///< frames of each
};

} // namespace tool
