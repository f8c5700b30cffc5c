#include "LessonPicture.h"

#include "Modal/NumberText.h"

#include <algorithm>
#include <cmath>
#include <functional>

namespace sheets
{

using namespace modal;

namespace
{

constexpr double labelSize = 14.0, noteSize = 16.0; // points
constexpr double gridGrey = 0.8, octaveGrey = 0.5, beforeGrey = 0.4;
constexpr double left = 50.0, top = 46.0;

// The window's colours on light paper (Editor/Theme.cpp).
constexpr Colour batterColour{ 0.0, 0.408, 0.639 }, resonantColour{ 0.722, 0.29, 0.0 }, drumColour{ 0.0, 0.439, 0.31 };
constexpr Colour distanceColour{ 0.87, 0.91, 0.94 }, areaColour = 0.87;

/** The part of a picture inside its labels. */
struct Frame
{
    double right, bottom;
    explicit Frame (const Canvas& canvas) : right (canvas.width() - 10.0), bottom (canvas.height() - 46.0) {}

    double x (double share) const { return left + share * (right - left); }
    double y (double share) const { return bottom - share * (bottom - top); }
};

std::string noteName (double hertz, const Prediction& p)
{
    return Note::fromFrequency (hertz, p.tuning.concertPitch).nameWithCents();
}

/** The lowest and the highest note of all steps with a semitone of room, MIDI numbers. */
std::pair<int, int> noteRange (const PlayedLesson& played)
{
    int low = 127, high = 0;

    for (const auto& step : played.steps)
        for (const double hertz : { step.prediction.batter.tapNote, step.prediction.resonant.tapNote, step.prediction.drumNote })
            if (hertz > 0.0)
            {
                const int midi = Note::fromFrequency (hertz, step.prediction.tuning.concertPitch).midi;
                low = std::min (low, midi - 1);
                high = std::max (high, midi + 1);
            }

    return { low, high };
}

/** A note as a tag on its rail, as the window draws it; the step before as an empty frame. */
void drawTag (Canvas& canvas, double x, double y, const std::string& note, Colour colour, bool isBefore)
{
    constexpr double width = 78.0, height = 26.0;

    if (isBefore)
        return canvas.box (x - 0.5 * width, y - 0.5 * height, width, height, 1.2, beforeGrey);

    canvas.area (x - 0.5 * width, y - 0.5 * height, width, height, colour);
    canvas.text (x, y + 5.5, note, noteSize, Align::middle, true, 1.0);
}

/** The scale of notes: a line for each, a label where there is room. */
void drawScale (Canvas& canvas, const Frame& frame, int low, int high, const std::function<double (int)>& yOf)
{
    constexpr int mostLabels = 11;
    const int labelStep = (high - low) / mostLabels + 1;

    for (int midi = low; midi <= high; ++midi)
    {
        const double y = yOf (midi);
        canvas.line (left, y, frame.right, y, 0.6, midi % 12 == 0 ? octaveGrey : gridGrey);

        if ((midi - low) % labelStep == 0)
            canvas.text (left - 6.0, y + 5.0, Note{ midi, 0.0 }.name(), labelSize, Align::right);
    }
}

/** The interval as a distance between the rails, with its name beside the drum note's rail. */
void drawInterval (Canvas& canvas, const Prediction& p, double batterX, double resonantX, double batterY, double resonantY)
{
    canvas.area (batterX, std::min (batterY, resonantY), resonantX - batterX, std::abs (batterY - resonantY), distanceColour);
    canvas.line (batterX, batterY, resonantX, batterY, 1.6, batterColour);
    canvas.line (batterX, resonantY, resonantX, resonantY, 1.6, resonantColour);
    canvas.text (0.5 * (batterX + resonantX), top - 26.0, p.interval.longName(), noteSize, Align::middle, true);
}

void drawNotes (Canvas& canvas, const PlayedLesson& played, std::size_t step)
{
    const Frame frame (canvas);
    const auto [low, high] = noteRange (played);
    const auto pitch = played.steps[step].prediction.tuning.concertPitch;
    const auto yOf = [&, lowest = low, highest = high] (double midi) { return frame.y ((midi - lowest) / (highest - lowest)); };
    const auto heightOf = [&] (double hertz) { return yOf (midiOfHertz (hertz, pitch)); };
    const double batterX = frame.x (0.17), resonantX = frame.x (0.5), drumX = frame.x (0.83);
    const auto& now = played.steps[step].prediction;

    drawScale (canvas, frame, low, high, yOf);

    if (now.drum.hasResonantHead())
        drawInterval (canvas, now, batterX, resonantX, heightOf (now.batter.tapNote), heightOf (now.resonant.tapNote));

    const auto drawRail = [&] (double x, const char* name, Colour colour, double (*hertzOf) (const Prediction&))
    {
        if (! (hertzOf (now) > 0.0))
            return;

        canvas.line (x, top, x, frame.bottom, 1.2, colour);
        canvas.text (x, top - 8.0, name, labelSize, Align::middle, true, colour);

        if (step > 0 && hertzOf (played.steps[step - 1].prediction) > 0.0)
            drawTag (canvas, x, heightOf (hertzOf (played.steps[step - 1].prediction)), "", colour, true);

        drawTag (canvas, x, heightOf (hertzOf (now)), noteName (hertzOf (now), now), colour, false);
    };
    drawRail (batterX, "batter", batterColour, [] (const Prediction& p) { return p.batter.tapNote; });
    drawRail (resonantX, "resonant", resonantColour, [] (const Prediction& p) { return p.resonant.tapNote; });
    drawRail (drumX, "drum note", drumColour, [] (const Prediction& p) { return p.drumNote; });
    canvas.text (6.0, canvas.height() - 8.0, step > 0 ? "filled: this step   empty: the step before" : "filled: this step",
                 labelSize);
}

using ShareOf = std::function<double (std::size_t)>; ///< where a level stands from left to right, 0 to 1

/** The area below a curve, to be drawn before anything else. */
void fillBelow (Canvas& canvas, const Frame& frame, const std::vector<double>& levels, double lowest, const ShareOf& shareOf)
{
    for (std::size_t i = 1; i < levels.size() && shareOf (i) <= 1.0; ++i)
    {
        const double x = frame.x (shareOf (i - 1)), y = frame.y (std::max (0.0, 1.0 - levels[i] / lowest));
        canvas.area (x, y, frame.x (shareOf (i)) - x, frame.bottom - y, areaColour);
    }
}

/** Levels as a curve; a level at the floor or below is drawn at the bottom. */
void drawCurve (Canvas& canvas, const Frame& frame, const std::vector<double>& levels, double lowest, const ShareOf& shareOf,
                bool isBefore)
{
    const auto y = [&] (std::size_t i) { return frame.y (std::max (0.0, 1.0 - levels[i] / lowest)); };

    for (std::size_t i = 1; i < levels.size() && shareOf (i) <= 1.0; ++i)
        canvas.line (frame.x (shareOf (i - 1)), y (i - 1), frame.x (shareOf (i)), y (i), isBefore ? 1.2 : 2.4,
                     isBefore ? beforeGrey : 0.0);
}

/** Levels 0 dB at the top and `lowest` at the bottom, and under the frame what the horizontal axis is. */
void drawLevelAxis (Canvas& canvas, const Frame& frame, double lowest, const std::string& axis, std::size_t step)
{
    for (double level = 0.0; level >= lowest; level -= 20.0)
    {
        const double y = frame.y (1.0 - level / lowest);
        canvas.line (left, y, frame.right, y, 0.6, gridGrey);
        canvas.text (left - 6.0, y + 5.0, fixedText (level, 0), labelSize, Align::right);
    }

    canvas.text (6.0, top - 10.0, "dB", labelSize, Align::left, true);
    canvas.text (frame.right, top - 10.0, axis, labelSize, Align::right, true);
    canvas.text (6.0, canvas.height() - 8.0, step > 0 ? "thick: this step   thin: the step before" : "thick: this step",
                 labelSize);
}

void drawTick (Canvas& canvas, const Frame& frame, double share, const std::string& label)
{
    canvas.line (frame.x (share), top, frame.x (share), frame.bottom, 0.6, gridGrey);
    canvas.text (frame.x (share), frame.bottom + 17.0, label, labelSize, Align::middle);
}

void drawRing (Canvas& canvas, const PlayedLesson& played, std::size_t step)
{
    constexpr double lowest = -60.0; // dB
    constexpr double longest = 1.0;  // s
    const Frame frame (canvas);
    const auto shareOf = [] (std::size_t i) { return StrokeCurves::ringInterval * static_cast<double> (i) / longest; };
    fillBelow (canvas, frame, played.steps[step].curves.ring, lowest, shareOf);
    drawLevelAxis (canvas, frame, lowest, "seconds after the stroke", step);

    for (int tick = 0; tick <= 5; ++tick)
        drawTick (canvas, frame, tick / 5.0, asText (longest * tick / 5.0));

    if (step > 0)
        drawCurve (canvas, frame, played.steps[step - 1].curves.ring, lowest, shareOf, true);

    drawCurve (canvas, frame, played.steps[step].curves.ring, lowest, shareOf, false);
}

void drawSpectrum (Canvas& canvas, const PlayedLesson& played, std::size_t step)
{
    constexpr double lowest = -60.0; // dB
    const Frame frame (canvas);
    const auto shareOfHertz = [] (double hertz)
    { return std::log2 (hertz / StrokeCurves::lowestFrequency) * StrokeCurves::bandsPerOctave / StrokeCurves::bands; };
    const auto shareOf = [&] (std::size_t band) { return shareOfHertz (StrokeCurves::frequencyOf (static_cast<int> (band))); };
    fillBelow (canvas, frame, played.steps[step].curves.spectrum, lowest, shareOf);
    drawLevelAxis (canvas, frame, lowest, "Hz", step);

    for (const double hertz : { 100.0, 200.0, 500.0, 1000.0, 2000.0, 5000.0 })
        drawTick (canvas, frame, shareOfHertz (hertz), fixedText (hertz, 0));

    if (step > 0)
        drawCurve (canvas, frame, played.steps[step - 1].curves.spectrum, lowest, shareOf, true);

    drawCurve (canvas, frame, played.steps[step].curves.spectrum, lowest, shareOf, false);
}

std::string describeNotes (const PlayedStep& step)
{
    const auto& p = step.prediction;
    auto text = "Batter " + noteName (p.batter.tapNote, p);

    if (p.drum.hasResonantHead())
        text += ", resonant " + noteName (p.resonant.tapNote, p);

    return text + ", drum note " + noteName (p.drumNote, p) + ".";
}

std::string describeRing (const PlayedStep& step)
{
    const double end = StrokeCurves::ringInterval * static_cast<double> (step.curves.ring.size());
    const auto timeTo = [&] (double level)
    {
        const double time = step.curves.timeTo (level);
        return time < end ? fixedText (time, 2) + " s" : "more than " + fixedText (end, 1) + " s";
    };

    return std::string (step.step.drum.wires.on ? "Wires on" : "Wires off") + ". Down 20 dB after " + timeTo (-20.0) +
           ", 40 dB after " + timeTo (-40.0) + ", 60 dB after " + timeTo (-60.0) + ".";
}

std::string describeSpectrum (const PlayedStep& step)
{
    const auto& levels = step.curves.spectrum;
    const auto loudest = std::max_element (levels.begin(), levels.end()) - levels.begin();
    return "Loudest near " + fixedText (StrokeCurves::frequencyOf (static_cast<int> (loudest)), 0) + " Hz.";
}

} // namespace

const std::array<StepPicture, 3>& stepPictures()
{
    static const std::array<StepPicture, 3> pictures{ {
        { "notes", "Notes", "Notes of heads and drum on a scale", drawNotes, describeNotes },
        { "ring", "Ring of one stroke, as played", "Curve of level against time", drawRing, describeRing },
        { "spectrum", "Spectrum of one stroke", "Curve of level against frequency", drawSpectrum, describeSpectrum },
    } };
    return pictures;
}

} // namespace sheets
