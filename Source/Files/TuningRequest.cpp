#include "TuningRequest.h"

#include "Fields.h"

#include "Modal/InputError.h"

namespace files
{
namespace
{
const char* const waysForTwoHeads =
    "batter note with resonant note or interval; drum note with interval, batter note or resonant note; both tensions";
const char* const waysForOneHead = "one of batter note, drum note, batter tension";

/** The parts that are given, for the message. */
std::string partsOf (const TuningRequest& request)
{
    std::string parts;
    const auto add = [&] (bool isGiven, const char* name)
    {
        if (isGiven)
            parts += (parts.empty() ? "" : " and ") + std::string (name);
    };

    add (request.batterNote.has_value(), "batter note");
    add (request.resonantNote.has_value(), "resonant note");
    add (request.batterTension.has_value(), "batter tension");
    add (request.resonantTension.has_value(), "resonant tension");
    add (request.drumNote.has_value(), "drum note");
    add (request.interval.has_value(), "interval");
    return parts;
}

/** Which parts are given, one bit each, so that a combination is one number to compare. */
unsigned combinationOf (const TuningRequest& request)
{
    return (request.batterNote ? 1u : 0u) | (request.resonantNote ? 2u : 0u) | (request.batterTension ? 4u : 0u) |
           (request.resonantTension ? 8u : 0u) | (request.drumNote ? 16u : 0u) | (request.interval ? 32u : 0u);
}
} // namespace

bool TuningRequest::isEmpty() const noexcept
{
    return combinationOf (*this) == 0;
}

void TuningRequest::overrideWith (const TuningRequest& over)
{
    if (over.drumNote)
        batterNote = resonantNote = batterTension = resonantTension = std::nullopt;

    if (over.batterNote || over.batterTension)
        batterNote = batterTension = drumNote = std::nullopt;

    // The drum note and one head determine the other, so an interval of before no longer holds.
    if (over.drumNote && (over.batterNote || over.batterTension))
        interval = std::nullopt;

    if (over.resonantNote || over.resonantTension || over.interval)
    {
        resonantNote = resonantTension = std::nullopt;
        interval = std::nullopt;
    }

    const auto take = [] (auto& mine, const auto& theirs)
    {
        if (theirs)
            mine = theirs;
    };

    take (batterNote, over.batterNote);
    take (resonantNote, over.resonantNote);
    take (batterTension, over.batterTension);
    take (resonantTension, over.resonantTension);
    take (drumNote, over.drumNote);
    take (interval, over.interval);
}

TuningRequest TuningRequest::from (const modal::Tuning& tuning)
{
    TuningRequest request;

    if (const auto* notes = std::get_if<modal::ByTapNotes> (&tuning.target))
    {
        request.batterNote = notes->batter;

        if (notes->resonant > 0.0)
            request.resonantNote = notes->resonant;
    }
    else if (const auto* tensions = std::get_if<modal::ByTension> (&tuning.target))
    {
        request.batterTension = tensions->batter;

        if (tensions->resonant > 0.0)
            request.resonantTension = tensions->resonant;
    }
    else if (const auto* drum = std::get_if<modal::ByDrumNote> (&tuning.target))
    {
        request.drumNote = drum->drumNote;
        request.interval = drum->interval;
    }
    else if (const auto* withHead = std::get_if<modal::ByDrumNoteAndHead> (&tuning.target))
    {
        request.drumNote = withHead->drumNote;
        (withHead->held == modal::HeadSide::batter ? request.batterNote : request.resonantNote) = withHead->heldNote;
    }

    return request;
}

modal::Tuning assemble (const TuningRequest& request, const modal::DrumSpec& drum, const std::string& field)
{
    modal::Tuning tuning;

    switch (combinationOf (request))
    {
    case 1 | 2:
        tuning.target = modal::ByTapNotes{ *request.batterNote, *request.resonantNote };
        return tuning;
    case 4 | 8:
        tuning.target = modal::ByTension{ *request.batterTension, *request.resonantTension };
        return tuning;
    case 16 | 32:
        tuning.target = modal::ByDrumNote{ *request.drumNote, *request.interval };
        return tuning;

    case 16 | 1:
    case 16 | 2:
        if (! drum.hasResonantHead())
            break;

        tuning.target = request.batterNote
                            ? modal::ByDrumNoteAndHead{ *request.drumNote, modal::HeadSide::batter, *request.batterNote }
                            : modal::ByDrumNoteAndHead{ *request.drumNote, modal::HeadSide::resonant, *request.resonantNote };
        return tuning;

    case 1 | 32:
        tuning.target = modal::ByTapNotes{ *request.batterNote, *request.batterNote * request.interval->ratio() };
        return tuning;

    default:
        break;
    }

    if (! drum.hasResonantHead())
    {
        switch (combinationOf (request))
        {
        case 1:
            tuning.target = modal::ByTapNotes{ *request.batterNote, 0.0 };
            return tuning;
        case 4:
            tuning.target = modal::ByTension{ *request.batterTension, 0.0 };
            return tuning;
        case 16:
            tuning.target = modal::ByDrumNote{ *request.drumNote, {} };
            return tuning;
        default:
            break;
        }
    }

    if (request.isEmpty())
        throw modal::InputError::fault (field, "is missing", drum.hasResonantHead() ? waysForTwoHeads : waysForOneHead);

    if (combinationOf (request) == 16)
        throw modal::InputError::fault (field, "has a drum note alone, which many pairs of heads give",
                                        "the interval too, or the note of the head that stays (batter note or resonant note)");

    throw modal::InputError::fault (field, "has " + partsOf (request), drum.hasResonantHead() ? waysForTwoHeads : waysForOneHead);
}

double readNote (const std::string& text, modal::ConcertPitch pitch, const std::string& field)
{
    const auto noteOf = [&]
    {
        try
        {
            return modal::Note::parse (text, field).frequency (pitch);
        }
        catch (const modal::InputError& e)
        {
            // Note::parse() cannot know that a frequency would do as well.
            throw e.orAllowed ("; or a frequency such as 207.65Hz");
        }
    };
    const auto hertz = takeQuantity (text, Quantity::frequency);
    return inLimits (hertz ? *hertz : noteOf(), Quantity::frequency.si(), limitsOf (modal::noteRange), field);
}

} // namespace files
