#include "RenderOptions.h"

#include "OptionText.h"

#include "Modal/InputError.h"

#include <cmath>

namespace tool
{

using namespace files;

namespace
{
constexpr double shortestForLoudness = 0.4; // s, one block of ITU-R BS.1770

/** In the order of Pickup. */
const std::vector<std::string> microphoneWords{ "above", "below", "distant" };

/** In the order of Pickup from listener on. */
const std::vector<std::string> listenerWords{ "stereo", "mono" };

/** In the order of Detail. */
const std::vector<std::string> detailWords{ "live", "fine" };

/** In the order of SampleFormat. */
const std::vector<std::string> bitWords{ "16", "24", "32f" };

/** Which side of the drum a microphone's name puts it on. */
enum class Where
{
    above,
    below,
    anywhere
};

/** "120mm:0mm:80mm": along the wires, across them, and up, from the centre of the batter head. */
void readPlace (const Arguments& arguments, const char* option, Where where, const modal::DrumSpec& drum,
                engine::Microphone& microphone)
{
    constexpr Limits limits{ -15.0, 15.0 };
    const auto text = arguments.value (option);

    if (! text)
        return;

    const auto field = std::string ("--") + option;
    const auto first = text->find (':'), second = text->find (':', first + 1);

    if (first == std::string::npos || second == std::string::npos)
        throw modal::InputError (field, '"' + *text + '"', "along the wires, across and up with colons between: 120mm:0mm:80mm");

    microphone.x = readQuantity (text->substr (0, first), Quantity::length, limits, field + ", along");
    microphone.y = readQuantity (text->substr (first + 1, second - first - 1), Quantity::length, limits, field + ", across");
    microphone.z = readQuantity (text->substr (second + 1), Quantity::length, limits, field + ", up");
    engine::check (microphone, 0.5 * drum.diameter, drum.depth, field);

    const auto millimetres = [] (double metres) { return modal::asText (1.0e3 * metres, 4) + " mm"; };

    if (where == Where::above && microphone.z <= 0.0)
        throw modal::InputError (field + ", up", millimetres (microphone.z), "above the batter head, that is more than 0 mm");

    if (where == Where::below && microphone.z >= -drum.depth)
        throw modal::InputError (field + ", up", millimetres (microphone.z),
                                 "below the drum, that is less than " + millimetres (-drum.depth));
}

Pickup readPickup (const Arguments& arguments)
{
    if (arguments.has ("each") && arguments.has ("microphone"))
        throw modal::InputError::fault ("--microphone", "is given beside --each", "one of the two");

    if (arguments.has ("each"))
        return Pickup::each;

    auto pickup = Pickup::stereo;
    overrideChoice (arguments, "microphone", microphoneWords, pickup);
    return pickup;
}
} // namespace

const OptionGroup& renderOptions()
{
    static const OptionGroup group{
        "The recording:",
        { { "output", "FILE.wav", "or - for standard output" },
          { "microphone", "above|below|distant", "one microphone; if not given, a stereo mix of all three" },
          { "listener", "stereo|mono",
            "with a place, unless --microphone or --each is given: what its listener hears, with a coincident pair of\ncardioids 120 "
            "degrees apart or with one omnidirectional microphone" },
          { "each", "", "a file for each microphone: FILE-above.wav, FILE-below.wav, FILE-distant.wav" },
          { "above-at", "100mm:60mm:80mm",
            "microphone position from the centre of the batter head: along the wires towards lug 1,\nacross them (positive: a "
            "quarter turn clockwise seen from above), and up;\n"
            "20 mm or more from heads and shell" },
          { "below-at", "-80mm:50mm:-240mm", "" },
          { "distant-at", "1.2m:0.9m:1.1m", "" },
          { "detail", "live|fine",
            "live: as the plugin plays; fine: more modes, strands and contacts, brighter wires,\nabout ten times slower" },
          { "length", "3s", "10 ms to 600 s; if not given, 3 s after the last stroke" },
          { "rate", "48000", "sample rate, Hz, 22050 to 192000" },
          { "bits", "24", "16, 24 or 32f (floating point)" },
          { "full-scale", "200Pa",
            "sound pressure at full scale, so that levels of files compare;\nif not given, the peak is at -3 dB" },
          { "loudness", "-23LUFS",
            "loudness of each file (ITU-R BS.1770), -60 to -5 LUFS; if one would clip, all are lowered equally" },
          { "one-file", "ALL.wav", "also all tunings in one file, one after the other with a second of silence between" },
          { "every-tuning", "", "a file for each tuning of the drum file" },
          { "progress", "", "show progress even if standard error is not a terminal" } }
    };
    return group;
}

RenderSettings inPlace (RenderSettings settings, const Arguments& arguments)
{
    if (arguments.has ("microphone") || arguments.has ("each"))
        return settings;

    const auto channels = readWord (arguments, "listener", listenerWords);
    settings.pickup = channels == 1u ? Pickup::listenerMono : Pickup::listener;
    return settings;
}

RenderSettings readRenderSettings (const Arguments& arguments)
{
    static const Quantity sampleRate{ "sampling rate", { { "khz", "kHz", 1000.0 }, { "hz", "Hz", 1.0 } }, true };

    static const Quantity lufs{ "loudness", { { "lufs", "LUFS", 1.0 } } };

    RenderSettings s;
    s.pickup = readPickup (arguments);
    s.sampleRate = std::round (readNumber (arguments, "rate", sampleRate, { 22050.0, 192000.0 }, s.sampleRate));
    overrideChoice (arguments, "detail", detailWords, s.detail);
    overrideChoice (arguments, "bits", bitWords, s.format);
    s.showsProgress = arguments.has ("progress");

    if (arguments.has ("length"))
        s.seconds = readNumber (arguments, "length", Quantity::time, { 0.01, 600.0 }, 0.0);
    if (arguments.has ("full-scale"))
        s.fullScale = readNumber (arguments, "full-scale", Quantity::soundPressure, { 0.1, 1.0e5 }, 0.0);
    if (arguments.has ("loudness"))
        s.loudness = readNumber (arguments, "loudness", lufs, { -60.0, -5.0 }, 0.0);

    for (const auto* other : { "full-scale", "each" })
        if (s.loudness && arguments.has (other))
            throw modal::InputError::fault ("--loudness", "is given beside --" + std::string (other), "one of the two");

    if (s.loudness && s.seconds.value_or (1.0) < shortestForLoudness)
        throw modal::InputError ("--length", modal::asText (*s.seconds, 4) + " s", "at least 0.4 s with --loudness");

    return s;
}

std::vector<engine::Microphone> readMicrophones (const Arguments& arguments, const TunedDrum& tuned)
{
    const auto& drum = tuned.drum;
    auto microphones = engine::defaultMicrophones (drum.depth);

    for (std::size_t i = 0; tuned.microphones && i < microphones.size(); ++i)
    {
        const auto& spec = (*tuned.microphones)[i];
        microphones[i].x = spec.x;
        microphones[i].y = spec.y;
        microphones[i].z = spec.z;
        microphones[i].invertsPolarity = spec.isInverted;
        engine::check (microphones[i], 0.5 * drum.diameter, drum.depth, "microphones." + microphones[i].name);
    }

    readPlace (arguments, "above-at", Where::above, drum, microphones[0]);
    readPlace (arguments, "below-at", Where::below, drum, microphones[1]);
    readPlace (arguments, "distant-at", Where::anywhere, drum, microphones[2]);
    return microphones;
}

StereoParts mixOf (const TunedDrum& tuned)
{
    constexpr double silent = -60.0; // dB
    StereoParts parts{};

    for (std::size_t i = 0; i < parts.size(); ++i)
    {
        const auto channel = tuned.microphones ? score::MixChannel{ (*tuned.microphones)[i].level, (*tuned.microphones)[i].pan }
                                               : score::usualMix[i];
        parts[i] = channel.level > silent ? score::sideGains (channel) : score::SideGains{ 0.0, 0.0 };
    }

    return parts;
}

} // namespace tool
