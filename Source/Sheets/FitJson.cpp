#include "FitJson.h"

namespace sheets
{

using namespace modal;
using files::Json;

namespace
{

Json estimateJson (const Estimate& estimate)
{
    return Json::Object{ { "value", estimate.value }, { "error", estimate.error } };
}

} // namespace

Json fitJson (const HeadFit& fit, HeadSide side)
{
    Json::Object object{ { "head", side == HeadSide::batter ? "batter" : "resonant" }, { "is_possible", fit.isPossible } };

    if (fit.isPossible)
    {
        Json::Array lugs;

        for (const auto& lug : fit.lugCents)
            lugs.push_back (estimateJson (lug));

        object.emplace_back ("tap_note_hz", estimateJson (fit.tapNote));
        object.emplace_back ("tension_n_per_m", estimateJson (fit.tension));
        object.emplace_back ("mass_ratio", estimateJson (fit.massRatio));
        object.emplace_back ("loss_ratio", estimateJson (fit.lossRatio));
        object.emplace_back ("lugs_cents", lugs);
    }

    Json::Array doubts, suspects;

    for (const auto& suspect : fit.suspects)
        suspects.push_back (Json::Object{
            { "lug", suspect.lug + 1 }, { "cents", estimateJson (suspect.cents) }, { "probability", suspect.probability } });

    object.emplace_back ("suspects", suspects);
    object.emplace_back ("unevenness_standard_deviations", fit.unevenness);
    object.emplace_back ("misfit_standard_deviations", fit.misfit);
    object.emplace_back ("taps_used", fit.tapsUsed);

    for (const auto& doubt : fit.doubts)
        doubts.emplace_back (doubt);

    object.emplace_back ("doubts", doubts);
    return object;
}

} // namespace sheets
