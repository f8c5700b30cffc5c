#include "Spool.h"

#include "Modal/InputError.h"

namespace tool
{

namespace
{
[[noreturn]] void failFor (const char* what)
{
    throw modal::InputError::fault ("the folder for temporary files", what, "room for the recording");
}
} // namespace

Spool::Spool (int channelCount) : channels (channelCount), file (std::tmpfile())
{
    if (file == nullptr)
        failFor ("cannot be written");
}

void Spool::append (const float* const* data, int frames)
{
    for (int c = 0; c < channels; ++c)
        if (std::fwrite (data[c], sizeof (float), static_cast<std::size_t> (frames), file.get()) != static_cast<std::size_t> (frames))
            failFor ("is full");

    blocks.push_back (frames);
}

void Spool::replay (const std::function<void (const float* const*, int)>& use)
{
    std::rewind (file.get());
    std::vector<std::vector<float>> data (static_cast<std::size_t> (channels));

    for (const int frames : blocks)
    {
        std::vector<const float*> pointers;

        for (auto& channel : data)
        {
            channel.resize (static_cast<std::size_t> (frames));
            if (std::fread (channel.data(), sizeof (float), channel.size(), file.get()) != channel.size())
                failFor ("cannot be read");
            pointers.push_back (channel.data());
        }

        use (pointers.data(), frames);
    }
}

} // namespace tool
