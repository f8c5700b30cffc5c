#include "KnownStrike.h"

#include <algorithm>
#include <cstdio>
#include <cstdlib>
#include <string>
#include <vector>

/** Prints what is heard of a known strike, treated as recordings are: listening-benchmark [seeds] [text in a row's name]. */

namespace
{

using synthetic::Handling;

struct Row
{
    const char* name;
    double glide; ///< of what was recorded
    Handling handling;
};

const std::vector<Row>& rows()
{
    static const std::vector<Row> all{
        { "modes alone", 1.0, {} },
        { "without glide", 0.0, {} },
        { "half the glide", 0.5, {} },
        { "glide of 200 cents", 2.3, {} },
        { "click and attack of 10 ms", 1.0, { .click = 0.5 } },
        { "loud click and attack", 1.0, { .click = 2.0 } },
        { "wires, faint", 1.0, { .click = 0.5, .wires = 0.05 } },
        { "wires, loud", 1.0, { .click = 0.5, .wires = 0.3 } },
        { "room, T60 0.5 s, a tenth of the energy", 1.0, { .click = 0.5, .roomShare = 0.1 } },
        { "room, T60 0.5 s, half of the energy", 1.0, { .click = 0.5, .roomShare = 0.5 } },
        { "hum, 30 dB below", 1.0, { .click = 0.5, .hum = 0.03 } },
        { "hum, 20 dB below", 1.0, { .click = 0.5, .hum = 0.1 } },
        { "noise, 40 dB below", 1.0, { .click = 0.5, .noise = 40.0 } },
        { "noise, 25 dB below", 1.0, { .click = 0.5, .noise = 25.0 } },
        { "clipped at 70 % of the peak", 1.0, { .clipAt = 0.7 } },
        { "clipped at 40 % of the peak", 1.0, { .clipAt = 0.4 } },
        { "codec, 20 dB in each band", 1.0, { .click = 0.5, .codec = 20.0 } },
        { "codec, 12 dB in each band", 1.0, { .click = 0.5, .codec = 12.0 } },
        { "telephone's automatic gain", 1.0, { .click = 0.5, .automaticGain = true } },
        { "the same, 16 kHz, codec, room",
          1.0,
          { .click = 0.5, .roomShare = 0.1, .noise = 45.0, .automaticGain = true, .codec = 20.0, .sampleRate = 16000.0 } },
        { "8 kHz", 1.0, { .click = 0.5, .sampleRate = 8000.0 } },
        { "16 kHz", 1.0, { .click = 0.5, .sampleRate = 16000.0 } },
        { "44.1 kHz", 1.0, { .click = 0.5, .sampleRate = 44100.0 } },
        { "96 kHz", 1.0, { .click = 0.5, .sampleRate = 96000.0 } },
        { "a second microphone 0.7 ms later, added", 1.0, { .click = 0.5, .delay = 0.7e-3 } },
    };
    return all;
}

} // namespace

int main (int argc, char** argv)
{
    const int seeds = argc > 1 ? std::max (1, std::atoi (argv[1])) : 2;
    const std::string wanted = argc > 2 ? argv[2] : "";
    std::printf ("| strike | found within 5 cents | or the 95 %% stated | stated error, median, cents | worst found, cents | "
                 "invented | decay within 20 %% | glide told "
                 "|\n|---|---|---|---|---|---|---|---|\n");

    for (const auto& row : rows())
    {
        if (std::string (row.name).find (wanted) == std::string::npos)
            continue;

        const auto modes = synthetic::recordedSnare (row.glide);
        synthetic::HearingScore sum;
        std::string text;

        for (int seed = 1; seed <= seeds; ++seed)
        {
            const auto score =
                synthetic::heardIn (synthetic::recordingOf (modes, row.handling, static_cast<unsigned> (seed)), modes);
            sum.modes += score.modes;
            sum.found += score.found;
            sum.told += score.told;
            sum.errors.insert (sum.errors.end(), score.errors.begin(), score.errors.end());
            sum.invented += score.invented;
            sum.decays += score.decays;
            sum.glides += score.glides;
            sum.worst = std::max (sum.worst, score.worst);
            text += (text.empty() ? "" : ";") + score.text;
        }

        const auto middle = sum.errors.begin() + static_cast<std::ptrdiff_t> (sum.errors.size() / 2);
        std::nth_element (sum.errors.begin(), middle, sum.errors.end());
        std::printf ("| %s | %d of %d | %d | %.2f | %.1f | %d | %d | %d |%s\n", row.name, sum.found, sum.modes, sum.told,
                     sum.errors.empty() ? 0.0 : *middle, sum.worst, sum.invented, sum.decays, sum.glides,
                     argc > 3 ? text.c_str() : "");
        std::fflush (stdout);
    }
}
