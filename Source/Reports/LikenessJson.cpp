#include "LikenessJson.h"

#include "Wording/LikenessText.h"

namespace reports
{

using files::Json;

namespace
{

Json toldJson (const playlike::Told& told)
{
    return Json{ { "value", told.value }, { "low", told.low }, { "high", told.high }, { "is_measured", told.isMeasured } };
}

Json ringJson (const playlike::OctaveFall& fall)
{
    return fall.t60 ? Json (*fall.t60) : Json();
}

} // namespace

Json likenessJson (const playlike::Likeness& likeness)
{
    Json rings = Json::array();

    for (std::size_t i = 0; i < playlike::octaves.size(); ++i)
        rings.push_back (Json{ { "from_hz", playlike::octaves[i] },
                               { "recorded_t60_s", ringJson (likeness.recorded[i]) },
                               { "model_t60_s", ringJson (likeness.played[i]) } });

    return Json{ { "wires_on", likeness.hasWires },
                 { "gel_kg", toldJson (likeness.gel) },
                 { "strand_tension_n", likeness.hasWires ? toldJson (likeness.strandTension) : Json() },
                 { "batter_tension_n_per_m", likeness.tensions.batter },
                 { "octaves", rings },
                 { "text", wording::sentences (likeness) } };
}

files::DrumFile drumFileOf (const playlike::Likeness& likeness)
{
    files::DrumFile file;
    file.drum = likeness.drum;
    file.wires = likeness.fittings.wires;
    file.hoop = likeness.fittings.hoop;
    file.stick = likeness.fittings.stick;
    modal::Tuning tuning;
    tuning.name = "As recorded";
    tuning.target = likeness.tensions;
    file.tunings.push_back (std::move (tuning));
    return file;
}

} // namespace reports
