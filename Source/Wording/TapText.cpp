#include "TapText.h"

#include "FitText.h"

#include "Modal/NumberText.h"
#include "Modal/pitch/Note.h"

#include <cmath>

namespace wording
{

std::string text (listening::Trouble trouble)
{
    switch (trouble)
    {
    case listening::Trouble::noisy:
        return "hardly above the noise: record closer to the lug, or in a quieter room";
    case listening::Trouble::doubleHit:
        return "hit twice: lift the stick at once";
    case listening::Trouble::wiresOn:
        return "wires rattle: throw the strainer off and tap again";
    case listening::Trouble::clipped:
        return "too loud for the recorder: turn its level down";
    case listening::Trouble::notQuiet:
        return "something sounded just before: keep other drums quiet, and wait until the last tap has died away";
    case listening::Trouble::cutShort:
        return "cut short: leave half a second after each tap";
    }

    return {};
}

std::string remarks (const std::vector<listening::Trouble>& troubles, const std::string& name, bool isUsed)
{
    std::string lines;

    for (const auto trouble : troubles)
        lines += name + ": " + text (trouble) + ".\n";

    return isUsed ? lines : lines + name + " is left out.\n";
}

std::string remarks (const listening::RecordedLugCheck& check)
{
    std::string lines;

    for (const auto& tap : check.troubled)
        lines += remarks (tap.troubles, "Tap " + std::to_string (tap.number), tap.isUsed);

    return lines;
}

std::string text (const listening::SharedNote& note)
{
    using Kind = listening::SharedNote::Kind;
    const auto named = [] (double hertz)
    { return modal::Note::fromFrequency (hertz).nameWithCents() + "  " + modal::fixedText (hertz, 1) + " Hz"; };
    const std::string tapAgain = " Tap 25 mm from the edge, the microphone over that place and the other head held still.";

    switch (note.kind)
    {
    case Kind::none:
        return {};
    case Kind::tapNote:
        return "Tap note, if the other head was held still: " + named (note.frequency) + ".";
    case Kind::lowest:
        return "Lowest loud note of all taps: " + named (note.frequency) +
               ". It rings on as if both heads rang: then it is the drum note. For the tap note hold the other head still.";
    case Kind::either:
        return "Tap note: " + named (note.frequency) + ", or " + named (note.other) +
               ". Their ring does not tell which; the tap note rings longer." + tapAgain;
    case Kind::unknown:
        return "Lowest loud note of all taps: " + named (note.frequency) + ". Nothing shows that it is the tap note." + tapAgain;
    }

    return {};
}

std::string text (listening::Nature nature)
{
    using listening::Nature;

    switch (nature)
    {
    case Nature::drum:
        return {};
    case Nature::noStroke:
        return "No strokes: nothing in this recording has the attack of a stroke.";
    case Nature::harmonics:
        return "These are the harmonics of one pitch: a voice or another instrument, not a drum.";
    case Nature::cymbal:
        return "Most of what rings lies above 3.5 kHz: a cymbal, or wires alone. Record the drum by itself, closer to the head.";
    case Nature::kick:
        return "Most of what rings lies below 90 Hz: a kick drum or a large tom, not a snare drum.";
    }

    return {};
}

std::string text (const listening::LiveLugCheck::Remark& remark)
{
    using Kind = listening::LiveLugCheck::Remark::Kind;
    const auto lug = std::to_string (remark.lug + 1);
    const bool isStrike = remark.lug < 0;
    const std::string notUsed = "Not used: ";
    std::string troubles;

    switch (remark.kind)
    {
    case Kind::none:
        return {};
    case Kind::heard:
        return isStrike ? "Strike heard." : "Lug " + lug + " heard.";
    case Kind::deleted:
        return isStrike ? "The last strike is deleted." : "Tap at lug " + lug + " deleted: tap there again.";
    case Kind::troubles:
        for (const auto trouble : remark.troubles)
            troubles += (troubles.empty() ? "" : "; or ") + text (trouble);
        return notUsed + troubles + ".";
    case Kind::noFit:
        return notUsed + "another drum, the other head, or a head unlike the one set up. " + mostSevereText (remark.findings);
    case Kind::farOff:
        return notUsed + "another drum or the other head: " + std::to_string (std::lround (std::abs (remark.cents))) + " cents " +
               (remark.cents > 0.0 ? "above" : "below") + " the other lugs.";
    case Kind::soundLost:
        return "The computer was too busy and missed some sound: tap again.";
    case Kind::failed:
        return "Listening failed: " + remark.error + ".";
    }

    return {};
}

} // namespace wording
