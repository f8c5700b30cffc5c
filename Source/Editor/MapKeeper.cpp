#include "MapKeeper.h"

#include "Strings.h"

#include "Modal/InputError.h"
#include "Plugin/DrumRequest.h"

#include <utility>

namespace editor
{
namespace
{
using plugin::Parameter;

constexpr double roughStep = 200.0; // cents between tunings that are solved

/** One processor is left to the sound. */
unsigned helpers()
{
    return std::max (1u, std::thread::hardware_concurrency() - 1u);
}

/** Whether a parameter is part of the tuning, which is what the map goes over. */
bool isTuning (std::size_t index)
{
    for (const auto tuned : { Parameter::batterNote, Parameter::interval, Parameter::batterCents, Parameter::resonantCents })
        if (index == plugin::indexOf (tuned))
            return true;
    for (int lug = 0; lug < plugin::lugParameters; ++lug)
        if (index == plugin::indexOf (plugin::batterLug (lug)) || index == plugin::indexOf (plugin::resonantLug (lug)))
            return true;
    return false;
}

/** The values with one effect, its tuning left out; the others are 0. */
plugin::Values valuesWith (plugin::Effect effect, plugin::Values values)
{
    for (std::size_t i = 0; i < plugin::parameterCount; ++i)
        if (plugin::parameterTable()[i].effect != effect || isTuning (i))
            values[i] = 0.0f;
    return values;
}

/** The values that describe shell and heads. */
plugin::Values drumOf (const plugin::Values& values)
{
    return valuesWith (plugin::Effect::modes, values);
}

/** Those of wires, stick and hoops, which only played strokes depend on. */
plugin::Values fittingsOf (const plugin::Values& values)
{
    return valuesWith (plugin::Effect::drum, values);
}

/** Those of the place. */
plugin::Values placeOf (const plugin::Values& values)
{
    return valuesWith (plugin::Effect::place, values);
}

} // namespace

MapKeeper::~MapKeeper()
{
    *cancel = true;
    *cancelStrokes = true;
}

/** Ends the work that this belongs to; what it delivers is dropped. */
void MapKeeper::renew (Cancel& work)
{
    *work = true;
    work = std::make_shared<std::atomic<bool>> (false);
}

bool MapKeeper::isSameDrum (const plugin::Values& one, const plugin::Values& other)
{
    return drumOf (one) == drumOf (other);
}

void MapKeeper::follow()
{
    const auto live = processor.state().live;
    if (drumOfMap == drumOf (live))
    {
        const auto before = std::exchange (fittingsOfMap, fittingsOf (live));
        const bool isElsewhere = placeOfMap != placeOf (live);
        if (isElsewhere)
            followPlace();
        if (before != fittingsOfMap || (isElsewhere && wantsCarry()))
            forgetStrokes();
        else if (isElsewhere)
        {
            look();
            tell();
        }
        return;
    }
    renew (cancel);
    renew (cancelStrokes);
    drumOfMap = drumOf (live);
    fittingsOfMap = fittingsOf (live);
    followPlace();
    ground = {};
    findStart();
    result = {};
    isPlaying = false;
    trouble = {};
    try
    {
        request = plugin::requestOf (processor.effectiveValues());
        if (! request->drum.hasResonantHead())
            trouble = strings::mapNeedsTwoHeads;
    }
    catch (const modal::InputError& refused)
    {
        trouble = juce::String::fromUTF8 (refused.what());
    }
    if (trouble.isEmpty())
    {
        startHere();
        makeMap (roughStep);
    }
    tell();
}

void MapKeeper::followPlace()
{
    const auto live = processor.state().live;
    placeOfMap = placeOf (live);
    const auto where = plugin::placeOf (live);
    heard = where ? std::make_shared<const place::NoteAtListener> (*where) : nullptr;
}

void MapKeeper::setStroke (double speed, double place)
{
    const bool isOther = hand.usual != speed || hand.place != place;
    hand.usual = speed;
    hand.place = place;
    if (isOther && (isPlaying || ground.played != nullptr))
        forgetStrokes();
}

/** Whether how far the wires carry is asked for, which takes more strokes. */
bool MapKeeper::wantsCarry() const
{
    return heard != nullptr && (shaded == finding::Figure::wiresCarry || isWished (wished, finding::Figure::wiresCarry));
}

/** Other wires, another stick, stroke or place: the map stays, strokes have to be played again. */
void MapKeeper::forgetStrokes()
{
    ground.played = nullptr;
    isPlaying = false;
    renew (cancelStrokes);
    try
    {
        request = plugin::requestOf (processor.effectiveValues());
    }
    catch (const modal::InputError&)
    {
        return; // the processor has reported why
    }
    look();
    tell();
}

void MapKeeper::makeMap (double step)
{
    background.run (
        [before = ground, drum = request->drum, step, stop = cancel]
        {
            auto made = before;
            try
            {
                if (made.tuner == nullptr)
                {
                    made.tuner = std::make_shared<const modal::DrumTuner> (drum);
                    made.solver = std::make_shared<const modal::DrumSolver> (finding::solverFor (*made.tuner));
                    made.prudent = finding::areaOf (*made.tuner, modal::prudentYieldShare, modal::prudentYieldShare);
                }
                made.map =
                    finding::TuningMap::make (*made.tuner, *made.solver, finding::areaOf (*made.tuner), step, helpers(), *stop);
                made.step = step;
            }
            catch (const modal::InputError& refused)
            {
                made.refusal = juce::String::fromUTF8 (refused.what());
            }
            return std::pair{ stop, made };
        },
        [this] (std::pair<Cancel, Ground> made)
        {
            if (made.first != cancel)
                return;
            ground = made.second;
            findStart();
            trouble = ground.refusal;
            if (ground.map != nullptr && ! isFine())
                makeMap (0.5 * ground.step);
            else if (ground.map != nullptr)
                look();
            tell();
        });
}

bool MapKeeper::isFine() const
{
    return ground.step <= finding::stepFor (request->drum);
}

void MapKeeper::ask (std::vector<finding::Wish> wishes, finding::Figure toShade)
{
    const bool wantedCarry = wantsCarry();
    wished = std::move (wishes);
    shaded = toShade;
    result = {};
    if (wantsCarry() && ! wantedCarry && (isPlaying || ground.played != nullptr))
        return forgetStrokes();
    look();
    tell();
}

void MapKeeper::startHere()
{
    const auto solved = processor.solvedDrum();
    if (solved == nullptr || ! solved->prediction.drum.hasResonantHead())
        return;
    present = finding::Present{ solved->prediction.batter.tapNote, solved->prediction.resonant.tapNote };
    findStart();
    look();
    tell();
}

/** Once for each start and map, since a head's tension for a note takes a search. */
void MapKeeper::findStart()
{
    startHeads.reset();
    if (! present || ground.map == nullptr)
        return;
    try
    {
        const auto& tuner = *ground.tuner;
        startHeads = modal::Tensions{ tuner.notes (modal::HeadSide::batter).tensionFor (present->batterNote),
                                      tuner.notes (modal::HeadSide::resonant).tensionFor (present->resonantNote) };
    }
    catch (const modal::InputError&)
    {
        // This drum cannot have the notes from which moves count: there is no plan.
    }
}

void MapKeeper::playStrokes()
{
    isPlaying = true;
    background.run (
        [before = ground,
         playing = finding::Playing{ { request->wires, request->hoop, request->stick },
                                     hand,
                                     wantsCarry() ? request->place : std::nullopt },
         stop = cancelStrokes]() -> std::pair<Cancel, std::shared_ptr<const finding::PlayedMap>>
        {
            try
            {
                return { stop, finding::PlayedMap::make (*before.tuner, playing, before.prudent, finding::playedStep, helpers(),
                                                         *stop) };
            }
            catch (const modal::InputError&)
            {
                return { stop, nullptr }; // the processor has reported why it cannot be played
            }
        },
        [this] (std::pair<Cancel, std::shared_ptr<const finding::PlayedMap>> made)
        {
            if (made.first != cancelStrokes)
                return;
            ground.played = made.second;
            look();
            tell();
        });
}

void MapKeeper::look()
{
    const auto number = ++lookNumber;
    if (ground.map == nullptr || ! isFine())
        return;
    if ((finding::infoOf (shaded).isPlayed || finding::needsPlaying (wished)) && ! isPlaying)
        playStrokes();
    if (wished.empty() || (finding::needsPlaying (wished) && ground.played == nullptr))
        return;
    background.run (
        [on = ground, within = finding::areaFor (wished, ground.map->area(), ground.prudent), from = present, wishes = wished,
         where = heard]
        {
            try
            {
                return finding::find ({ *on.tuner, *on.solver, *on.map, on.played.get(), within, from, where.get() }, wishes);
            }
            catch (const modal::InputError&)
            {
                return finding::FindResult{}; // a wish about moves before the first drum
            }
        },
        [this, number] (finding::FindResult found)
        {
            if (number != lookNumber)
                return;
            result = std::move (found);
            tell();
        });
}

void MapKeeper::tell() const
{
    if (onChange)
        onChange();
}

} // namespace editor
