#include "Command.h"
#include "ListenPicture.h"
#include "Results.h"
#include "TextTable.h"

#include "Files/Json.h"
#include "Fitting/Lines.h"
#include "Listening/Nature.h"
#include "Listening/Partials.h"
#include "Listening/SharedNote.h"
#include "Modal/InputError.h"
#include "Modal/pitch/Note.h"
#include "SoundFiles/AudioFile.h"
#include "Wording/TapText.h"

#include <algorithm>
#include <cmath>

namespace tool
{

using files::Json;

namespace
{
constexpr std::size_t partialsShown = 6, partialsDrawn = 20;
constexpr double early = 0.03; // s after the blow: the stroke itself is over, and modes that fade soon still ring

HeardFile listenTo (const std::string& path)
{
    HeardFile heard{ path, soundfiles::loadRecording (path, "recording"), {}, {} };
    heard.taps = listening::findTaps (heard.recording);
    const auto quiet = listening::quietestMoment (heard.recording);

    for (const auto& tap : heard.taps)
        heard.partials.push_back (listening::partialsOf (heard.recording, tap, quiet));

    return heard;
}

/** The loudest partials soon after the blow, in order of frequency. Their uncertainty is no measure of loudness: two partials
   close together are both uncertain, however loud they are. */
std::vector<fitting::Partial> loudest (std::vector<fitting::Partial> partials, std::size_t most)
{
    std::sort (partials.begin(), partials.end(), [] (const auto& a, const auto& b) { return a.level (early) > b.level (early); });
    partials.resize (std::min (partials.size(), most));
    std::sort (partials.begin(), partials.end(), [] (const auto& a, const auto& b) { return a.frequency < b.frequency; });
    return partials;
}

/** The note that all taps of a lug check share, and its frequency in each tap, Hz, 0 where it is not heard. */
struct NoteByTap
{
    listening::SharedNote note;
    std::vector<double> byTap{}; ///< empty if the taps share none
};

NoteByTap sharedNote (const HeardFile& heard)
{
    constexpr std::size_t fewestTaps = 3;
    constexpr double unevenness = 50.0; // cents, either way

    if (heard.taps.size() < fewestTaps)
        return {};

    NoteByTap shared{ listening::sharedNote (fitting::commonLines (heard.partials)) };

    if (shared.note.kind == listening::SharedNote::Kind::none)
        return {};

    for (const auto& partials : heard.partials)
    {
        double sum = 0.0, level = 0.0;

        for (const auto& partial : partials)
            if (std::abs (modal::centsBetween (shared.note.frequency, partial.frequency)) < unevenness)
            {
                sum += partial.level() * partial.frequency;
                level += partial.level();
            }

        shared.byTap.push_back (level > 0.0 ? sum / level : 0.0);
    }

    return shared;
}

std::string textOf (const NoteByTap& shared)
{
    const auto& notes = shared.byTap;

    if (notes.empty())
        return {};

    double logarithms = 0.0, count = 0.0;

    for (const double note : notes)
        if (note > 0.0)
        {
            logarithms += std::log (note);
            count += 1.0;
        }

    const double mean = std::exp (logarithms / count);
    TextTable table ({ Column::right, Column::left, Column::right, Column::right });
    table.add ({ "TAP", "NOTE", "HZ", "CENTS FROM MEAN" });

    for (std::size_t i = 0; i < notes.size(); ++i)
        if (notes[i] > 0.0)
            table.add ({ std::to_string (i + 1), modal::Note::fromFrequency (notes[i]).nameWithCents(),
                         modal::fixedText (notes[i], 1), modal::signedText (modal::centsBetween (mean, notes[i]), 1) });
        else
            table.add ({ std::to_string (i + 1), "not heard" });

    return wording::text (shared.note) + "\n" + table.written() + "The loudest partials of each tap:\n";
}

/** A synthetic recording may have no noise at all. */
std::string overNoise (const listening::Tap& tap)
{
    constexpr double quieterThanAnyRoom = 120.0; // dB
    return tap.signalToNoise > quieterThanAnyRoom ? "no noise" : modal::fixedText (tap.signalToNoise, 0) + " dB";
}

/** How far a partial falls to rest, in cents; empty if it is steady. */
std::string glideText (const fitting::Partial& partial)
{
    return std::abs (partial.rise) <= 2.0 * partial.riseError
               ? std::string()
               : modal::fixedText (1200.0 * std::log2 (1.0 + partial.rise), 0) + " cents";
}

std::string textOf (const HeardFile& heard, listening::Nature nature, const NoteByTap& shared)
{
    auto text = heard.name + ": " + std::to_string (heard.taps.size()) + (heard.taps.size() == 1 ? " tap\n" : " taps\n");
    TextTable table ({ Column::right, Column::right, Column::right, Column::left, Column::right, Column::right, Column::right });
    table.add ({ "TAP", "AT", "OVER NOISE", "NOTE", "HZ", "RING", "GLIDE" });
    std::string remarks;

    for (std::size_t i = 0; i < heard.taps.size(); ++i)
    {
        const auto& tap = heard.taps[i];
        bool isFirst = true;

        for (const auto& partial : loudest (heard.partials[i], partialsShown))
        {
            table.add ({ isFirst ? std::to_string (i + 1) : "", isFirst ? modal::fixedText (tap.start, 2) + " s" : "",
                         isFirst ? overNoise (tap) : "", modal::Note::fromFrequency (partial.frequency).nameWithCents(),
                         modal::fixedText (partial.frequency, 1), modal::fixedText (partial.t60(), 2) + " s",
                         glideText (partial) });
            isFirst = false;
        }

        if (isFirst)
            table.add ({ std::to_string (i + 1), modal::fixedText (tap.start, 2) + " s", overNoise (tap), "no partial found" });

        for (const auto trouble : tap.troubles)
            remarks += "Tap " + std::to_string (i + 1) + ": " + wording::text (trouble) + ".\n";
    }

    text += nature == listening::Nature::drum ? textOf (shared) : wording::text (nature) + "\n";
    return text + (heard.taps.empty() ? "" : table.written()) + remarks;
}

Json jsonOf (const HeardFile& heard, listening::Nature nature, const NoteByTap& shared)
{
    Json taps = Json::array();
    const auto& notes = shared.byTap;

    for (std::size_t i = 0; i < heard.taps.size(); ++i)
    {
        const auto& tap = heard.taps[i];
        Json partials = Json::array(), troubles = Json::array();

        for (const auto& p : heard.partials[i])
            partials.push_back (Json{ { "frequency_hz", p.frequency },
                                      { "frequency_error_hz", p.frequencyError },
                                      { "decay_per_s", p.decay },
                                      { "decay_error_per_s", p.decayError },
                                      { "t60_s", p.t60() },
                                      { "rise", p.rise },
                                      { "rise_error", p.riseError },
                                      { "rise_decay_per_s", p.riseDecay },
                                      { "amplitude", std::abs (p.amplitude) },
                                      { "note", modal::Note::fromFrequency (p.frequency).nameWithCents() } });

        for (const auto trouble : tap.troubles)
            troubles.emplace_back (wording::text (trouble));

        taps.push_back (Json{ { "start_s", tap.start },
                              { "shared_note_hz", notes.empty() || notes[i] <= 0.0 ? Json() : Json (notes[i]) },
                              { "end_s", tap.end },
                              { "over_noise_db", tap.signalToNoise },
                              { "is_usable", ! tap.isUnusable() },
                              { "troubles", troubles },
                              { "partials", partials } });
    }

    return Json{ { "file", heard.name },
                 { "remark", wording::text (nature) },
                 { "shared_note", Json{ { "kind", std::string (listening::nameOf (shared.note.kind)) },
                                        { "frequency_hz", shared.note.frequency > 0.0 ? Json (shared.note.frequency) : Json() },
                                        { "other_hz", shared.note.other > 0.0 ? Json (shared.note.other) : Json() } } },
                 { "taps", taps } };
}

void runListen (const std::vector<std::string>& words, const Command& command)
{
    const auto arguments = command.read (words);

    if (arguments.freeWords().empty())
        throw modal::InputError::fault ("recording", "is missing", "a WAV, AIFF, FLAC or MP3 file");

    Json all = Json::array();
    std::string text;

    std::vector<HeardFile> files;

    for (const auto& path : arguments.freeWords())
    {
        auto heard = listenTo (path);
        const auto nature = listening::natureOf (heard.recording, heard.taps, heard.partials);
        const auto shared = sharedNote (heard);
        all.push_back (jsonOf (heard, nature, shared));
        text += textOf (heard, nature, shared);

        for (auto& partials : heard.partials)
            partials = loudest (partials, partialsDrawn);

        files.push_back (std::move (heard));
    }

    writeListenPicture (arguments, files);

    writeJsonAndText (arguments, Json{ { "recordings", all } }, text);
}
} // namespace

const Command& listenCommand()
{
    static const Command command{
        "listen",
        "Finds taps in recordings and lists the partials that ring",
        "FILE... [--json [FILE]] [--picture FILE]",
        "Reads WAV, AIFF, FLAC and MP3 files. To record a lug check: hold the other head still with a cloth, throw the wires "
        "off, keep the microphone\n"
        "10 cm above the place you tap (turn the drum, not the microphone), tap 25 mm from the edge beside each lug, clockwise "
        "seen from\n"
        "above, lug 1 first, and wait one second after each tap. \"snarewright fit\" measures the head's tension from it.\n"
        "A snare drum at playing distance harms hearing within minutes: wear ear protection, and tap lightly.\n",
        { { "Output:",
            { { "json", "FILE",
                "all partials as JSON to a file, besides the text; without a file, or with -, to standard\noutput instead",
                true },
              { "picture", "FILE.png",
                "a spectrogram of each tap with its partials, their notes and rings; or a .svg or .pdf" } } } },
        false,
        runListen
    };
    return command;
}

} // namespace tool
