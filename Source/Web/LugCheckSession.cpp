#include "LugCheckSession.h"

#include "Fitting/NoteReading.h"
#include "Modal/InputError.h"
#include "Reports/FitJson.h"
#include "Wording/TapText.h"

namespace web
{

using files::Json;
using modal::InputError;

void LugCheckSession::start (const modal::DrumSpec& drum, modal::HeadSide head, double sampleRate)
{
    check = std::make_unique<listening::LiveLugCheck> (fitting::HeadFitSetup{ .drum = drum, .side = head }, sampleRate);
    side = head;
}

listening::LiveLugCheck& LugCheckSession::running() const
{
    if (check == nullptr)
        throw InputError::fault ("lug check", "is not going on", "a start");

    return *check;
}

void LugCheckSession::add (std::span<const float> samples)
{
    running().add (samples.data(), samples.size());
}

void LugCheckSession::chooseLug (double lug)
{
    const auto lugs = static_cast<double> (running().lugs().size());
    modal::requireInRange (lug, { 1.0, lugs, "" }, "lug");
    running().chooseLug (static_cast<int> (lug) - 1);
}

void LugCheckSession::deleteLastTap()
{
    running().deleteLastTap();
}

Json LugCheckSession::state() const
{
    const auto& now = running();
    Json heard = Json::array();

    for (std::size_t lug = 0; lug < now.lugs().size(); ++lug)
        if (const auto& tap = now.lugs()[lug])
            heard.push_back (Json{ { "lug", lug + 1 },
                                   { "tap_note_hz", tap->tapNote.value },
                                   { "error_cents", fitting::errorInCents (tap->tapNote) } });

    return Json{ { "next", now.nextLug() < 0 ? Json() : Json (now.nextLug() + 1) },
                 { "lugs", now.lugs().size() },
                 { "heard", heard },
                 { "remark", wording::text (now.remark()) },
                 { "is_refusal", now.remark().isRefusal() },
                 { "is_silent", now.isSilent() } };
}

Json LugCheckSession::fit (const std::string& date) const
{
    return reports::fitJson (reports::MeasuredHead{ side, running().fit(), date }, running().drum());
}

} // namespace web
