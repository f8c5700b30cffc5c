#include "Song.h"

#include "Modal/InputError.h"
#include "Modal/NumberText.h"
#include "Modal/pitch/Interval.h"
#include "Score/PatternText.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

namespace finding
{

namespace
{

constexpr const char* noSource = "common practice, no source";
constexpr double besideTone = 15.0;              // cents a drum note may stand beside a tone and still sound in key
constexpr int lowestTone = 38, highestTone = 76; // MIDI notes, D2 to E5: drum notes of snare drums lie within
constexpr std::array<const char*, 12> pitchClasses{ "C", "C#", "D", "D#", "E", "F", "F#", "G", "G#", "A", "A#", "B" };

const std::vector<int>& tonesOf (const Key& key, KeyTones tones)
{
    static const std::vector<int> tonic{ 0 }, majorChord{ 0, 4, 7 }, minorChord{ 0, 3, 7 }, major{ 0, 2, 4, 5, 7, 9, 11 },
        minor{ 0, 2, 3, 5, 7, 8, 10 };

    switch (tones)
    {
    case KeyTones::tonic:
        return tonic;
    case KeyTones::chord:
        return key.isMinor ? minorChord : majorChord;
    case KeyTones::scale:
        break;
    }

    return key.isMinor ? minor : major;
}

Span around (double hertz)
{
    return { atSteps (Figure::drumNote, hertz, -besideTone), atSteps (Figure::drumNote, hertz, besideTone) };
}

/** Every octave of some pitch classes as a range of the drum note. */
std::vector<Span> onPitchClasses (const std::vector<double>& classes, modal::ConcertPitch pitch)
{
    std::vector<Span> spans;

    for (double octave = 0.0; octave <= 120.0; octave += 12.0)
        for (const double tone : classes)
            if (const double midi = octave + tone; midi >= lowestTone && midi <= highestTone)
                spans.push_back (around (pitch.a4 * std::exp2 ((midi - 69.0) / 12.0)));

    std::sort (spans.begin(), spans.end(), [] (Span a, Span b) { return a.low < b.low; });
    return spans;
}

Wish keyWish (const Key& key, KeyTones tones, modal::ConcertPitch pitch)
{
    std::vector<double> classes;
    std::string names;

    for (const int tone : tonesOf (key, tones))
    {
        classes.push_back ((key.tonic + tone) % 12);
        names += (names.empty() ? "" : ", ") + std::string (pitchClasses[static_cast<std::size_t> ((key.tonic + tone) % 12)]);
    }

    return { Figure::drumNote, onPitchClasses (classes, pitch), "drum note on " + names,
             "a tone of " + key.name() + "; " + noSource };
}

Wish bassWish (double bassNote, double overBass, modal::ConcertPitch pitch)
{
    const double midi = modal::midiOfHertz (bassNote, pitch) + overBass;
    return { Figure::drumNote, onPitchClasses ({ midi - 12.0 * std::floor (midi / 12.0) }, pitch),
             "drum note " + modal::Interval{ overBass }.longName() + " from the bass, in any octave",
             "bass on " + textOf (Figure::drumNote, bassNote, pitch) + "; " + noSource };
}

Wish ringWish (double tempo, double value)
{
    modal::requireInRange (tempo, score::tempoRange, "tempo");
    modal::requireInRange (value, { 1.0 / 64.0, 4.0, "of a whole note" }, "note value");
    const double seconds = 4.0 * value * 60.0 / tempo;
    const auto name = value <= 1.0 ? "1/" + modal::asText (1.0 / value, 3) : modal::asText (value, 3) + "/1";
    auto wish = wishFor (Figure::ring, { -std::numeric_limits<double>::infinity(), seconds }, {});
    wish.reason = "shorter than a " + name + " note at " + modal::asText (tempo, 4) + " beats per minute; " + noSource;
    return wish;
}

Wish handWish (const Hand& hand)
{
    auto wish = wishFor (Figure::softestStroke, { -std::numeric_limits<double>::infinity(), hand.softest }, {});
    wish.reason = "the wires answer the player's softest stroke; " + std::string (noSource);
    return wish;
}

} // namespace

void check (const Hand& hand)
{
    constexpr double softest = 0.01, hardest = 10.0; // m/s
    modal::requireInRange (hand.softest, { softest, hardest, "m/s" }, "softest stroke");
    modal::requireInRange (hand.usual, { hand.softest, hardest, "m/s" }, "usual stroke");
    modal::requireInRange (hand.loudest, { hand.usual, hardest, "m/s" }, "loudest stroke");
    modal::requireInRange (hand.place, { 0.0, 0.98, "of the radius" }, "place of the stroke");
}

Key Key::parse (const std::string& text, const std::string& field)
{
    constexpr std::array<int, 7> semitoneOfLetter{ 9, 11, 0, 2, 4, 5, 7 }; // A to G
    const auto refuse = [&] { return modal::InputError (field, '"' + text + '"', "a key such as D, Bb major, F# minor or Dm"); };
    std::string compact;

    for (const char c : text)
        if (c != ' ' && c != '\t')
            compact += c;

    if (compact.empty())
        throw refuse();

    const char letter = static_cast<char> (compact[0] >= 'a' && compact[0] <= 'z' ? compact[0] - 'a' + 'A' : compact[0]);

    if (letter < 'A' || letter > 'G')
        throw refuse();

    Key key{ semitoneOfLetter[static_cast<std::size_t> (letter - 'A')], false };
    std::size_t used = 1;

    if (used < compact.size() && (compact[used] == '#' || compact[used] == 'b'))
        key.tonic = (key.tonic + (compact[used++] == '#' ? 1 : 11)) % 12;

    const auto mode = compact.substr (used);

    if (mode == "m" || mode == "min" || mode == "minor")
        key.isMinor = true;
    else if (! (mode.empty() || mode == "maj" || mode == "major"))
        throw refuse();

    return key;
}

std::string Key::name() const
{
    return std::string (pitchClasses[static_cast<std::size_t> (tonic)]) + (isMinor ? " minor" : " major");
}

bool givesWay (const Wish& ofSong, Figure stated)
{
    return stated == ofSong.figure || (stated == Figure::lasts && ofSong.figure == Figure::ring);
}

double readNoteValue (const std::string& text, const std::string& field)
{
    std::string_view rest = text;
    const auto over = modal::takeNumber (rest);
    std::optional<double> under = 1.0;

    if (over && ! rest.empty() && rest.front() == '/')
    {
        rest.remove_prefix (1);
        under = modal::takeNumber (rest);
    }

    if (! over || ! under || ! rest.empty() || ! (*over / *under >= 1.0 / 64.0 && *over / *under <= 4.0))
        throw modal::InputError (field, '"' + text + '"', "a note value such as 1/4, 1/8 or 3/16, from 1/64 to 4");

    return *over / *under;
}

std::vector<Wish> wishesFor (const Song& song)
{
    std::vector<Wish> wishes;

    if (song.bassNote)
        wishes.push_back (bassWish (*song.bassNote, song.overBass, song.concertPitch));
    else if (song.key)
        wishes.push_back (keyWish (*song.key, song.tones, song.concertPitch));

    if (song.tempo)
        wishes.push_back (ringWish (*song.tempo, song.ringValue));

    if (song.hand)
    {
        check (*song.hand);
        wishes.push_back (handWish (*song.hand));
    }

    return wishes;
}

void addSong (std::vector<Wish>& wishes, const Song& song, const std::function<bool (Figure)>& isStated)
{
    auto ofSong = wishesFor (song);
    std::erase_if (ofSong,
                   [&] (const Wish& wish)
                   {
                       return std::any_of (figures().begin(), figures().end(), [&] (const FigureInfo& info)
                                           { return isStated (info.figure) && givesWay (wish, info.figure); });
                   });
    wishes.insert (wishes.end(), ofSong.begin(), ofSong.end());
}

} // namespace finding
