#include "Outcome.h"

#include "NoteText.h"
#include "Strings.h"

#include <cmath>

namespace editor
{
namespace
{
using juce::String;

const char* const arrowUp = "\xe2\x96\xb2 ";
const char* const arrowDown = "\xe2\x96\xbc ";

String arrow (double change)
{
    return String::fromUTF8 (change > 0.0 ? arrowUp : arrowDown);
}

String centsChange (double before, double now)
{
    if (before <= 0.0 || now <= 0.0)
        return {};
    const double cents = modal::centsBetween (before, now);
    return std::abs (cents) < 0.5 ? String::fromUTF8 (strings::same) : arrow (cents) + fixed (std::abs (cents), 0) + " c";
}

String percentChange (double before, double now)
{
    if (! (before > 0.0) || ! std::isfinite (before) || ! std::isfinite (now))
        return {};
    const double percent = 100.0 * (now / before - 1.0);
    return std::abs (percent) < 0.5 ? String::fromUTF8 (strings::same) : arrow (percent) + fixed (std::abs (percent), 0) + " %";
}

String decibelChange (double before, double now)
{
    const double change = now - before;
    return std::abs (change) < 0.05 ? String::fromUTF8 (strings::same) : arrow (change) + fixed (std::abs (change), 1) + " dB";
}

/** Reads the same number from what is and from what was. */
template <typename Source, typename Read, typename Change>
String changeOf (const std::shared_ptr<const Source>& before, const std::shared_ptr<const Source>& now, Read read, Change change)
{
    return before != nullptr && now != nullptr ? change (read (*before), read (*now)) : String();
}

double softestAt (const engine::PlayedResponse& played, bool isEdge)
{
    return isEdge ? played.wireResponse.back().softestSpeed : played.wireResponse.front().softestSpeed;
}

String speedText (double metresPerSecond)
{
    return std::isfinite (metresPerSecond) ? fixed (metresPerSecond, 2) + " m/s" : String (strings::notAtAll);
}

void addHeads (std::vector<Outcome>& list, const Scene& scene)
{
    for (const bool isBatter : { true, false })
    {
        if (! isBatter && ! scene.now->drum.hasResonantHead())
            continue;
        const auto head = [isBatter] (const modal::Prediction& p) -> const modal::HeadPrediction&
        { return isBatter ? p.batter : p.resonant; };
        const auto& now = head (*scene.now);
        list.push_back ({ isBatter ? strings::batterTension : strings::resonantTension, grouped (now.tension) + " N/m",
                          changeOf (
                              scene.before, scene.now, [&] (const auto& p) { return head (p).tension; }, percentChange),
                          String::fromUTF8 (strings::withinTwentieth), String::fromUTF8 (strings::tensionTip), -1.0f, isBatter });
        list.push_back ({ isBatter ? strings::batterStress : strings::resonantStress,
                          fixed (100.0 * now.yieldShare, 0) + " %, " + fixed (now.stress / 1.0e6, 0) + " MPa",
                          {},
                          String::fromUTF8 (strings::withinTwentieth),
                          String::fromUTF8 (strings::stressTip),
                          static_cast<float> (now.yieldShare) });
        list.push_back ({ isBatter ? strings::batterLugForce : strings::resonantLugForce, grouped (now.forcePerLug) + " N",
                          changeOf (
                              scene.before, scene.now, [&] (const auto& p) { return head (p).forcePerLug; }, percentChange),
                          String::fromUTF8 (strings::withinFifth), String::fromUTF8 (strings::lugForceTip) });
    }
}

void addPlayed (std::vector<Outcome>& list, const Scene& scene)
{
    const auto value = [&] (auto text) { return scene.played != nullptr ? text (*scene.played) : String (strings::notYet); };
    const auto change = [&] (auto read, auto compare) { return changeOf (scene.playedBefore, scene.played, read, compare); };

    list.push_back ({ strings::brightness, value ([] (const auto& p) { return grouped (p.brightness) + " Hz"; }),
                      change ([] (const auto& p) { return p.brightness; }, percentChange),
                      String::fromUTF8 (strings::withinFifth), String::fromUTF8 (strings::brightnessTip), -1.0f, true });
    list.push_back ({ strings::earlyToLate, value ([] (const auto& p) { return withSign (p.earlyToLate, 1) + " dB"; }),
                      change ([] (const auto& p) { return p.earlyToLate; }, decibelChange), String::fromUTF8 (strings::within3dB),
                      String::fromUTF8 (strings::earlyToLateTip) });
    const bool hasWires = scene.played == nullptr || ! scene.played->wireResponse.empty();
    for (const bool isEdge : { false, true })
    {
        const auto speed = [isEdge] (const engine::PlayedResponse& p)
        { return p.wireResponse.empty() ? 0.0 : softestAt (p, isEdge); };
        list.push_back (
            { isEdge ? strings::wiresAtEdge : strings::wiresAtCentre,
              hasWires ? value ([&] (const auto& p) { return speedText (softestAt (p, isEdge)); }) : String (strings::wiresOff),
              change (speed, percentChange), String::fromUTF8 (strings::withinFactor2),
              String::fromUTF8 (strings::wireResponseTip) });
    }
    list.push_back ({ strings::rebound, value ([] (const auto& p) { return fixed (100.0 * p.rebound, 0) + " %"; }),
                      change ([] (const auto& p) { return p.rebound; }, percentChange), String::fromUTF8 (strings::withinFifth),
                      String::fromUTF8 (strings::reboundTip) });
    list.push_back ({ strings::contact, value ([] (const auto& p) { return fixed (1000.0 * p.contactTime, 1) + " ms"; }),
                      change ([] (const auto& p) { return p.contactTime; }, percentChange),
                      String::fromUTF8 (strings::withinFifth), String::fromUTF8 (strings::contactTip) });
}

} // namespace

std::vector<Outcome> outcomesOf (const Scene& scene, modal::ConcertPitch pitch)
{
    std::vector<Outcome> list;
    if (scene.now == nullptr)
        return list;
    const auto& now = *scene.now;
    list.push_back ({ strings::drumNote, noteWithCents (now.drumNote, pitch) + ", " + fixed (now.drumNote, 0) + " Hz",
                      changeOf (
                          scene.before, scene.now, [] (const auto& p) { return p.drumNote; }, centsChange),
                      String::fromUTF8 (strings::withinSemitone), String::fromUTF8 (strings::drumNoteTip) });
    list.push_back ({ strings::sustain, fixed (now.sustain, 2) + " s",
                      changeOf (
                          scene.before, scene.now, [] (const auto& p) { return p.sustain; }, percentChange),
                      String::fromUTF8 (strings::withinFactor2), String::fromUTF8 (strings::sustainTip) });
    list.push_back ({ strings::batterLeverage,
                      withSign (now.drumNotePerBatterSemitone, 0) + " c",
                      {},
                      String::fromUTF8 (strings::withinFifth),
                      String::fromUTF8 (strings::leverageTip) });
    if (now.drum.hasResonantHead())
        list.push_back ({ strings::resonantLeverage,
                          withSign (now.drumNotePerResonantSemitone, 0) + " c",
                          {},
                          String::fromUTF8 (strings::withinFifth),
                          String::fromUTF8 (strings::leverageTip) });
    addPlayed (list, scene);
    addHeads (list, scene);
    return list;
}

} // namespace editor
