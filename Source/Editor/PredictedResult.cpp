#include "PredictedResult.h"

#include "NoteText.h"
#include "Strings.h"

#include <cmath>
#include <functional>

namespace editor
{
namespace
{
using juce::String;

const char* const arrowUp = "\xe2\x96\xb2 ";
const char* const arrowDown = "\xe2\x96\xbc ";

/** Uncertainty as text, and as a number in cents, dB or as a natural logarithm. */
struct Uncertainty
{
    const char* words;
    double size;
};

const Uncertainty withinSemitone{ strings::withinSemitone, 50.0 };
const Uncertainty within3dB{ strings::within3dB, 3.0 };
const Uncertainty withinTwentieth{ strings::withinTwentieth, std::log (1.05) };
const Uncertainty withinFifth{ strings::withinFifth, std::log (1.2) };
const Uncertainty withinFactor2{ strings::withinFactor2, std::log (2.0) };

/** A change with an arrow if it exceeds the uncertainty, otherwise with a sign. */
String changeText (double change, bool isClear, int decimals, const char* unit)
{
    if (std::abs (change) < 0.5 * std::pow (10.0, -decimals))
        return String::fromUTF8 (strings::same);
    const auto number = isClear ? String::fromUTF8 (change > 0.0 ? arrowUp : arrowDown) + fixed (std::abs (change), decimals)
                                : withSign (change, decimals);
    return number + unit;
}

/** Text for the change from one value to another. */
using Compare = std::function<String (double before, double now)>;

Compare inCents (Uncertainty sure)
{
    return [sure] (double before, double now)
    {
        const double cents = before > 0.0 && now > 0.0 ? modal::centsBetween (before, now) : 0.0;
        return changeText (cents, std::abs (cents) >= sure.size, 0, " c");
    };
}

Compare inPercent (Uncertainty sure)
{
    return [sure] (double before, double now) -> String
    {
        if (! (before > 0.0) || ! (now > 0.0) || ! std::isfinite (before) || ! std::isfinite (now))
            return {};
        return changeText (100.0 * (now / before - 1.0), std::abs (std::log (now / before)) >= sure.size, 0, " %");
    };
}

Compare inDecibels (Uncertainty sure)
{
    return [sure] (double before, double now)
    { return changeText (now - before, std::abs (now - before) >= sure.size, 1, " dB"); };
}

/** Reads a number from both and compares. */
template <typename Source, typename Read>
String changeOf (const std::shared_ptr<const Source>& before, const std::shared_ptr<const Source>& now, Read read,
                 const Compare& compare)
{
    return before != nullptr && now != nullptr ? compare (read (*before), read (*now)) : String();
}

double softestAt (const engine::PlayedResponse& played, bool isEdge)
{
    return isEdge ? played.wireResponse.back().softestSpeed : played.wireResponse.front().softestSpeed;
}

String speedText (double metresPerSecond)
{
    return std::isfinite (metresPerSecond) ? fixed (metresPerSecond, 2) + " m/s" : String (strings::notAtAll);
}

void addHeads (std::vector<ResultLine>& list, const Scene& scene)
{
    for (const bool isBatter : { true, false })
    {
        if (! isBatter && ! scene.now->drum.hasResonantHead())
            continue;
        const auto head = [isBatter] (const modal::Prediction& p) -> const modal::HeadPrediction&
        { return isBatter ? p.batter : p.resonant; };
        // The former drum may have had no resonant head.
        const auto before =
            scene.before != nullptr && (isBatter || scene.before->drum.hasResonantHead()) ? scene.before : nullptr;
        const auto& now = head (*scene.now);

        ResultLine tension{ isBatter ? strings::batterTension : strings::resonantTension, grouped (now.tension) + " N/m",
                         strings::tensionTip, withinTwentieth.words };
        tension.change = changeOf (
            before, scene.now, [&] (const auto& p) { return head (p).tension; }, inPercent (withinTwentieth));
        tension.isGroupStart = isBatter;
        list.push_back (tension);

        ResultLine stress{ isBatter ? strings::batterStress : strings::resonantStress, fixed (100.0 * now.yieldShare, 0) + " %",
                        strings::stressTip, withinTwentieth.words };
        stress.limitShare = static_cast<float> (now.yieldShare);
        list.push_back (stress);

        ResultLine force{ isBatter ? strings::batterRodForce : strings::resonantRodForce, grouped (now.forcePerLug) + " N",
                       strings::rodForceTip, withinFifth.words };
        force.change = changeOf (
            before, scene.now, [&] (const auto& p) { return head (p).forcePerLug; }, inPercent (withinFifth));
        list.push_back (force);
    }
}

void addPlayed (std::vector<ResultLine>& list, const Scene& scene)
{
    const auto add =
        [&] (const char* name, auto text, auto read, const Compare& compare, const Uncertainty& sure, const char* tip)
    {
        ResultLine line{ name, scene.played != nullptr ? text (*scene.played) : String (strings::notYet), tip, sure.words };
        line.change = changeOf (scene.playedBefore, scene.played, read, compare);
        list.push_back (line);
    };
    // A brush has neither figure: nothing to compare.
    const auto clearForBrush = [&]
    {
        const auto isBrush = [] (const auto& played) { return played != nullptr && played->isBrush; };
        if (isBrush (scene.played) || isBrush (scene.playedBefore))
            list.back().change = {};
    };
    if (scene.now->drum.hasResonantHead())
        add (
            strings::ringWiresOn,
            [] (const auto& p) { return p.ringWiresOn > 0.0 ? fixed (p.ringWiresOn, 2) + " s" : String (strings::wiresOff); },
            [] (const auto& p) { return p.ringWiresOn; }, inPercent (withinFactor2), withinFactor2, strings::ringWiresOnTip);
    const auto first = list.size();
    add (
        strings::brightness, [] (const auto& p) { return grouped (p.brightness) + " Hz"; },
        [] (const auto& p) { return p.brightness; }, inPercent (withinFifth), withinFifth, strings::brightnessTip);
    list[first].isGroupStart = true;
    add (
        strings::dryness, [] (const auto& p) { return withSign (p.earlyToLate, 1) + " dB"; },
        [] (const auto& p) { return p.earlyToLate; }, inDecibels (within3dB), within3dB, strings::drynessTip);
    if (scene.now->drum.hasResonantHead())
        for (const bool isEdge : { false, true })
        {
            // 0 without wires: nothing to compare.
            const auto speed = [isEdge] (const engine::PlayedResponse& p)
            { return p.wireResponse.empty() ? 0.0 : softestAt (p, isEdge); };
            add (
                isEdge ? strings::wiresAtEdge : strings::wiresAtCentre,
                [&] (const auto& p) { return p.wireResponse.empty() ? String (strings::wiresOff) : speedText (speed (p)); },
                speed, inPercent (withinFactor2), withinFactor2, strings::wireResponseTip);
            list.back().label = isEdge ? strings::wiresAtEdgeShort : strings::wiresAtCentreShort;
        }
    add (
        strings::rebound, [] (const auto& p) { return p.isBrush ? String (strings::ofStickOnly) : fixed (100.0 * p.rebound, 0) + " %"; },
        [] (const auto& p) { return p.rebound; }, inPercent (withinFifth), withinFifth, strings::reboundTip);
    clearForBrush();
    add (
        strings::contact, [] (const auto& p) { return fixed (1000.0 * p.contactTime, 1) + " ms"; },
        [] (const auto& p) { return p.contactTime; }, inPercent (withinFifth), withinFifth, strings::contactTip);
    add (
        strings::rimshotLevel, [] (const auto& p) { return p.isBrush ? String (strings::ofStickOnly) : withSign (p.rimshot.level, 1) + " dB"; },
        [] (const auto& p) { return p.rimshot.level; }, inDecibels (within3dB), within3dB, strings::rimshotLevelTip);
    clearForBrush();
}

void addPlace (std::vector<ResultLine>& list, const Scene& scene)
{
    const auto first = list.size();
    const auto add = [&] (const char* name, auto text, const char* tip, const Uncertainty& sure)
    { list.push_back ({ name, scene.atListener != nullptr ? text (*scene.atListener) : String (strings::notYet), tip, sure.words }); };
    add (
        strings::noteInPlace,
        [&] (const auto& at) { return fixed (at.noteLasts, 2) + " s, " + fixed (at.noteLasts * scene.tempo / 60.0, 1) + " beats"; },
        strings::noteInPlaceTip, withinFactor2);
    list[first].isGroupStart = true;
    add (
        strings::levelInPlace, [] (const auto& at) { return fixed (at.level, 0) + " dB(A)"; }, strings::levelInPlaceTip, within3dB);
    if (scene.model->wireContacts() > 0)
        add (
            strings::wiresCarry,
            [] (const auto& at)
            {
                const double far = at.wiresCarryTo();
                return std::isfinite (far) ? fixed (far, far < 10.0 ? 1 : 0) + " m" : String (strings::everywhere);
            },
            strings::wiresCarryTip, withinFactor2);
}

void addLeverage (std::vector<ResultLine>& list, const char* name, const char* label, double cents)
{
    ResultLine leverage{ name, withSign (cents, 0) + " c", strings::perSemitoneTip, withinFifth.words };
    leverage.label = label;
    leverage.isDetail = true;
    list.push_back (leverage);
}

} // namespace

std::vector<ResultLine> predictedResult (const Scene& scene, modal::ConcertPitch pitch)
{
    std::vector<ResultLine> list;
    if (scene.now == nullptr)
        return list;
    const auto& now = *scene.now;
    ResultLine note{ strings::drumNote, noteWithCents (now.drumNote, pitch) + ", " + fixed (now.drumNote, 0) + " Hz",
                  strings::drumNoteTip, withinSemitone.words };
    note.change = changeOf (
        scene.before, scene.now, [] (const auto& p) { return p.drumNote; }, inCents (withinSemitone));
    list.push_back (note);
    addLeverage (list, strings::perBatterSemitone, strings::perBatterSemitoneShort, now.drumNotePerBatterSemitone);
    if (now.drum.hasResonantHead())
        addLeverage (list, strings::perResonantSemitone, strings::perResonantSemitoneShort, now.drumNotePerResonantSemitone);
    ResultLine ring{ now.drum.hasResonantHead() ? strings::ringWiresOff : strings::ring, fixed (now.sustain, 2) + " s",
                  strings::ringTip, withinFactor2.words };
    ring.change = changeOf (
        scene.before, scene.now, [] (const auto& p) { return p.sustain; }, inPercent (withinFactor2));
    list.push_back (ring);
    addPlayed (list, scene);
    if (scene.isInPlace)
        addPlace (list, scene);
    addHeads (list, scene);
    return list;
}

} // namespace editor
