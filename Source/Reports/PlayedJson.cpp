#include "PlayedJson.h"

#include <cmath>

namespace reports
{

std::vector<PlayedNumber> playedNumbers (const engine::PlayedResponse& p)
{
    std::vector<PlayedNumber> numbers{
        { "contact time", "contact_time_ms", 1.0e3 * p.contactTime, 1, "ms" },
        { "peak force", "peak_force_n", p.peakForce, 0, "N" },
        { "attack brightness, heard from above", "attack_brightness_hz", p.brightness, 0, "Hz" },
        { "dryness (first 50 ms against the rest)", "dryness_db", p.earlyToLate, 1, "dB" },
    };
    const PlayedNumber ofStick{ "rebound (speed after against before)", "rebound_percent", 100.0 * p.rebound, 0, "%" },
        ofBrush{ "its wires land within", "landing_time_ms", 1.0e3 * p.landingTime, 1, "ms" };
    numbers.insert (numbers.begin() + 2, p.isBrush ? ofBrush : ofStick);

    if (! p.wireResponse.empty())
        numbers.push_back ({ "snare sound lasts", "snare_sound_ms", 1.0e3 * p.snareSound, 0, "ms" });

    if (p.isBrush)
    {
        numbers.push_back ({ "sweep at 0.5 m/s, 0.3 N: level against this stroke", "sweep_level_db", p.sweep.level, 1, "dB" });
        numbers.push_back ({ "sweep: brightness", "sweep_brightness_hz", p.sweep.brightness, 0, "Hz" });
        return numbers;
    }

    const auto& rimshot = p.rimshot;
    numbers.push_back ({ "rimshot: contact time", "rimshot_contact_time_ms", 1.0e3 * rimshot.contactTime, 1, "ms" });
    numbers.push_back ({ "rimshot: peak force on the head", "rimshot_peak_force_n", rimshot.peakForce, 0, "N" });
    numbers.push_back ({ "rimshot: peak force on the hoop", "rimshot_hoop_force_n", rimshot.hoopForce, 0, "N" });
    numbers.push_back ({ "rimshot: level against this stroke", "rimshot_level_db", rimshot.level, 1, "dB" });
    numbers.push_back ({ "rimshot: attack brightness", "rimshot_brightness_hz", rimshot.brightness, 0, "Hz" });
    return numbers;
}

files::Json playedJson (const engine::PlayedResponse& p)
{
    files::Json object = files::Json::object();
    files::Json curve = files::Json::array();

    for (const auto& number : playedNumbers (p))
        object[number.jsonKey] = number.value;

    for (const auto& point : p.wireResponse)
        curve.push_back (files::Json{
            { "position_share", point.position },
            { "softest_speed_m_per_s", std::isfinite (point.softestSpeed) ? files::Json (point.softestSpeed) : files::Json() } });

    object["snare_response"] = curve;
    return object;
}

} // namespace reports
