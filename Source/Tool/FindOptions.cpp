#include "FindOptions.h"

#include "DrumOptions.h"
#include "HardwareOptions.h"
#include "OptionText.h"
#include "PlaceOptions.h"
#include "TunedDrum.h"
#include "TuningOptions.h"

#include "Files/Presets.h"
#include "Files/TuningRequest.h"
#include "Modal/InputError.h"
#include "Reports/Label.h"

#include <algorithm>

namespace tool
{

using namespace finding;

namespace
{

const std::vector<std::string> toneWords{ "tonic", "chord", "scale" };

OptionGroup wishOptions()
{
    OptionGroup group{ "Wishes, each a range least:most; either end may be left out, \"any\" drops a wish of the song:", {} };

    for (const auto& info : figures())
    {
        const char* example = "";

        switch (info.kind)
        {
        case FigureInfo::Kind::note:
            example = "D3:E3";
            break;
        case FigureInfo::Kind::semitones:
            example = info.figure == Figure::interval ? "P4:P5" : "stays|-4:4";
            break;
        case FigureInfo::Kind::share:
            example = ":60";
            break;
        case FigureInfo::Kind::decibels:
            example = "6:";
            break;
        case FigureInfo::Kind::time:
            example = info.figure == Figure::contactTime ? ":5ms" : info.figure == Figure::lasts ? ":1beat" : ":0.6s";
            break;
        case FigureInfo::Kind::frequency:
            example = ":1200Hz";
            break;
        case FigureInfo::Kind::speed:
            example = ":0.2m/s";
            break;
        case FigureInfo::Kind::distance:
            example = "15m:";
            break;
        }

        group.options.push_back ({ info.option, example, std::string (info.meaning) + (info.isPlayed ? " (played)" : "") });
    }

    return group;
}

OptionGroup songOptions()
{
    return {
        "The song (how it becomes wishes is common practice, no source):",
        { { "key", "\"D minor\"", "the drum note on a tone of the key" },
          { "key-tones", "tonic|chord|scale", "which tones; the chord (first, third, fifth) if not given", false, { "key" } },
          { "bass", "D2", "or the drum note at an interval from the bass note, in any octave" },
          { "bass-interval", "P5", "that interval; an octave if not given", false, { "bass" } },
          { "tempo", "120", "beats per minute, 20 to 400: the ring ends within a note value, unless\n--lasts says how long" },
          { "ring-value", "1/8", "that note value; 1/8 if not given", false, { "tempo" } } }
    };
}

OptionGroup playerOptions()
{
    return { "The player:",
             { { "hand", "0.3,3,6",
                 "softest, usual and loudest stroke, m/s: the wires answer the softest; played figures are those of the usual" },
               { "position", "0.25", "strike point: share of the radius from the centre, 0 to 0.98" } } };
}

OptionGroup presentOptions()
{
    return { "The tuning now, from which the moves count; the drum's first tuning if not given:",
             { { "tuning", "NAME|NUMBER", "a tuning of the drum file" },
               { "now-batter", "F3", "or the batter's tap note" },
               { "now-resonant", "C4", "and the resonant head's" },
               { "concert-pitch", "440", "A4" } } };
}

/** Every option of a group that was given, as words. */
void appendGiven (std::vector<std::string>& words, const Arguments& arguments, const OptionGroup& group)
{
    for (const auto& option : group.options)
        if (arguments.has (option.name))
        {
            words.push_back ("--" + std::string (option.name));

            if (const auto value = arguments.value (option.name); value && ! value->empty())
                words.push_back (*value);
        }
}

std::optional<modal::Tuning> presentTuning (const Arguments& arguments, const files::DrumFile& file, modal::ConcertPitch pitch)
{
    const auto batter = arguments.value ("now-batter"), resonant = arguments.value ("now-resonant");

    if (batter.has_value() != resonant.has_value())
        throw modal::InputError::fault (batter ? "--now-resonant" : "--now-batter", "is missing",
                                        "the tap notes of both heads, or of none");

    if (batter)
    {
        modal::Tuning tuning;
        tuning.target = modal::ByTapNotes{ files::readNote (*batter, pitch, "--now-batter"),
                                           files::readNote (*resonant, pitch, "--now-resonant") };
        return tuning;
    }

    if (const auto wanted = arguments.value ("tuning"))
        return findTuning (file.tunings, *wanted, "--tuning");

    return file.tunings.empty() ? std::nullopt : std::optional (file.tunings.front());
}

Hand readHand (const Arguments& arguments)
{
    Hand hand;

    if (const auto text = arguments.value ("hand"))
    {
        const auto parts = splitAt (*text, ',');

        if (parts.size() != 3)
            throw modal::InputError ("--hand", '"' + *text + '"', "three speeds in m/s: softest, usual, loudest, as 0.3,3,6");

        const auto& speed = files::Quantity::speed;
        constexpr files::Limits speeds{ 0.01, 10.0 };
        hand.softest = files::readQuantity (parts[0], speed, speeds, "--hand, softest");
        hand.usual = files::readQuantity (parts[1], speed, speeds, "--hand, usual");
        hand.loudest = files::readQuantity (parts[2], speed, speeds, "--hand, loudest");
    }

    hand.place = readNumber (arguments, "position", files::Quantity::pureNumber, { 0.0, 0.98 }, hand.place);
    check (hand);
    return hand;
}

Song readSong (const Arguments& arguments, modal::ConcertPitch pitch, const Hand& hand)
{
    Song song;
    song.concertPitch = pitch;

    if (const auto text = arguments.value ("key"))
        song.key = Key::parse (*text, "--key");

    overrideChoice (arguments, "key-tones", toneWords, song.tones);

    if (const auto text = arguments.value ("bass"))
        song.bassNote = files::readNote (*text, pitch, "--bass");

    if (const auto text = arguments.value ("bass-interval"))
        song.overBass = modal::Interval::parse (*text, "--bass-interval").semitones;

    if (arguments.has ("tempo"))
        song.tempo = readTempo (arguments, 0.0);

    if (const auto text = arguments.value ("ring-value"))
        song.ringValue = readNoteValue (*text, "--ring-value");

    if (arguments.has ("hand"))
        song.hand = hand;

    return song;
}

/** The wishes that were stated, and those of the song about other figures. */
std::vector<Wish> readWishes (const Arguments& arguments, modal::ConcertPitch pitch, const Song& song)
{
    std::vector<Wish> wishes;

    for (const auto& info : figures())
        if (const auto text = arguments.value (info.option); text && *text != "any")
            wishes.push_back (readWish (info.figure, *text, pitch, "--" + std::string (info.option), song.tempo));

    addSong (wishes, song, [&] (Figure figure) { return arguments.has (infoOf (figure).option); });
    return wishes;
}

} // namespace

std::vector<OptionGroup> findOptions()
{
    return { wishOptions(), songOptions(), playerOptions(), presentOptions(), placeOptions() };
}

FindRequest readFindRequest (const Arguments& arguments)
{
    arguments.requireAtMost (1, "drum, a file or a preset");
    FindRequest request;
    const auto source = arguments.freeWords().empty() ? arguments.value ("drum") : std::optional (arguments.freeWords().front());
    const auto pitchAsked = concertPitchAsked (arguments);
    const auto file = source ? files::openDrum (*source, pitchAsked) : files::DrumFile();
    request.drum = chooseDrum (arguments);
    request.label = request.drum.name.empty() ? reports::sizeText (request.drum) : request.drum.name;
    request.playing.fittings = { file.wires, file.hoop, file.stick };
    overrideFittings (arguments, request.playing.fittings);
    request.playing.place = file.place;
    overridePlace (arguments, request.playing.place);
    appendGiven (request.placeWords, arguments, placeOptions());

    if (! request.drum.hasResonantHead())
        throw modal::InputError ("drum", "one without a resonant head",
                                 "a drum with two heads: the search goes over the notes of both");

    if (source)
        request.drumWords.push_back (*source);

    for (const auto& group : { drumOptions(), hardwareOptions() })
        for (const auto& option : group.options)
            if (std::string (option.name) != "drum")
                appendGiven (request.drumWords, arguments, { "", { option } });

    request.presentTuning = presentTuning (arguments, file, pitchAsked.value_or (modal::ConcertPitch{}));
    request.concertPitch =
        pitchAsked.value_or (request.presentTuning ? request.presentTuning->concertPitch : modal::ConcertPitch{});
    request.playing.hand = readHand (arguments);
    request.wishes =
        readWishes (arguments, request.concertPitch, readSong (arguments, request.concertPitch, request.playing.hand));

    for (const auto& wish : request.wishes)
        if (const auto& info = infoOf (wish.figure); info.isInPlace && ! request.playing.place)
            throw modal::InputError::fault ("--" + std::string (info.option), "needs a place to be heard in",
                                            "--place");

    // A wish about a head's stress says how far the search may go; beyond yield no tension is known.
    constexpr double taut = 0.999;

    for (const auto& wish : request.wishes)
        if (wish.figure == Figure::batterStrength)
            request.batterStrength = std::min (taut, wish.ranges.back().high);
        else if (wish.figure == Figure::resonantStrength)
            request.resonantStrength = std::min (taut, wish.ranges.back().high);

    if (request.wishes.empty())
        throw modal::InputError::fault ("wishes", "are missing",
                                        "at least one, such as --drum-note D3:E3 or --key \"D minor\"; see find --help");

    return request;
}

} // namespace tool
