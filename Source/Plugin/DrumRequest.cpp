#include "DrumRequest.h"

#include "ParameterText.h"

#include "Modal/InputError.h"
#include "Modal/Units.h"

#include <algorithm>
#include <cmath>

namespace plugin
{
namespace
{
using P = Parameter;

int wholeOf (const Values& values, P parameter)
{
    return static_cast<int> (std::lround (valueOf (values, parameter)));
}

modal::HeadConstruction batterOf (const Values& values)
{
    modal::HeadConstruction head;
    head.plyThickness = siOf (values, P::batterFilm);
    head.plies = wholeOf (values, P::batterPlies);
    head.coatingDensity = siOf (values, P::batterCoating);
    head.dotDiameter = siOf (values, P::batterDot);
    head.dotThickness = siOf (values, P::batterDotFilm);
    head.ringWidth = siOf (values, P::batterRing);
    head.ringThickness = siOf (values, P::batterRingFilm);
    return head;
}

modal::HeadConstruction resonantOf (const Values& values)
{
    modal::HeadConstruction head;
    head.plyThickness = siOf (values, P::resonantFilm);
    head.plies = wholeOf (values, P::resonantPlies);
    head.coatingDensity = siOf (values, P::resonantCoating);
    return head;
}

modal::Muffling mufflingOf (const Values& values, double radius)
{
    modal::Muffling muffling;
    const auto patch = [&] (P mass, modal::HeadSide head)
    {
        if (siOf (values, mass) <= 0.0)
            return;
        modal::MufflingItem item;
        item.head = head;
        item.mass = siOf (values, mass);
        item.size = siOf (values, P::patchSize);
        item.distance = siOf (values, P::patchPlace) * radius;
        item.resistance = siOf (values, P::patchRub);
        muffling.push_back (item);
    };

    patch (P::patchMass, modal::HeadSide::batter);
    patch (P::resonantPatchMass, modal::HeadSide::resonant);

    if (siOf (values, P::muffleRingMass) > 0.0)
    {
        modal::MufflingItem item;
        item.shape = modal::MufflingItem::Shape::ring;
        item.mass = siOf (values, P::muffleRingMass);
        item.size = siOf (values, P::muffleRingWidth);
        item.resistance = siOf (values, P::patchRub);
        muffling.push_back (item);
    }

    return muffling;
}

/** The cents of the lugs that the drum has; nothing if all are even. */
std::vector<double> lugCentsOf (const Values& values, P first, int lugs)
{
    std::vector<double> cents;
    for (int lug = 0; lug < lugs; ++lug)
        cents.push_back (static_cast<double> (values[indexOf (first) + static_cast<std::size_t> (lug)]));

    const bool isEven = std::all_of (cents.begin(), cents.end(), [] (double c) { return c == 0.0; });
    return isEven ? std::vector<double>{} : cents;
}

modal::Tuning tuningOf (const Values& values, std::optional<int> playedNote, int lugs)
{
    modal::Tuning tuning;
    tuning.concertPitch = { siOf (values, P::concertPitch) };
    const auto note = playedNote ? static_cast<double> (*playedNote) : static_cast<double> (valueOf (values, P::batterNote));
    const auto hertzOf = [&] (double midi, P fine)
    {
        const auto cents = static_cast<double> (valueOf (values, fine));
        return tuning.concertPitch.a4 * std::exp2 ((midi - 69.0) / 12.0 + cents / 1200.0);
    };
    const auto interval = static_cast<double> (valueOf (values, P::interval));
    tuning.target = modal::ByTapNotes{ hertzOf (note, P::batterCents), hertzOf (note + interval, P::resonantCents) };
    tuning.lugs.batter = lugCentsOf (values, P::batterLug1, lugs);
    tuning.lugs.resonant = lugCentsOf (values, P::resonantLug1, lugs);
    return tuning;
}

modal::WireSpec wiresOf (const Values& values)
{
    modal::WireSpec wires;
    wires.on = isOn (values, P::wiresOn);
    wires.strands = wholeOf (values, P::wireStrands);
    wires.strandMass = siOf (values, P::wireMass);
    wires.strandTension = siOf (values, P::wireTension);
    wires.pressDepth = siOf (values, P::wirePress);
    wires.unevenness = siOf (values, P::wireUnevenness);
    return wires;
}

modal::StickSpec stickOf (const Values& values)
{
    modal::StickSpec stick;
    stick.mass = siOf (values, P::stickMass);
    stick.stiffness = siOf (values, P::stickTip);
    stick.shaftMass = siOf (values, P::shaftMass);
    return stick;
}

std::vector<engine::Microphone> microphonesOf (const Values& values, double depth)
{
    auto microphones = engine::defaultMicrophones (depth);
    const auto turn = [] (engine::Microphone& microphone, double radius)
    {
        const auto now = std::hypot (microphone.x, microphone.y);
        microphone.x *= radius / now;
        microphone.y *= radius / now;
    };
    turn (microphones[0], siOf (values, P::aboveOffset));
    microphones[0].z = siOf (values, P::aboveHeight);
    microphones[1].z = -depth - siOf (values, P::belowDistance);

    auto& distant = microphones[2];
    const auto scale = siOf (values, P::distantDistance) / std::hypot (distant.x, distant.y, distant.z);
    distant.x *= scale;
    distant.y *= scale;
    distant.z *= scale;
    return microphones;
}

/** Sets a parameter to an SI value, and says so if it cannot hold it. */
class Setter
{
public:
    explicit Setter (Values& toFill) : values (toFill) {}

    void operator() (P parameter, double si)
    {
        const auto& spec = specOf (parameter);
        const auto value = spec.fromSi (si);
        const auto slack = 1.0e-6 * (spec.high - spec.low);

        if (! std::isfinite (value) || value < spec.low - slack || value > spec.high + slack)
            throw modal::InputError (spec.name, textOf (spec, value),
                                     textOf (spec, spec.low) + " to " + textOf (spec, spec.high));

        values[indexOf (parameter)] = static_cast<float> (spec.snapped (value));
    }

    void word (P parameter, const std::string& word)
    {
        values[indexOf (parameter)] = static_cast<float> (valueFrom (word, specOf (parameter)));
    }

private:
    Values& values;
};

void setHeads (Setter& set, const modal::DrumSpec& drum)
{
    set (P::batterFilm, drum.batter.plyThickness);
    set (P::batterPlies, drum.batter.plies);
    set (P::batterCoating, drum.batter.coatingDensity);
    set (P::batterDot, drum.batter.dotDiameter);
    set (P::batterDotFilm, drum.batter.dotThickness);
    set (P::batterRing, drum.batter.ringWidth);
    set (P::batterRingFilm, drum.batter.ringThickness);

    if (! drum.hasResonantHead())
        return;

    if (drum.resonant.dotDiameter > 0.0 || drum.resonant.ringWidth > 0.0)
        throw modal::InputError ("Resonant head", "a dot or a ring",
                                 "a plain or coated head; the plugin has dots and rings on the batter head");

    set (P::resonantFilm, drum.resonant.plyThickness);
    set (P::resonantPlies, drum.resonant.plies);
    set (P::resonantCoating, drum.resonant.coatingDensity);
}

void setWires (Setter& set, const modal::WireSpec& wires)
{
    set (P::wiresOn, wires.on ? 1.0 : 0.0);
    set (P::wireStrands, wires.strands);
    set (P::wireMass, wires.strandMass);
    set (P::wireTension, wires.strandTension);
    set (P::wirePress, wires.pressDepth);
    set (P::wireUnevenness, wires.unevenness);
}

void setMuffling (Setter& set, const modal::DrumSpec& drum)
{
    for (const auto mass : { P::patchMass, P::muffleRingMass, P::resonantPatchMass })
        set (mass, 0.0);

    for (const auto& item : drum.muffling)
    {
        const bool isRing = item.shape == modal::MufflingItem::Shape::ring;
        const auto mass = isRing ? P::muffleRingMass : item.head == modal::HeadSide::batter ? P::patchMass : P::resonantPatchMass;
        set (mass, item.mass);
        set (isRing ? P::muffleRingWidth : P::patchSize, item.size);
        set (P::patchRub, item.resistance);
        if (! isRing)
            set (P::patchPlace, item.distance / drum.radius());
    }
}

void setTuning (Setter& set, const modal::DrumSpec& drum, const modal::Tuning& tuning)
{
    double batter = 0.0, resonant = 0.0;

    if (const auto* notes = std::get_if<modal::ByTapNotes> (&tuning.target))
    {
        batter = notes->batter;
        resonant = notes->resonant;
    }
    else
    {
        const auto tensions = modal::tensionsFor (drum, tuning);
        batter = modal::tapNote (drum, modal::HeadSide::batter, tensions.batter);
        resonant = drum.hasResonantHead() ? modal::tapNote (drum, modal::HeadSide::resonant, tensions.resonant) : 0.0;
    }

    set (P::concertPitch, tuning.concertPitch.a4);
    set (P::batterNote, 69.0 + 12.0 * std::log2 (batter / tuning.concertPitch.a4));
    set (P::batterCents, 0.0);
    set (P::resonantCents, 0.0);
    if (resonant > 0.0)
        set (P::interval, 12.0 * std::log2 (resonant / batter));

    for (int lug = 0; lug < mostLugs; ++lug)
    {
        const auto centsAt = [lug] (const std::vector<double>& cents)
        { return static_cast<std::size_t> (lug) < cents.size() ? cents[static_cast<std::size_t> (lug)] : 0.0; };
        set (batterLug (lug), centsAt (tuning.lugs.batter));
        set (resonantLug (lug), centsAt (tuning.lugs.resonant));
    }
}
} // namespace

DrumRequest requestOf (const Values& values, std::optional<int> playedNote)
{
    DrumRequest request;
    auto& drum = request.drum;
    drum.diameter = siOf (values, P::diameter);
    drum.depth = siOf (values, P::depth);
    drum.bottom = static_cast<modal::Bottom> (wholeOf (values, P::bottom));
    drum.lugs = wholeOf (values, P::lugs);
    drum.vent.diameter = siOf (values, P::ventDiameter);
    drum.shell.material = specOf (P::shellMaterial).words[static_cast<std::size_t> (wholeOf (values, P::shellMaterial))];
    drum.shell.thickness = siOf (values, P::shellThickness);
    drum.vent.length = drum.shell.thickness;
    drum.batter = batterOf (values);
    drum.resonant = resonantOf (values);
    drum.muffling = mufflingOf (values, drum.radius());

    request.weather.temperature = siOf (values, P::temperature);
    request.weather.relativeHumidity = siOf (values, P::humidity);
    drum.air = modal::Air::from (request.weather);

    request.tuning = tuningOf (values, playedNote, drum.lugs);
    request.wires = wiresOf (values);
    request.stick = stickOf (values);
    request.hoop.kind = static_cast<modal::HoopSpec::Kind> (wholeOf (values, P::hoop));
    request.microphones = microphonesOf (values, drum.depth);
    return request;
}

void setDrum (Values& values, const files::DrumFile& file, std::size_t tuning)
{
    const auto& drum = file.drum;

    if (tuning >= file.tunings.size())
        throw modal::InputError ("tunings", "none", "at least one tuning in the drum file");
    if (drum.surround != modal::Surround::freeStanding || drum.air.isVacuum())
        throw modal::InputError ("drum", "a baffled drum or a drum without air", "a drum on a stand in air");

    auto changed = values;
    Setter set (changed);
    set (P::diameter, drum.diameter);
    set (P::depth, drum.depth);
    set (P::bottom, static_cast<double> (drum.bottom));
    set (P::lugs, drum.lugs);
    set (P::ventDiameter, drum.vent.diameter);
    set.word (P::shellMaterial, drum.shell.material);
    set (P::shellThickness, drum.shell.thickness);
    set (P::hoop, static_cast<double> (file.hoop.kind));
    setHeads (set, drum);
    setWires (set, file.wires);
    set (P::stickMass, file.stick.mass);
    set (P::stickTip, file.stick.stiffness);
    set (P::shaftMass, file.stick.shaftMass);
    setMuffling (set, drum);
    setTuning (set, drum, file.tunings[tuning]);

    if (file.weather)
    {
        set (P::temperature, file.weather->temperature);
        set (P::humidity, file.weather->relativeHumidity);
    }

    values = changed;
}

files::DrumFile drumFileOf (const Values& values, const std::string& name)
{
    const auto request = requestOf (values);
    files::DrumFile file;
    file.drum = request.drum;
    file.drum.name = name;
    file.weather = request.weather;
    file.wires = request.wires;
    file.hoop = request.hoop;
    file.stick = request.stick;
    file.tunings = { request.tuning };
    file.tunings.front().name = name;
    return file;
}

} // namespace plugin
