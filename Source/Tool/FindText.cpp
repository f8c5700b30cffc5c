#include "FindText.h"

#include "TextTable.h"

#include "Modal/NumberText.h"

#include <algorithm>
#include <cmath>

namespace tool
{

using namespace finding;

namespace
{

std::string noteOf (double hertz, modal::ConcertPitch pitch)
{
    return modal::Note::fromFrequency (hertz, pitch).nameWithCents();
}

/** A word as a shell takes it. */
std::string quoted (const std::string& word)
{
    return word.find_first_of (" \t#&;()'\"$*?|<>") == std::string::npos ? word : '"' + word + '"';
}

std::string joined (const std::vector<std::string>& words)
{
    std::string text;

    for (const auto& word : words)
        text += " " + quoted (word);

    return text;
}

std::string wishText (const std::vector<Wish>& wishes)
{
    TextTable table ({ Column::right, Column::left, Column::left });

    for (std::size_t w = 0; w < wishes.size(); ++w)
        table.add ({ std::to_string (w + 1), wishes[w].text, wishes[w].reason });

    return "  WISHES\n" + table.written();
}

std::string headText (const std::string& name, double hertz, const Figures& figures, Figure move, Figure strength,
                      modal::ConcertPitch pitch)
{
    const double semitones = of (figures, move);
    return name + " " + noteOf (hertz, pitch) + (std::isnan (semitones) ? "" : " (" + moveText (semitones) + ")") + ", " +
           textOf (strength, of (figures, strength), pitch) + " of yield strength";
}

std::string tuningText (const FindRequest& request, const FoundTuning& tuning, std::size_t number)
{
    const auto pitch = request.concertPitch;
    const auto text = [&] (Figure figure) { return textOf (figure, of (tuning.figures, figure), pitch); };
    std::string lines = "  " + std::to_string (number) + "  " + tuning.kind + "\n";
    const auto line = [&] (const std::string& words) { lines += "     " + words + "\n"; };
    line (headText ("batter", tuning.batterNote, tuning.figures, Figure::batterMove, Figure::batterStrength, pitch));
    line (headText ("resonant", tuning.resonantNote, tuning.figures, Figure::resonantMove, Figure::resonantStrength, pitch));
    line ("drum note " + text (Figure::drumNote) + " (" + modal::fixedText (of (tuning.figures, Figure::drumNote), 1) +
          " Hz), interval " + text (Figure::interval) + ", ring " + text (Figure::ring) + " wires off");

    if (! std::isnan (of (tuning.figures, Figure::lasts)))
        line ("drum note at the listener " + text (Figure::lasts));

    std::string played;

    for (const auto& info : figures())
        if (info.isPlayed && ! std::isnan (of (tuning.figures, info.figure)))
            played += (played.empty() ? "" : ", ") + std::string (info.name) + " " + text (info.figure);

    if (! played.empty())
        line (played);

    std::string meets;

    for (std::size_t w = 0; w < request.wishes.size(); ++w)
    {
        const auto& wish = request.wishes[w];

        if (tuning.misses[w] == 0.0)
        {
            meets += (meets.empty() ? "" : ", ") + std::to_string (w + 1);
            continue;
        }

        const double value = of (tuning.figures, wish.figure);
        line ("misses " + std::to_string (w + 1) + ": " + infoOf (wish.figure).name + " " + text (wish.figure) +
              (std::isnan (value) ? "" : ", " + missText (wish.figure, value, nearestAllowed (wish, value))));
    }

    line (meets.empty() ? "meets no wish" : "meets " + meets);
    return lines;
}

std::string goOnText (const FindRequest& request, const FoundTuning& tuning, const std::optional<Present>& present)
{
    auto text = "  NEXT, with tuning 1 (for another, put in its notes)\n"
                "    snarewright predict" +
                joined (heardWordsFor (request, tuning)) + "\n    snarewright render" + joined (heardWordsFor (request, tuning)) +
                " --output hear.wav\n";

    if (present)
        text += "    snarewright plan" + joined (planWordsFor (request, tuning, *present)) + "\n    snarewright sheet" +
                joined (planWordsFor (request, tuning, *present)) + " --output sheet.pdf\n";

    return text;
}

/** What nine of ten tunings between the played ones stay within, for the figures that were wished for. */
std::string errorText (const FindRequest& request, const PlayedMap& played)
{
    std::string text;

    for (const auto& wish : request.wishes)
    {
        const auto& info = infoOf (wish.figure);
        const double error = of (played.errors(), wish.figure);

        if (info.isPlayed && error > 0.0)
            text += (text.empty() ? "" : ", ") + std::string (info.name) +
                    (info.kind == FigureInfo::Kind::decibels
                         ? " " + modal::fixedText (error / 100.0, 1) + " dB"
                         : " " + modal::fixedText (100.0 * (std::exp2 (error / 1200.0) - 1.0), 0) + " %");
    }

    return text.empty() ? text
                        : "\n  The search plays tunings a few semitones apart and interpolates; nine of ten interpolated figures are "
                          "within\n  " +
                              text + ". The figures in the list are played.\n";
}

std::optional<Present> presentOf (const FindResult& result)
{
    if (result.list.empty() || std::isnan (of (result.list.front().figures, Figure::batterMove)))
        return std::nullopt;

    const auto& tuning = result.list.front();
    return Present{ tuning.batterNote * std::exp2 (-of (tuning.figures, Figure::batterMove) / 12.0),
                    tuning.resonantNote * std::exp2 (-of (tuning.figures, Figure::resonantMove) / 12.0) };
}

} // namespace

std::vector<std::string> wordsFor (const FindRequest& request, const FoundTuning& tuning)
{
    auto words = request.drumWords;
    words.insert (words.end(), { "--batter-note", noteOf (tuning.batterNote, request.concertPitch), "--resonant-note",
                                 noteOf (tuning.resonantNote, request.concertPitch) });

    if (request.concertPitch.a4 != modal::ConcertPitch{}.a4)
        words.insert (words.end(), { "--concert-pitch", modal::asText (request.concertPitch.a4) });

    return words;
}

std::vector<std::string> heardWordsFor (const FindRequest& request, const FoundTuning& tuning)
{
    auto words = wordsFor (request, tuning);
    words.insert (words.end(), request.placeWords.begin(), request.placeWords.end());
    return words;
}

std::vector<std::string> planWordsFor (const FindRequest& request, const FoundTuning& tuning, const Present& present)
{
    auto words = wordsFor (request, tuning);
    words.insert (words.end(), { "--now-batter", noteOf (present.batterNote, request.concertPitch), "--now-resonant",
                                 noteOf (present.resonantNote, request.concertPitch) });
    return words;
}

std::string findText (const FindRequest& request, const FindResult& result, const PlayedMap* played)
{
    auto text = request.label + "\n\n" + wishText (request.wishes) + "\n";

    if (result.areAllMet)
        text += std::string ("  ") + (result.list.size() == 1 ? "One kind of tuning meets" : "Tunings that meet") +
                " every wish:\n\n";
    else
        for (const auto& sentence : explain (result, request.wishes, request.concertPitch))
            text += "  " + sentence + "\n";

    if (! result.areAllMet)
        text += result.list.empty() ? "" : "\n  Nearest tunings:\n\n";

    for (std::size_t i = 0; i < result.list.size(); ++i)
        text += tuningText (request, result.list[i], i + 1) + "\n";

    if (! result.list.empty())
        text += goOnText (request, result.list.front(), presentOf (result));

    if (played != nullptr)
        text += errorText (request, *played);

    const auto percent = [] (double share) { return modal::fixedText (100.0 * share, 0) + " %"; };
    return text + "\n  Searched: the batter up to " + percent (request.batterStrength) +
           " of its yield strength, the resonant head up to " + percent (request.resonantStrength) +
           " (half is common practice, no source;\n  --batter-stress and --resonant-stress change it). Keep to the limits of the "
           "makers of heads and drum.\n";
}

} // namespace tool
