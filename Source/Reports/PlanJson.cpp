#include "PlanJson.h"

#include "JsonList.h"

#include "Wording/PlanText.h"

namespace reports
{

using namespace fitting;
using namespace modal;
using files::Json;

Json planJson (const Plan& plan)
{
    Json heads = Json::array();

    for (const auto& head : plan.heads)
    {
        Json passes = Json::array();

        for (const auto& pass : head.passes)
        {
            Json order = Json::array(), turns = Json::array(), words = Json::array();

            for (const int lug : pass.order)
                order.emplace_back (lug + 1);

            for (const double turn : pass.turns)
            {
                turns.emplace_back (turn);
                words.emplace_back (wording::keyTurn (turn));
            }

            passes.push_back (Json{ { "order", order },
                                    { "turns", turns },
                                    { "turns_text", words },
                                    { "tap_note_hz", pass.tapNote },
                                    { "tap_note_error_cents", pass.tapNoteError },
                                    { "tension_n_per_m", pass.tension } });
        }

        Json afterTest = Json::array();

        for (const auto& after : head.afterTest)
            afterTest.push_back (Json{ { "tap_note_hz", after.tapNote }, { "turns_left", after.turnsLeft } });

        Json cautions = Json::array();

        for (const auto& caution : head.cautions)
            cautions.push_back (Json{ { "kind", std::string (nameOf (caution.kind)) },
                                      { "value", caution.value },
                                      { "text", wording::text (caution, head.side) } });

        heads.push_back (Json{ { "head", head.side == HeadSide::batter ? "batter" : "resonant" },
                               { "from_hz", head.fromNote },
                               { "to_hz", head.toNote },
                               { "is_calibrated", head.isCalibrated },
                               { "head_share", head.response.headShare },
                               { "force_per_rod_n", head.forcePerRod },
                               { "torque_low_n_m", head.torque.low },
                               { "torque_high_n_m", head.torque.high },
                               { "cautions", cautions },
                               { "has_test_turn", head.hasTestTurn },
                               { "after_test", afterTest },
                               { "turns_left", head.turnsLeft },
                               { "passes", passes } });
    }

    return Json{ { "heads", heads }, { "cautions", listOf (wording::planCautions()) } };
}

} // namespace reports
