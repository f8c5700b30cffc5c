#include "SpectrogramView.h"

#include "Look.h"
#include "NoteText.h"
#include "Strings.h"

#include <cmath>

namespace editor
{
namespace
{
using listening::LevelColumn;
using listening::LevelColumns;

constexpr double shownRange = 60.0;               // dB
constexpr double lowestTop = -40.0, highestTop = 0.0; // dB of full scale, between which the strongest colour may lie
constexpr double fadedBy = 40.0;                  // dB, until which a partial is drawn
constexpr double longestDrawn = 3.0;              // s, of a partial
constexpr double early = 0.03;                    // s after the tap, when the stick is off the head
constexpr std::size_t mostLabels = 8;
constexpr int spectrogramHeading = 30, timeHeight = 16, noteWidth = 30, labelHeight = 15;

double levelOf (std::uint8_t byte)
{
    return LevelColumn::floor * (1.0 - byte / 255.0);
}

/** The loudest partials of a tap, from low to high. */
std::vector<fitting::Partial> loudestOf (std::vector<fitting::Partial> partials, std::size_t most)
{
    std::erase_if (partials,
                   [] (const auto& p) { return p.frequency < LevelColumn::lowest || p.frequency > LevelColumn::highest; });
    std::sort (partials.begin(), partials.end(), [] (const auto& a, const auto& b) { return a.level (early) > b.level (early); });
    partials.resize (std::min (partials.size(), most));
    std::sort (partials.begin(), partials.end(), [] (const auto& a, const auto& b) { return a.frequency < b.frequency; });
    return partials;
}

} // namespace

SpectrogramView::SpectrogramView (plugin::Listener& l)
    : listener (l), pause (strings::pauseSpectrogram, [this] { setPaused (! paused); }), refresh (this, [this] { update(); })
{
    setTitle (strings::spectrogramTitle);
    setTooltip (strings::spectrogramTip);
    setHelpText (strings::spectrogramTip);
    pause.setClickingTogglesState (false);
    addAndMakeVisible (pause);
}

SpectrogramView::~SpectrogramView()
{
    listener.setWatched (false);
}

void SpectrogramView::setPaused (bool shouldPause)
{
    paused = shouldPause;
    pause.setToggleState (paused, juce::dontSendNotification);
    pause.setButtonText (paused ? strings::runSpectrogram : strings::pauseSpectrogram.face);
}

void SpectrogramView::show (const plugin::ListeningReport& report, modal::ConcertPitch concertPitch)
{
    const bool isOtherSource = recorded != report.recorded;
    recorded = report.recorded;
    pause.setEnabled (recorded == nullptr);
    pitch = concertPitch;
    partials.clear();
    for (const auto& heard : report.partials)
        partials.push_back ({ heard.start, loudestOf (heard.partials, mostLabels) });

    if (isOtherSource)
    {
        history.clear();
        next = 0;
        drawAll();
    }
    updateLabels();
    repaint();
}

void SpectrogramView::updateLabels()
{
    shownLabels.clear();
    labelTexts.clear();
    if (! partials.empty())
        for (const auto& partial : partials.back().partials)
            shownLabels.push_back ({ partial.frequency, noteWithCents (partial.frequency, pitch) });
    for (const auto& label : shownLabels)
        labelTexts.add (label.text + ", " + fixed (label.hertz, 1) + " Hz");
    setDescription (labelTexts.isEmpty() ? juce::String (strings::noPartials)
                                         : strings::partialsHeard + labelTexts.joinIntoString ("; "));
}

juce::Rectangle<int> SpectrogramView::plot() const
{
    const int labels = getWidth() < 460 ? 72 : 128;
    return getLocalBounds()
        .withTrimmedTop (spectrogramHeading)
        .withTrimmedBottom (timeHeight)
        .withTrimmedLeft (noteWidth)
        .withTrimmedRight (labels);
}

float SpectrogramView::yOf (double hertz) const
{
    const auto area = plot().toFloat();
    return area.getBottom() - area.getHeight() * static_cast<float> ((LevelColumn::rowOf (hertz) + 0.5) / LevelColumn::rows);
}

/** s: of the column at the right edge. */
double SpectrogramView::endTime() const
{
    if (recorded != nullptr)
        return LevelColumns::step * static_cast<double> (recorded->columns.size());
    return LevelColumns::step * static_cast<double> (next) - 0.5 * LevelColumns::window;
}

/** s a pixel: a long file is drawn narrower. */
double SpectrogramView::timeStep() const
{
    return recorded == nullptr ? LevelColumns::step
                               : juce::jmax (LevelColumns::step, endTime() / juce::jmax (1, plot().getWidth()));
}

float SpectrogramView::xOf (double time) const
{
    return static_cast<float> (plot().getRight() - (endTime() - time) / timeStep());
}

/** Once a frame of the screen: takes the new columns and paints only if there are any. */
void SpectrogramView::update()
{
    const bool isWanted = isShowing() && ! paused && recorded == nullptr;
    if (isWanted != isWatching)
        listener.setWatched (isWatching = isWanted);
    if (! isWanted || image.isNull())
        return;
    const auto columns = listener.columnsFrom (next);
    if (columns.columns.empty())
        return;
    append (columns);
    repaint();
}

void SpectrogramView::append (const plugin::InputReader::Columns& columns)
{
    const bool isAfterGap = columns.first != next; // the clock was restarted, or the page was away for long
    if (isAfterGap)
        history.clear();
    next = columns.end();
    history.insert (history.end(), columns.columns.begin(), columns.columns.end());
    const auto width = static_cast<std::size_t> (image.getWidth());
    if (history.size() > width)
        history.erase (history.begin(), history.end() - static_cast<std::ptrdiff_t> (width));

    if (setRange() || isAfterGap)
        return drawAll();
    const auto added = juce::jmin (columns.columns.size(), history.size());
    const int shift = static_cast<int> (added);
    image.moveImageSection (0, 0, shift, 0, image.getWidth() - shift, image.getHeight());
    juce::Image::BitmapData pixels (image, juce::Image::BitmapData::writeOnly);
    for (int i = 0; i < shift; ++i)
        drawColumn (pixels, history[history.size() - added + static_cast<std::size_t> (i)], image.getWidth() - shift + i);
}

/** The loudest level shown has the strongest colour, in steps of 5 dB. True if that has changed. */
bool SpectrogramView::setRange()
{
    std::uint8_t most = 0;
    const auto consider = [&most] (const auto& columns)
    {
        for (const auto& column : columns)
            most = juce::jmax (most, *std::max_element (column.levels.begin(), column.levels.end()));
    };
    if (recorded != nullptr)
        consider (recorded->columns);
    else
        consider (history);
    const double wanted = juce::jlimit (lowestTop, highestTop, 5.0 * std::ceil (levelOf (most) / 5.0));
    if (wanted == top)
        return false;
    top = wanted;
    return true;
}

void SpectrogramView::makePalette()
{
    const auto& theme = themeOf (*this);
    for (std::size_t i = 0; i < palette.size(); ++i)
    {
        const double strength = 1.0 + (levelOf (static_cast<std::uint8_t> (i)) - top) / shownRange;
        palette[i] = theme.level (static_cast<float> (juce::jlimit (0.0, 1.0, strength))).getPixelARGB();
    }
}

void SpectrogramView::drawColumn (juce::Image::BitmapData& pixels, const LevelColumn& column, int x) const
{
    for (int row = 0; row < LevelColumn::rows; ++row)
        reinterpret_cast<juce::PixelRGB*> (pixels.getPixelPointer (x, LevelColumn::rows - 1 - row))
            ->set (palette[column.levels[static_cast<std::size_t> (row)]]);
}

void SpectrogramView::drawAll()
{
    if (image.isNull())
        return;
    if (recorded != nullptr)
        setRange();
    makePalette();
    image.clear (image.getBounds(), themeOf (*this).level (0.0f));
    juce::Image::BitmapData pixels (image, juce::Image::BitmapData::writeOnly);
    if (recorded == nullptr)
    {
        for (std::size_t i = 0; i < history.size(); ++i)
            drawColumn (pixels, history[i], image.getWidth() - static_cast<int> (history.size() - i));
        return;
    }
    // Where a pixel stands for several columns, the loudest of each row.
    const auto plotLeft = plot().getX();
    std::vector<LevelColumn> drawn (static_cast<std::size_t> (image.getWidth()));
    for (std::size_t i = 0; i < recorded->columns.size(); ++i)
    {
        const double middle = LevelColumns::step * static_cast<double> (i + 1) - 0.5 * LevelColumns::window; // s
        const int x = static_cast<int> (xOf (middle)) - plotLeft;
        auto& at = drawn[static_cast<std::size_t> (juce::jlimit (0, image.getWidth() - 1, x))];
        for (std::size_t row = 0; row < at.levels.size(); ++row)
            at.levels[row] = juce::jmax (at.levels[row], recorded->columns[i].levels[row]);
    }
    for (std::size_t x = 0; x < drawn.size(); ++x)
        drawColumn (pixels, drawn[x], static_cast<int> (x));
}

void SpectrogramView::resized()
{
    auto heading = getLocalBounds().removeFromTop (spectrogramHeading - 4);
    pause.setBounds (heading.removeFromRight (buttonWidth));
    const auto area = plot();
    if (area.isEmpty() || image.getWidth() == area.getWidth())
        return;
    image = juce::Image (juce::Image::RGB, area.getWidth(), LevelColumn::rows, false, juce::SoftwareImageType());
    if (history.size() > static_cast<std::size_t> (area.getWidth()))
        history.erase (history.begin(), history.end() - area.getWidth());
    drawAll();
}

void SpectrogramView::lookAndFeelChanged()
{
    drawAll();
    repaint();
}

void SpectrogramView::paint (juce::Graphics& g)
{
    const auto& theme = themeOf (*this);
    const auto area = plot();
    ++frames;
    g.setColour (theme.ink);
    g.setFont (fonts::title());
    g.drawFittedText (recorded == nullptr ? juce::String (strings::spectrogramTitle) : strings::spectrogramOf (recorded->name),
                      getLocalBounds().removeFromTop (spectrogramHeading - 4).withTrimmedRight (2 * buttonWidth + 8),
                      juce::Justification::centredLeft, 1, 0.8f);
    g.setImageResamplingQuality (juce::Graphics::lowResamplingQuality);
    g.drawImage (image, area.toFloat(), juce::RectanglePlacement::stretchToFit);
    drawAxes (g);
    {
        const juce::Graphics::ScopedSaveState saved (g);
        g.reduceClipRegion (area);
        for (const auto& heard : partials)
            drawPartials (g, heard);
    }
    drawLabels (g);
    g.setColour (theme.mark);
    g.drawRect (area, 1);
}

void SpectrogramView::drawAxes (juce::Graphics& g) const
{
    const auto& theme = themeOf (*this);
    const auto area = plot();
    g.setFont (fonts::small());
    const float octave = yOf (100.0) - yOf (200.0);
    for (int midi = 36; midi <= 96; ++midi)
    {
        const int tone = midi % 12;
        const bool isOctave = tone == 0, isNamed = isOctave || tone == 7 || (octave > 64.0f && tone == 4);
        const double hertz = hertzOfMidi (midi, pitch);
        if (! isNamed || hertz < LevelColumn::lowest || hertz > LevelColumn::highest)
            continue;
        const float y = yOf (hertz);
        g.setColour (theme.mark.withAlpha (isOctave ? 0.55f : 0.25f));
        g.fillRect (static_cast<float> (area.getX()), y, static_cast<float> (area.getWidth()), 1.0f);
        g.setColour (isOctave ? theme.ink : theme.quiet);
        g.drawText (noteOfMidi (midi), juce::Rectangle<float> (0.0f, y - 7.0f, noteWidth - 4.0f, 14.0f),
                    juce::Justification::centredRight, false);
    }

    // Seconds back from the right edge; in a file from its start.
    g.setColour (theme.quiet);
    const double every = timeStep() * area.getWidth() > 12.0 ? 5.0 : 1.0;
    for (double time = recorded == nullptr ? endTime() : 0.0;; time += recorded == nullptr ? -every : every)
    {
        const float x = xOf (time);
        if (x < static_cast<float> (area.getX()) - 1.0f || x > static_cast<float> (area.getRight()) + 1.0f)
            break;
        const double shown = recorded == nullptr ? time - endTime() : time;
        g.fillRect (x, static_cast<float> (area.getBottom()), 1.0f, 3.0f);
        g.drawText (withSign (shown, 0).replaceCharacter ('+', ' ').trim() + " s",
                    juce::Rectangle<float> (x - 20.0f, static_cast<float> (area.getBottom()) + 2.0f, 40.0f, 14.0f),
                    juce::Justification::centred, false);
    }
}

/** Each partial from the tap until it has faded. */
void SpectrogramView::drawPartials (juce::Graphics& g, const listening::HeardPartials& heard) const
{
    const auto area = plot().toFloat();
    if (xOf (heard.start) > area.getRight() || xOf (heard.start + longestDrawn) < area.getX())
        return;
    constexpr double step = 0.03; // s
    g.setColour (themeOf (*this).resonant);
    for (const auto& partial : heard.partials)
    {
        const double audible = juce::jmin (longestDrawn, partial.t60() * fadedBy / 60.0);
        juce::Path way;
        way.startNewSubPath (xOf (heard.start), yOf (partial.frequencyAt (0.0)));
        for (double t = step; t < audible; t += step)
            way.lineTo (xOf (heard.start + t), yOf (partial.frequencyAt (t)));
        g.strokePath (way, juce::PathStrokeType (1.4f));
    }
}

/** Notes of the last tap at the right, each as near to its partial as the others leave room. */
void SpectrogramView::drawLabels (juce::Graphics& g) const
{
    const auto& theme = themeOf (*this);
    const auto area = plot().toFloat();
    float free = area.getBottom() + 0.5f * labelHeight; // above this y
    for (std::size_t i = 0; i < shownLabels.size(); ++i)
    {
        const auto above = static_cast<float> (shownLabels.size() - 1 - i); // labels that still have to fit
        const float wanted = yOf (shownLabels[i].hertz), least = area.getY() + (above + 0.5f) * labelHeight;
        const float y = juce::jmax (least, juce::jmin (wanted, free - labelHeight));
        free = y;
        g.setColour (theme.resonant);
        g.drawLine (area.getRight(), wanted, area.getRight() + 8.0f, y, 1.2f);
        const auto line = juce::Rectangle<float> (area.getRight() + 10.0f, y - 0.5f * labelHeight,
                                                  static_cast<float> (getWidth()) - area.getRight() - 10.0f, labelHeight);
        g.setColour (theme.ink);
        const bool isWide = line.getWidth() > 100.0f;
        g.setFont (isWide ? fonts::strong() : fonts::text());
        g.drawText (shownLabels[i].text, line, juce::Justification::centredLeft, false);
        if (! isWide)
            continue;
        g.setColour (theme.quiet);
        g.setFont (fonts::small());
        g.drawText (fixed (shownLabels[i].hertz, 1) + " Hz", line, juce::Justification::centredRight, false);
    }
}

std::unique_ptr<juce::AccessibilityHandler> SpectrogramView::createAccessibilityHandler()
{
    return std::make_unique<juce::AccessibilityHandler> (*this, juce::AccessibilityRole::image);
}

} // namespace editor
