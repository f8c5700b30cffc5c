#include "PlayLikeOption.h"

#include "HeardFiles.h"
#include "OutputFile.h"
#include "OutputTarget.h"
#include "Progress.h"
#include "Results.h"
#include "TextTable.h"
#include "TunedDrum.h"
#include "WavFile.h"

#include "Modal/InputError.h"
#include "Modal/NumberText.h"
#include "PlayLike/PlayLike.h"
#include "PlayLike/SideBySide.h"
#include "Reports/LikenessJson.h"
#include "SoundFiles/AudioFile.h"
#include "Wording/FitText.h"
#include "Wording/LikenessText.h"

#include <algorithm>

namespace tool
{

using namespace modal;

namespace
{

constexpr double shortestStrike = 0.4; // s, for its loudness and its fall

struct RecordedStrike
{
    listening::Recording recording;
    listening::Tap tap;
    double quiet = 0.0;
};

/** The loudest strike that is long enough, wires on or off. */
RecordedStrike loudestStrike (const std::string& path)
{
    RecordedStrike strike{ soundfiles::loadRecording (path, "--play-like"), {}, 0.0 };
    strike.quiet = listening::quietestMoment (strike.recording);
    auto taps = listening::findTaps (strike.recording);
    std::erase_if (taps, [] (const auto& tap) { return tap.end - tap.lastBlow < shortestStrike; });

    if (taps.empty())
        throw InputError::fault ("--play-like, \"" + path + "\",", "has no strike that rings for 0.4 s",
                                 "a strike of the finished drum, left to ring");

    strike.tap = *std::max_element (taps.begin(), taps.end(), [] (const auto& a, const auto& b) { return a.peak < b.peak; });
    return strike;
}

/** From the strikes with the wires off, if there are any, and else as the drum is tuned. */
Tensions tensionsOf (const Arguments& arguments, const fitting::DrumFitSetup& setup, const TunedDrum& tuned)
{
    const auto strikes = arguments.value ("strikes");

    if (! strikes)
        return tensionsFor (tuned.drum, tuned.tuning);

    const auto heard = hearStrikes (*strikes, "--strikes");
    const auto fit = fitting::fitDrum (setup, listening::linesOf (heard.strikes), static_cast<int> (heard.strikes.size()));

    if (! fit.isPossible || fit.answers.empty())
        throw InputError::fault ("--strikes", "do not tell the drum's tuning", wording::mostSevereText (fit.findings));

    return { fit.answers.front().batter.tension.value, fit.answers.front().resonant.tension.value };
}

std::string textOf (const playlike::Likeness& likeness)
{
    std::string text;

    for (const auto& sentence : wording::sentences (likeness))
        text += sentence + "\n";

    const auto ring = [] (const playlike::OctaveFall& fall)
    { return fall.t60 ? fixedText (*fall.t60, 2) + " s" : std::string ("-"); };
    TextTable table ({ Column::right, Column::right, Column::right });
    table.add ({ "OCTAVE FROM", "RING, RECORDED", "MODEL" });

    for (std::size_t i = 0; i < playlike::octaves.size(); ++i)
        table.add ({ fixedText (playlike::octaves[i], 0) + " Hz", ring (likeness.recorded[i]), ring (likeness.played[i]) });

    return text + table.written();
}

} // namespace

OptionGroup playLikeOptions()
{
    return { "Play like a recording:",
             { { "play-like", "FILE",
                 "a strike, wires on or off: sets the model's muffling and wires so that it fades the same way; tuned\n"
                 "as --strikes finds, or as the drum is tuned" },
               { "output", "FILE.wav", "the strike, a pause and the model's stroke, equally loud", false, { "play-like" } },
               { "save-drum", "FILE.json", "the drum with these settings, as a drum file", false, { "play-like" } } } };
}

void playLike (const Arguments& arguments, const fitting::DrumFitSetup& setup)
{
    const auto sound = outputTarget (arguments, "output", { ".wav" }), file = outputTarget (arguments, "save-drum", { ".json" });
    const auto strike = loudestStrike (*arguments.value ("play-like"));
    const auto tuned = chooseOne (arguments);
    Progress progress (false);
    const auto likeness =
        playlike::likenessOf ({ tuned.drum, tensionsOf (arguments, setup, tuned), tuned.fittings, arguments.has ("strikes") },
                              strike.recording, strike.tap, strike.quiet,
                              [&] (double share)
                              {
                                  progress.show (share);
                                  return true;
                              });

    if (sound)
    {
        const auto both = playlike::sideBySide (strike.recording, strike.tap.start, strike.tap.end, likeness.sound);
        writeMono (*sound, { both.samples.begin(), both.samples.end() }, both.sampleRate);
    }


    if (file)
        writeText (*file, files::writeDrum (reports::drumFileOf (likeness)));

    writeJsonAndText (arguments, reports::likenessJson (likeness), textOf (likeness));
}

} // namespace tool
