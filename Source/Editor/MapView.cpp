#include "MapView.h"

#include "Look.h"
#include "NoteText.h"
#include "Strings.h"
#include "TuningSheetFile.h"

#include "Finding/Song.h"
#include "Modal/InputError.h"

#include <algorithm>
#include <cmath>

namespace editor
{
namespace
{
using finding::Figure;
using plugin::Parameter;

/** What the map can be shaded by. */
constexpr std::array<Figure, 10> shadings{
    Figure::drumNote,      Figure::ring,    Figure::lasts,      Figure::batterStrength, Figure::resonantStrength,
    Figure::softestStroke, Figure::dryness, Figure::brightness, Figure::contactTime,    Figure::wiresCarry
};

/** What a wish can be typed for. */
constexpr std::array<Figure, 9> wishable{ Figure::drumNote,     Figure::ring,           Figure::lasts,
                                          Figure::interval,     Figure::softestStroke,  Figure::batterMove,
                                          Figure::resonantMove, Figure::batterStrength, Figure::resonantStrength };

juce::StringArray shadingNames()
{
    juce::StringArray names;
    for (const auto figure : shadings)
        names.add (finding::infoOf (figure).name);
    return names;
}

ValueBinding shadingBinding (std::size_t& chosen, std::function<void()> changed)
{
    ValueBinding binding;
    binding.low = 0.0;
    binding.high = static_cast<double> (shadings.size() - 1);
    binding.step = binding.fineStep = 1.0;
    binding.get = [&chosen] { return static_cast<double> (chosen); };
    binding.set = [&chosen, changed] (double index)
    {
        chosen = static_cast<std::size_t> (juce::jlimit (0, static_cast<int> (shadings.size()) - 1, juce::roundToInt (index)));
        changed();
    };
    binding.toText = [] (double index) { return shadingNames()[juce::roundToInt (index)]; };
    binding.type = [set = binding.set] (const juce::String& typed) -> juce::String
    {
        const int index = shadingNames().indexOf (typed.trim(), true);
        if (index < 0)
            return strings::noSuchShading (shadingNames());
        set (index);
        return {};
    };
    return binding;
}

juce::String utf8 (const std::string& text)
{
    return juce::String::fromUTF8 (text.c_str());
}

} // namespace

MapView::MapView (plugin::Processor& p)
    : processor (p), tuner (p), maps (p),
      plot ({ [this] { return tuner.get(); },
              [this] (TuningSpot spot)
              {
                  if (maps.map() != nullptr &&
                      whyNot (*maps.map(), hertzOfMidi (spot.batter, pitch), hertzOfMidi (spot.batter + spot.interval, pitch))
                          .isEmpty())
                      tuner.set (spot);
              },
              [this] { tuner.begin(); }, [this] { tuner.end(); },
              [this] (TuningSpot from, double batter) -> std::optional<TuningSpot>
              {
                  const double drumNote = of (figuresAt (content(), from), Figure::drumNote);
                  const auto resonant = maps.map()->resonantNoteFor (hertzOfMidi (batter, pitch), drumNote);
                  return resonant ? std::optional (TuningSpot{ batter, midiOfHertz (*resonant, pitch) - batter }) : std::nullopt;
              },
              [this] (TuningSpot spot) { return read (spot); },
              [this]
              {
                  if (onHear)
                      onHear();
              } }),
      shading (strings::shading(),
               shadingBinding (figure,
                               [this]
                               {
                                   readWishes();
                                   draw();
                               }),
               shadingNames()),
      here (strings::startHere, [this] { maps.startHere(); }), found (p), planner (p)
{
    setTitle (strings::mapTitle);
    setFocusContainerType (FocusContainerType::focusContainer);
    for (auto* child : std::initializer_list<juce::Component*>{ &shading, &plot, &reading, &here, &startText, &why })
        addAndMakeVisible (child);
    for (const auto wished : wishable)
    {
        auto field = std::make_unique<WishField> (strings::wish (wished));
        field->setExample (strings::wishExample (wished));
        field->onEntered = [this] { readWishes(); };
        addAndMakeVisible (*field);
        fields.emplace_back (wished, std::move (field));
    }
    key = std::make_unique<WishField> (strings::songKey());
    key->setExample ("e.g. D minor");
    tempo = std::make_unique<WishField> (strings::songTempo());
    tempo->setExample ("e.g. 120");
    for (auto* field : { key.get(), tempo.get() })
    {
        field->onEntered = [this] { readWishes(); };
        addAndMakeVisible (*field);
    }
    addAndMakeVisible (found);
    found.onTune = [this] (int number) { tuneTo (number); };
    found.onChoose = [this] (int number)
    {
        tuneTo (number);
        if (onSay)
            onSay (strings::youChose (juce::String (number + 1), described (static_cast<std::size_t> (number)).face), false);
    };
    found.onRender = [this] { showFound(); };
    found.onSheet = [this] { chooseSheetFile(); };
    found.onSay = [this] (const juce::String& what, bool isRefusal)
    {
        if (onSay)
            onSay (what, isRefusal);
    };
    planner.onPlanned = [this] (const plugin::RodTurns& turns)
    {
        rodTurns = turns;
        showExplanation();
    };
    plot.onRead = [this] (const juce::String& what)
    { reading.setText (what.isEmpty() ? read (tuner.get()) : what, TextLine::Weight::quiet); };
    tuner.onTuned = [this]
    {
        if (onHear)
            onHear();
    };
    maps.onChange = [this] { mapChanged(); };
    shading.onRefused = [this] (const juce::String& refusal)
    {
        if (onSay)
            onSay (refusal, true);
    };
}

MapView::~MapView() = default;

void MapView::setShown (bool shown)
{
    isShown = shown;
    if (isShown)
        followDrum();
    else
        found.stop();
}

void MapView::setScene (const Scene& scene, modal::ConcertPitch newPitch)
{
    const bool isOther = newPitch.a4 != pitch.a4 || scene.tempo != beats;
    pitch = newPitch;
    beats = scene.tempo;
    ringWiresOn = scene.played != nullptr ? scene.played->ringWiresOn : 0.0;
    if (isShown)
        followDrum();
    if (isOther)
        readWishes();
    refresh();
}

/** What is wished of a place is read again in another. */
void MapView::followDrum()
{
    maps.follow();
    if (placeRead != maps.inPlace().get())
        readWishes();
}

void MapView::refresh()
{
    if (! isShown)
        return;
    showMarks();
    followRods();
    reading.setText (read (tuner.get()), TextLine::Weight::quiet);
}

void MapView::mapChanged()
{
    if (maps.map() != markedMap)
    {
        markedMap = maps.map();
        findPresets();
    }
    showFound();
    draw();
}

MapContent MapView::content() const
{
    return {
        maps.map(), maps.played(), shadings[figure], maps.wishes(), maps.start(), pitch, maps.prudentArea(), maps.inPlace()
    };
}

/** Wishes that were typed; for figures without one those that the song makes. */
void MapView::readWishes()
{
    placeRead = maps.inPlace().get();
    std::vector<finding::Wish> wishes;
    juce::String refusal;
    const auto readField = [&] (WishField& field, const auto& read)
    {
        if (const auto fault = field.read (read); fault.isNotEmpty())
            refusal = fault;
    };
    finding::Song song;
    song.concertPitch = pitch;
    readField (*key, [&] (const std::string& typed) { song.key = finding::Key::parse (typed, "key"); });
    readField (*tempo,
               [&] (const std::string& typed)
               {
                   const double typedBeats = juce::String (typed).getDoubleValue();
                   song.tempo = modal::requireInRange (typedBeats, { 20.0, 400.0, "beats per minute" }, "tempo");
               });
    for (auto& [wished, field] : fields)
        readField (*field,
                   [&, which = wished] (const std::string& typed)
                   {
                       const auto& info = finding::infoOf (which);
                       if (info.isInPlace && placeRead == nullptr)
                           throw modal::InputError::fault (info.name, "has no place to be heard in", "a place, chosen in Set up");
                       wishes.push_back (finding::readWish (which, typed, pitch, info.name, song.tempo.value_or (beats)));
                   });
    for (auto& [wished, field] : fields)
        field->setExample (strings::wishExample (wished));
    for (auto& wish : finding::wishesFor (song))
    {
        auto& field = this->field (wish.figure);
        field.setExample (utf8 (wish.text).fromFirstOccurrenceOf (finding::infoOf (wish.figure).name, false, false).trim());
        if (std::none_of (fields.begin(), fields.end(),
                          [&] (const auto& other) { return other.second->text().isNotEmpty() && givesWay (wish, other.first); }))
            wishes.push_back (std::move (wish));
    }
    if (refusal.isNotEmpty() && onSay)
        onSay (refusal, true);
    maps.ask (std::move (wishes), shadings[figure]);
}

WishField& MapView::field (Figure wanted)
{
    return *std::find_if (fields.begin(), fields.end(), [wanted] (const auto& entry) { return entry.first == wanted; })->second;
}

void MapView::draw()
{
    if (maps.map() == nullptr)
    {
        plot.setPicture (nullptr);
        return;
    }
    const int number = ++drawNumber;
    drawing.run ([content = content(), theme = themeOf (*this)] { return drawMap (content, theme); },
                 [this, number] (std::shared_ptr<const MapPicture> picture)
                 {
                     if (number != drawNumber)
                         return;
                     plot.setPicture (std::move (picture));
                     refresh();
                     repaint();
                 });
}

juce::String MapView::read (TuningSpot spot) const
{
    if (maps.map() == nullptr)
        return maps.refusal();
    const auto name = noteOfMidi (spot.batter) + ", " + intervalName (spot.interval) + ": ";
    const auto reason = whyNot (*maps.map(), hertzOfMidi (spot.batter, pitch), hertzOfMidi (spot.batter + spot.interval, pitch));
    if (reason.isNotEmpty())
        return name + reason;
    const auto figures = figuresAt (content(), spot);
    juce::String text = name;
    const auto add = [&] (Figure which)
    {
        const auto& info = finding::infoOf (which);
        if (! std::isnan (of (figures, which)))
            text << (text.endsWith (": ") ? "" : ", ") << info.name << " "
                 << withMusicSigns (utf8 (textOf (which, of (figures, which), pitch)));
    };
    add (Figure::drumNote);
    add (Figure::ring);
    add (Figure::lasts);
    if (shadings[figure] != Figure::drumNote && shadings[figure] != Figure::ring && shadings[figure] != Figure::lasts)
        add (shadings[figure]);
    for (const auto& wish : maps.wishes())
        if (const double value = of (figures, wish.figure); std::abs (missOf (wish, value)) > 0.5 && ! std::isnan (value))
            text << "; " << finding::infoOf (wish.figure).name << " "
                 << utf8 (missText (wish.figure, value, nearestAllowed (wish, value)));
    return text;
}

TuningSpot MapView::spotOf (const finding::FoundTuning& tuning) const
{
    const double batter = midiOfHertz (tuning.batterNote, pitch);
    return { batter, midiOfHertz (tuning.resonantNote, pitch) - batter };
}

FoundBar::Tuning MapView::described (std::size_t number) const
{
    const auto& tuning = maps.found().list[number];
    const auto notes = noteWithCents (tuning.batterNote, pitch) + " / " + noteWithCents (tuning.resonantNote, pitch);
    auto tip =
        strings::foundTip (utf8 (tuning.kind), notes,
                           withMusicSigns (utf8 (textOf (Figure::drumNote, of (tuning.figures, Figure::drumNote), pitch))));
    if (maps.start())
        tip << " "
            << strings::heads (utf8 (finding::moveText (of (tuning.figures, Figure::batterMove))),
                               utf8 (finding::moveText (of (tuning.figures, Figure::resonantMove))));
    for (std::size_t w = 0; w < tuning.misses.size() && w < maps.wishes().size(); ++w)
        if (tuning.misses[w] != 0.0)
        {
            const auto& wish = maps.wishes()[w];
            const double value = of (tuning.figures, wish.figure);
            tip << " " << finding::infoOf (wish.figure).name << " "
                << utf8 (missText (wish.figure, value, nearestAllowed (wish, value))) << ".";
        }
    return { notes, utf8 (tuning.kind), tip, MapTuner::tuned (processor.effectiveValues(), spotOf (tuning)) };
}

void MapView::showFound()
{
    std::vector<FoundBar::Tuning> tunings;
    for (std::size_t i = 0; i < maps.found().list.size(); ++i)
        tunings.push_back (described (i));
    found.show (std::move (tunings));
    startText.setText (maps.start() ? strings::movesFrom (noteWithCents (maps.start()->batterNote, pitch),
                                                          noteWithCents (maps.start()->resonantNote, pitch))
                                    : juce::String(),
                       TextLine::Weight::quiet);
    followRods();
    showExplanation();
}

/** First what to turn, then what was found. */
void MapView::showExplanation()
{
    const auto& result = maps.found();
    juce::StringArray text;
    if (maps.refusal().isNotEmpty())
        text.add (maps.refusal());
    else
    {
        const bool hasPlan = rodTurns.batter || rodTurns.resonant;
        if (hasPlan && ! isNothing (rodTurns))
            text.add (strings::turnRods (turnsText (rodTurns)));
        else if (hasPlan && ! result.list.empty())
            text.add (strings::nothingToTurn);
        if (maps.wishes().empty())
            text.add (strings::noWishes);
        else if (result.list.empty())
            text.add (strings::looking);
        else if (result.areAllMet)
            text.add (strings::allMet (static_cast<int> (result.list.size())));
    }
    for (const auto& sentence : finding::explain (result, maps.wishes(), pitch))
        text.add (withMusicSigns (utf8 (sentence)));
    for (const auto& wish : maps.wishes())
        if (! wish.reason.empty())
            text.add (withMusicSigns (utf8 (wish.text)) + ": " + utf8 (wish.reason) + ".");
    text.removeEmptyStrings();
    why.setText (text.joinIntoString (" "), TextLine::Weight::quiet);
}

void MapView::tuneTo (int number)
{
    const auto& list = maps.found().list;
    if (number >= static_cast<int> (list.size()))
        return;
    tuner.begin();
    tuner.set (spotOf (list[static_cast<std::size_t> (number)]));
    tuner.end();
    refresh();
}

/** Plans the rods from where moves count to the tuning that is set. */
void MapView::followRods()
{
    if (const auto start = maps.startTensions())
        planner.follow (fitting::HeadAsIs{ .tension = start->batter }, fitting::HeadAsIs{ .tension = start->resonant });
    else
    {
        planner.forget();
        rodTurns = {};
    }
}

void MapView::chooseSheetFile()
{
    chooser = std::make_unique<juce::FileChooser> (strings::writeSheet.name, juce::File ("tuning.pdf"), "*.pdf;*.svg;*.png");
    chooser->launchAsync (juce::FileBrowserComponent::saveMode | juce::FileBrowserComponent::warnAboutOverwriting,
                          [safe = juce::Component::SafePointer<MapView> (this)] (const juce::FileChooser& done)
                          {
                              if (safe == nullptr)
                                  return;
                              safe->found.sheetButton().grabKeyboardFocus();
                              if (const auto file = done.getResult(); file != juce::File())
                                  safe->writeSheet (file.getFileExtension().isEmpty()
                                                        ? file.withFileExtension ("pdf").getNonexistentSibling()
                                                        : file);
                          });
}

void MapView::writeSheet (const juce::File& file)
{
    const auto solved = processor.solvedDrum();
    if (solved == nullptr)
        return;
    SheetRequest request{ .drum = solved, .name = processor.presetName(), .ringWiresOn = ringWiresOn };
    if (const auto start = maps.startTensions())
    {
        request.batter = fitting::HeadAsIs{ .tension = start->batter };
        request.resonant = fitting::HeadAsIs{ .tension = start->resonant };
    }
    drawing.run ([request, file] { return writeTuningSheet (request, file); },
                 [this, file] (const juce::String& fault)
                 {
                     if (onSay)
                         onSay (fault.isEmpty() ? strings::sheetWritten (file) : fault, fault.isNotEmpty());
                 });
}

bool MapView::isInterestedInFileDrag (const juce::StringArray& paths)
{
    return juce::File (paths[0]).hasFileExtension (FoundBar::midiEndings);
}

void MapView::filesDropped (const juce::StringArray& paths, int, int)
{
    found.hear (juce::File (paths[0]));
}

namespace
{

MapPlot::Mark markOf (const plugin::Values& values, const juce::String& label, bool isKept)
{
    const auto value = [&] (Parameter which) { return static_cast<double> (plugin::valueOf (values, which)); };
    const double batterFine = 0.01 * value (Parameter::batterCents), resonantFine = 0.01 * value (Parameter::resonantCents);
    return { { value (Parameter::batterNote) + batterFine, value (Parameter::interval) + resonantFine - batterFine },
             label,
             isKept };
}

} // namespace

/** Presets that tune the same drum. */
void MapView::findPresets()
{
    presetMarks.clear();
    const auto live = processor.state().live;
    for (const auto& entry : processor.presets().entries())
    {
        plugin::State preset;
        preset.live = live;
        if (processor.presets().load (entry, preset).isEmpty() && MapKeeper::isSameDrum (preset.live, live))
            presetMarks.push_back (markOf (preset.live, entry.name, false));
    }
}

void MapView::showMarks()
{
    auto marks = presetMarks;
    const auto live = processor.state().live;
    for (std::size_t i = 0; i < plugin::LiveSound::snapshotCount; ++i)
        if (const auto which = static_cast<plugin::LiveSound::Snapshot> (i);
            processor.hasSnapshot (which) && MapKeeper::isSameDrum (processor.snapshot (which), live))
            marks.push_back (markOf (processor.snapshot (which), plugin::Processor::nameOf (which), true));
    plot.setMarks (std::move (marks));
}

void MapView::paint (juce::Graphics& g)
{
    const auto& theme = themeOf (*this);
    g.setColour (theme.ink);
    g.setFont (fonts::title());
    const auto heading = getLocalBounds().removeFromTop (20);
    g.drawFittedText (strings::mapTitle, heading.withRight (shading.getX() - 6), juce::Justification::centredLeft, 1, 0.8f);
    g.drawFittedText (strings::wishesTitle, heading.withLeft (fields.front().second->getX()), juce::Justification::centredLeft, 1,
                      0.8f);
    const auto* picture = plot.picture();
    if (picture == nullptr || std::isnan (picture->least))
        return;
    // The scale of the shading, beside its name.
    auto legend = shading.getBounds().translated (0, shading.getHeight()).withHeight (12).toFloat();
    const auto text = [&] (double value) { return withMusicSigns (utf8 (textOf (picture->figure, value, pitch))); };
    g.setFont (fonts::small());
    g.setColour (theme.quiet);
    g.drawText (text (picture->least), legend.removeFromLeft (56.0f), juce::Justification::centredLeft, false);
    g.drawText (text (picture->most), legend.removeFromRight (56.0f), juce::Justification::centredRight, false);
    g.setGradientFill ({ theme.sheet.interpolatedWith (theme.drum, 0.06f), legend.getX(), 0.0f,
                         theme.sheet.interpolatedWith (theme.drum, 0.66f), legend.getRight(), 0.0f, false });
    g.fillRect (legend.reduced (2.0f, 2.0f));
}

void MapView::resized()
{
    auto area = getLocalBounds();
    if (area.isEmpty())
        return;
    auto panel = area.removeFromRight (juce::jlimit (176, 260, area.getWidth() * 36 / 100));
    area.removeFromRight (12);

    auto top = area.removeFromTop (34);
    shading.setBounds (top.removeFromRight (juce::jmin (230, area.getWidth() * 6 / 10)).withHeight (20));
    found.setBounds (area.removeFromBottom (2 * FoundBar::rowHeight));
    reading.setBounds (area.removeFromBottom (34).withTrimmedTop (2));
    plot.setBounds (area);

    panel.removeFromTop (22);
    const int row = panel.getHeight() >= 420 ? 26 : 22;
    const auto place = [&] (juce::Component& component)
    { component.setBounds (panel.removeFromTop (row).withTrimmedBottom (2)); };
    place (*key);
    place (*tempo);
    for (auto& [wished, field] : fields)
        place (*field);
    auto from = panel.removeFromTop (row).withTrimmedBottom (2);
    here.setBounds (from.removeFromRight (84));
    startText.setBounds (from);
    why.setBounds (panel.withTrimmedTop (4));
}

} // namespace editor
