#include "Requests.h"

#include "Document.h"
#include "LugCheckSession.h"
#include "MapSession.h"
#include "PlanReader.h"

#include "Engine/StrokeLimits.h"
#include "Files/EmbeddedFiles.h"
#include "Files/HoopNames.h"
#include "Files/PartPresets.h"
#include "Files/Presets.h"
#include "Files/TuningRequest.h"
#include "Fitting/TapNotes.h"
#include "Listening/LugCheck.h"
#include "Modal/InputError.h"
#include "Modal/Units.h"
#include "Modal/hardware/Material.h"
#include "Place/Room.h"
#include "Reports/Cautions.h"
#include "Reports/ComparisonJson.h"
#include "Reports/FindJson.h"
#include "Reports/PlaceJson.h"
#include "Reports/PlanJson.h"
#include "Reports/PlayedJson.h"
#include "Reports/PredictionJson.h"
#include "Reports/SheetData.h"
#include "Score/Loudness.h"
#include "Score/MidiNotes.h"
#include "Score/PatternText.h"
#include "Score/Performance.h"
#include "Score/StrokeEnergy.h"
#include "Score/UsualMix.h"
#include "Wording/TapText.h"

#include <algorithm>
#include <cmath>
#include <cstring>
#include <functional>
#include <map>

namespace web
{

using namespace modal;
using files::Json;

namespace
{
constexpr double usualHighest = 2000.0; // Hz, of predictions, as in the program
constexpr double playedRate = 48000.0;  // Hz, of played results
constexpr double usualModes = 400.0;

const Json& memberOf (const Json& request, const char* key)
{
    if (request.is_object())
        if (const auto found = request.find (key); found != request.end())
            return *found;

    throw InputError::fault (key, "is missing", "a value in the request");
}

double numberOf (const Json& request, const char* key, const Range& range, std::optional<double> usual = std::nullopt)
{
    if (usual && (! request.contains (key) || request[key].is_null()))
        return *usual;

    const auto& value = memberOf (request, key);

    if (! value.is_number())
        throw InputError (key, files::described (value), "a number");

    return requireInRange (value.get<double>(), range, key);
}

std::string textOf (const Json& request, const char* key, std::optional<std::string> usual = std::nullopt)
{
    if (usual && (! request.contains (key) || request[key].is_null()))
        return *usual;

    const auto& value = memberOf (request, key);

    if (! value.is_string())
        throw InputError (key, files::described (value), "text");

    return value.get<std::string>();
}

bool flagOf (const Json& request, const char* key)
{
    return request.contains (key) && request[key] == true;
}

TunedDrum drumOf (const Json& request)
{
    return readDocument (memberOf (request, "document"));
}

HeadSide headOf (const Json& request)
{
    const auto head = textOf (request, "head");

    if (head != "batter" && head != "resonant")
        throw InputError ("head", '"' + head + '"', "batter or resonant");

    return head == "batter" ? HeadSide::batter : HeadSide::resonant;
}

template <class Number>
std::vector<std::byte> bytesOf (const std::vector<Number>& numbers)
{
    std::vector<std::byte> bytes (numbers.size() * sizeof (Number));
    std::memcpy (bytes.data(), numbers.data(), bytes.size());
    return bytes;
}

// Drums

template <class Part>
Json partsJson (const std::vector<files::PartPreset<Part>>& presets, const char* key, Json (*asJson) (const Part&))
{
    Json list = Json::array();

    for (const auto& preset : presets)
        list.push_back (Json{ { "name", preset.name }, { "description", preset.description }, { key, asJson (preset.part) } });

    return list;
}

Answer presets (const Json&)
{
    Json drums = Json::array(), patterns = Json::array(), lessons = Json::array(), materials = Json::array(),
         hoops = Json::array(), cautions = Json::array();

    for (const auto& preset : files::drumPresets())
        drums.push_back (Json{ { "name", preset.name }, { "document", files::parseJson (preset.text, preset.name) } });
    for (const auto& file : files::embeddedPatterns())
        patterns.push_back (files::parseJson (file.text, std::string (file.name)));
    for (const auto& file : files::embeddedLessons())
        lessons.push_back (files::parseJson (file.text, std::string (file.name)));
    for (const auto& name : materialNames())
        materials.push_back (name);
    for (const auto& hoop : files::hoopNames())
        hoops.push_back (Json{ { "name", hoop.name }, { "description", hoop.description }, { "former_name", hoop.formerName } });
    for (const auto& sentence : reports::usualCautions())
        cautions.push_back (sentence);

    return { Json{ { "drums", drums },
                   { "heads", partsJson (files::headPresets(), "head", files::headAsJson) },
                   { "wires", partsJson (files::wirePresets(), "wires", files::wiresAsJson) },
                   { "usual_strand_tension_n", modal::WireSpec().strandTension },
                   { "sticks", partsJson (files::stickPresets(), "stick", files::stickAsJson) },
                   { "places", partsJson (files::placePresets(), "place", files::placeAsJson) },
                   { "patterns", patterns },
                   { "lessons", lessons },
                   { "materials", materials },
                   { "hoops", hoops },
                   { "cautions", cautions } } };
}

Answer normalise (const Json& request)
{
    const auto text = request.contains ("text") ? textOf (request, "text") : memberOf (request, "document").dump();
    return { files::parseJson (files::writeDrum (files::readDrum (text, documentName)), documentName) };
}

Answer note (const Json& request)
{
    const ConcertPitch pitch{ numberOf (request, "concert_pitch_hz", { 400.0, 480.0, "Hz" }, 440.0) };
    return { Json{ { "hz", files::readNote (textOf (request, "text"), pitch, "note") } } };
}

// Predictions

double highestOf (const Json& request, double usual = usualHighest)
{
    return numberOf (request, "highest_hz", { 50.0, 20.0e3, "Hz" }, usual);
}

engine::PlayedResponse playedResponse (const TunedDrum& tuned)
{
    auto setup = setUpToPlay (tuned, usualModes, playedRate);
    setup.microphones.resize (1);
    return engine::playedResponse (setup);
}

Answer predict (const Json& request)
{
    const auto tuned = drumOf (request);
    return { reports::predictionJson ({ tuned.label(), predictionOf (tuned, highestOf (request)), {}, {} }) };
}

Answer played (const Json& request)
{
    const auto response = playedResponse (drumOf (request));
    auto answer = reports::playedJson (response);

    if (! response.wireResponse.empty())
        answer["drum_note_t60_wires_on_s"] = response.ringWiresOn;

    return { answer };
}

Answer compare (const Json& request)
{
    const auto& documents = memberOf (request, "documents");
    constexpr std::size_t most = 12;

    if (! documents.is_array() || documents.size() < 2 || documents.size() > most)
        throw InputError ("documents", files::described (documents), "a list of 2 to 12 drum files");

    std::vector<reports::NamedPrediction> compared;

    for (const auto& document : documents)
    {
        const auto tuned = readDocument (document);
        auto label =
            tuned.tuning.name.empty() ? tuned.label() + ", column " + std::to_string (compared.size() + 1) : tuned.label();
        compared.push_back ({ std::move (label),
                              predictionOf (tuned, usualHighest),
                              {},
                              flagOf (request, "played") ? std::optional (playedResponse (tuned)) : std::nullopt });
    }

    return { reports::comparisonJson (compared) };
}

/** Basis functions as profiles, modes as coefficients: what a picture of the moving heads needs. */
Answer shapes (const Json& request)
{
    constexpr int rings = 33;
    const auto tuned = drumOf (request);
    const auto tensions = tensionsFor (tuned.drum, tuned.tuning);
    const auto modes = solve (tuned.drum, tensions, { .highestFrequency = highestOf (request, 1200.0) });
    Json basis = Json::array(), list = Json::array();
    std::vector<float> coefficients;

    for (const auto& function : modes.basis)
    {
        const bool isSine = function.parity == Parity::sine;
        const double crest = isSine ? 0.5 * units::pi / function.m : 0.0;
        Json profile = Json::array();

        for (int i = 0; i < rings; ++i)
            profile.push_back (i + 1 == rings ? 0.0 : function.at (modes.radius * i / (rings - 1), crest, modes.radius));

        basis.push_back (
            Json{ { "m", function.m }, { "n", function.n }, { "parity", isSine ? "sine" : "cosine" }, { "profile", profile } });
    }

    for (int k = 0; k < modes.size(); ++k)
    {
        const auto& mode = modes.modes[static_cast<std::size_t> (k)];
        list.push_back (Json{ { "m", mode.m },
                              { "n", mode.n },
                              { "frequency_hz", mode.frequency },
                              { "decay_per_s", mode.decay.total() },
                              { "is_air_mode", mode.isAirMode } });

        for (const auto* head : { &modes.batter, &modes.resonant })
            for (Eigen::Index b = 0; b < head->rows(); ++b)
                coefficients.push_back (static_cast<float> ((*head) (b, k)));
    }

    return {
        Json{
            { "radius_m", modes.radius }, { "depth_m", modes.depth }, { "rings", rings }, { "basis", basis }, { "modes", list } },
        bytesOf (coefficients)
    };
}

/** The map of the drum in a request; that of the last drum is kept. */
MapSession& mapOf (const TunedDrum& tuned, const Json& request)
{
    static std::optional<MapSession> session;
    static Json drumOfSession;
    const double step = numberOf (request, "step_cents", { 25.0, 400.0, "cents" }, 100.0);
    Json drum{ { "step", step }, { "document", request["document"] } };
    // What the modes do not depend on.
    for (const auto* other : { "name", "tunings", "place", "wires", "hoop", "stick", "microphones", "pattern", "window" })
        drum["document"].erase (other);

    if (! session || drum != drumOfSession)
    {
        session.emplace (tuned.drum, step);
        drumOfSession = std::move (drum);
    }

    return *session;
}

const Range anyInterval{ -60.0, 60.0, "semitones" };

/** One batter note of the map of a drum with all notes of the resonant head. */
Answer map (const Json& request)
{
    auto& session = mapOf (drumOf (request), request);
    const double column = numberOf (request, "column", { 0.0, static_cast<double> (session.columns() - 1), "" });
    const double lowest = numberOf (request, "lowest_interval", anyInterval, -60.0);
    const double highest = numberOf (request, "highest_interval", anyInterval, 60.0);
    return { session.column (static_cast<std::size_t> (column), lowest, highest) };
}

finding::Song songOf (const Json& request, ConcertPitch pitch)
{
    finding::Song song;
    song.concertPitch = pitch;

    if (const auto key = textOf (request, "key", ""); ! key.empty())
        song.key = finding::Key::parse (key, "key");
    if (request.contains ("tempo") && ! request["tempo"].is_null())
        song.tempo = numberOf (request, "tempo", score::tempoRange);

    return song;
}

/** Those of `wishes`, by the program's names ("drum-note": "D3:E3"), then the song's that do not give way to them.
    @param beats  a minute, where the song does not say */
std::vector<finding::Wish> wishesOf (const Json& request, const finding::Song& song, double beats)
{
    const auto& given = memberOf (request, "wishes");
    std::vector<finding::Wish> wishes;

    for (const auto& info : finding::figures())
        if (const auto text = textOf (given, info.option, ""); ! text.empty())
            wishes.push_back (finding::readWish (info.figure, text, song.concertPitch, info.name, song.tempo.value_or (beats)));

    finding::addSong (wishes, song, [&] (finding::Figure figure) { return finding::isWished (wishes, figure); });
    return wishes;
}

/** Of a grid of tunings in view, row by row from the highest interval down: 1 where one meets the wishes. */
std::vector<std::byte> maskOf (const Json& frame, const finding::Ground& ground, const std::vector<finding::Wish>& wishes,
                               ConcertPitch pitch)
{
    const Range size{ 1.0, 1000.0, "" }, anyNote{ 0.0, 127.0, "MIDI note number" };
    const auto columns = static_cast<int> (numberOf (frame, "columns", size)),
               rows = static_cast<int> (numberOf (frame, "rows", size));
    const double lowestBatter = numberOf (frame, "lowest_batter", anyNote),
                 highestBatter = numberOf (frame, "highest_batter", anyNote);
    const double lowest = numberOf (frame, "lowest_interval", anyInterval),
                 highest = numberOf (frame, "highest_interval", anyInterval);
    const auto between = [] (double from, double to, int i, int count) { return from + (to - from) * (i + 0.5) / count; };
    std::vector<std::byte> mask;

    for (int row = 0; row < rows; ++row)
        for (int column = 0; column < columns; ++column)
        {
            const double note = between (lowestBatter, highestBatter, column, columns),
                         interval = between (highest, lowest, row, rows);
            const double batterHertz = pitch.a4 * std::exp2 ((note - 69.0) / 12.0),
                         resonantHertz = batterHertz * std::exp2 (interval / 12.0);
            const auto figures = finding::figuresAt (ground, batterHertz, resonantHertz);
            mask.push_back (static_cast<std::byte> (finding::meetsAll (figures, wishes) ? 1 : 0));
        }

    return mask;
}

/** Tunings for wishes, as `find --json`, over what is solved of the map; moves count from the document's tuning, or from `now`.
 */
Answer find (const Json& request)
{
    const auto tuned = drumOf (request);
    auto& session = mapOf (tuned, request);
    const auto pitch = tuned.tuning.concertPitch;
    const auto wishes =
        wishesOf (request, songOf (request, pitch), numberOf (request, "beats", score::tempoRange, 100.0));
    const auto place = tuned.place ? std::optional<place::NoteAtListener> (*tuned.place) : std::nullopt;
    const auto map = session.map();
    const Range anyNote{ 10.0, 5000.0, "Hz" };
    const auto& now = memberOf (request, "now");
    const finding::Ground ground{ session.drumTuner(),
                                  session.drumSolver(),
                                  *map,
                                  nullptr,
                                  finding::areaFor (wishes, map->area(), session.prudentArea()),
                                  finding::Present{ numberOf (now, "batter_hz", anyNote),
                                                    numberOf (now, "resonant_hz", anyNote) },
                                  place ? &*place : nullptr };
    const auto result = finding::find (ground, wishes);
    return { reports::findJson (tuned.label(), wishes, result, pitch, nullptr),
             maskOf (memberOf (request, "frame"), ground, wishes, pitch) };
}

// At the drum

Answer plan (const Json& request)
{
    const auto tuned = drumOf (request);
    return { reports::planJson (fitting::makePlan (readPlan (request, tuned.drum, tuned.tuning))) };
}

Answer sheet (const Json& request)
{
    const auto tuned = drumOf (request);
    reports::TuningSheet sheet;
    sheet.title = tuned.label();
    sheet.date = textOf (request, "date", "");
    sheet.notes = textOf (request, "notes", "");
    sheet.lugOne = textOf (request, "lug_one", "");
    sheet.fittings = tuned.fittings;
    sheet.wanted = predictionOf (tuned, usualHighest);
    sheet.measured = measuredHeads (request);
    const auto plan = readPlan (request, tuned.drum, tuned.tuning);

    if (saysHowItIs (request))
        sheet.plan = fitting::makePlan (plan);

    reports::addTurns (sheet, plan);
    return { reports::asJson (sheet) };
}

LugCheckSession& lugCheck()
{
    static LugCheckSession session;
    return session;
}

Answer startLugCheck (const Json& request)
{
    lugCheck().start (drumOf (request).drum, headOf (request), numberOf (request, "rate", { 8000.0, 192.0e3, "Hz" }));
    return { lugCheck().state() };
}

/** A recorded lug check, lug 1 first. */
Answer fitRecording (const Json& request, std::span<const float> samples)
{
    const fitting::HeadFitSetup setup{ .drum = drumOf (request).drum, .side = headOf (request) };
    const listening::Recording recording{ numberOf (request, "rate", { 8000.0, 384.0e3, "Hz" }),
                                          { samples.begin(), samples.end() } };
    const auto check = listening::hearLugCheck (recording, setup.drum.lugs, false, "recording");

    if (check.taps.empty())
        throw InputError::fault ("recording", "has no tap that can be used",
                                 "taps with the wires off, each a single hit, with time to ring\n" + wording::remarks (check));

    auto json = reports::fitJson (
        reports::MeasuredHead{ setup.side, fitting::fitHead (setup, check.taps), textOf (request, "date", "") }, setup.drum);
    json["remarks"] = wording::remarks (check);
    return { json };
}

Answer fitTapNotes (const Json& request)
{
    constexpr double usualReading = 5.0; // cents
    const auto tuned = drumOf (request);
    const auto& list = memberOf (request, "notes");
    std::vector<double> notes;

    if (! list.is_array())
        throw InputError ("notes", files::described (list), "a list of notes");

    for (const auto& item : list)
        notes.push_back (item.is_number() ? item.get<double>()
                                          : files::readNote (item.is_string() ? item.get<std::string>() : files::described (item),
                                                             tuned.tuning.concertPitch, "notes"));

    const auto side = headOf (request);
    const auto fit = fitting::fitTapNotes ({ .drum = tuned.drum, .side = side }, notes, usualReading);
    return { reports::fitJson (reports::MeasuredHead{ side, fit, textOf (request, "date", "") }, tuned.drum) };
}

// Sound

/** The drum's model as bytes, for Voice. */
Answer model (const Json& request)
{
    const auto tuned = drumOf (request);
    const auto setup = setUpToPlay (tuned, numberOf (request, "modes", { 100.0, 1200.0, "" }, usualModes),
                                    numberOf (request, "rate", { 22050.0, 192.0e3, "Hz" }));
    const engine::DrumModel built (setup);
    return { Json{ { "modes", built.headModes() },
                   { "wire_contacts", built.wireContacts() },
                   { "highest_hz", setup.modes.highestFrequency } },
             built.write() };
}

bool isMono (const Json& request)
{
    return numberOf (request, "channels", { 1.0, 2.0, "" }, 2.0) == 1.0;
}

std::optional<place::Room> roomOf (const TunedDrum& tuned, double rate, bool mono)
{
    if (! tuned.place)
        return std::nullopt;

    const auto distant = engine::defaultMicrophones (tuned.drum.depth).back();
    return place::Room (*tuned.place, score::distanceOf (distant), rate, mono);
}

/** The room of the drum's place as bytes, for Voice; none without a place. */
Answer room (const Json& request)
{
    const auto built = roomOf (drumOf (request), numberOf (request, "rate", { 22050.0, 192.0e3, "Hz" }), isMono (request));
    return { Json{ { "has_place", built.has_value() } }, built ? built->write() : std::vector<std::byte>() };
}

/** What the place makes of the drum, as in predictions of the program; null without a place. Plays a stroke. */
Answer inPlace (const Json& request)
{
    const auto tuned = drumOf (request);

    if (! tuned.place)
        return { Json{} };

    const auto prediction = predictionOf (tuned, usualHighest);
    const auto energy = score::strokeEnergy (setUpToPlay (tuned, usualModes, playedRate));
    return { reports::placeJson ({ *tuned.place,
                                   place::atListener (*tuned.place, prediction.drumNote, prediction.sustain, energy),
                                   prediction.sustain, tuned.drum.hasResonantHead() && tuned.fittings.wires.on, std::nullopt }) };
}

/** In the order of engine::StrokeKind. */
constexpr std::array strokeWords{ "tip", "rimshot", "cross_stick", "buzz", "double", "sweep" };
constexpr auto brushWanted = "a brush: choose one in Set up, under Stick";

/** Of a stroke that does not say how fast it is, m/s; common practice, no source. */
double usualSpeed (bool isSweep)
{
    return isSweep ? 0.5 : engine::Stroke().speed;
}

engine::Stroke strokeOf (const Json& request)
{
    engine::Stroke stroke;
    const auto kind = textOf (request, "kind", "tip");
    const auto found = std::find (strokeWords.begin(), strokeWords.end(), kind);

    if (found == strokeWords.end())
        throw InputError ("kind", '"' + kind + '"', "tip, rimshot, cross_stick, buzz, double or sweep");

    stroke.kind = static_cast<engine::StrokeKind> (found - strokeWords.begin());
    stroke.position = numberOf (request, "position", engine::strokeLimits::position, stroke.position);
    stroke.angle = numberOf (request, "angle", { -units::twoPi, units::twoPi, "rad" }, stroke.angle);
    const bool isSweep = stroke.kind == engine::StrokeKind::sweep;
    stroke.speed = numberOf (request, "speed", isSweep ? engine::strokeLimits::sweepSpeed : engine::strokeLimits::speed, usualSpeed (isSweep));
    stroke.rimLag = numberOf (request, "rim_delay_s", engine::strokeLimits::rimDelay, stroke.rimLag);
    stroke.pressForce = numberOf (request, "press_force_n", engine::strokeLimits::pressForce, stroke.pressForce);
    stroke.pressTime = numberOf (request, "press_time_s", engine::strokeLimits::pressTime, stroke.pressTime);
    stroke.secondDelay = numberOf (request, "second_after_s", engine::strokeLimits::secondDelay, stroke.secondDelay);
    stroke.secondShare = numberOf (request, "second_share", engine::strokeLimits::secondShare, stroke.secondShare);
    stroke.sweepForce = numberOf (request, "sweep_force_n", engine::strokeLimits::sweepForce, stroke.sweepForce);
    stroke.sweepTime = numberOf (request, "sweep_time_s", engine::strokeLimits::sweepTime, stroke.sweepTime);

    if (const auto path = textOf (request, "sweep_path", "circle"); path == "straight")
        stroke.sweepsStraight = true;
    else if (path != "circle")
        throw InputError ("sweep_path", '"' + path + '"', "circle or straight");

    return stroke;
}

/** What patterns and MIDI files set of a stroke, as strokeOf() reads it. */
Json strokeJson (const score::TimedStroke& timed)
{
    const auto& stroke = timed.stroke;
    Json json{ { "time_s", timed.time },
               { "kind", strokeWords[static_cast<std::size_t> (stroke.kind)] },
               { "position", stroke.position },
               { "speed", stroke.speed } };

    if (stroke.kind == engine::StrokeKind::sweep)
    {
        const auto& range = engine::strokeLimits::sweepTime;
        json["sweep_time_s"] = std::clamp (stroke.sweepTime, range.low, range.high);
        json["sweep_path"] = stroke.sweepsStraight ? "straight" : "circle";
    }

    return json;
}

Json strokesJson (const score::Score& strokes)
{
    Json list = Json::array();

    for (const auto& timed : strokes)
        list.push_back (strokeJson (timed));

    return list;
}

int stepsPerBeat (const Json& request)
{
    return static_cast<int> (numberOf (request, "steps_per_beat", { 1.0, 16.0, "" }, 4.0));
}

/** A pattern's strokes at a beat a second. With a document the drum must be able to play them. */
Answer pattern (const Json& request)
{
    const score::PatternTempo beatASecond{ 60.0, stepsPerBeat (request) };
    const auto text = textOf (request, "text");
    const auto strokes = score::readPattern (text, beatASecond, "pattern");

    if (request.contains ("document"))
        score::requireBrushForSweeps (strokes, drumOf (request).fittings.stick.isBrush(), brushWanted);

    return { Json{ { "beats", score::patternLength (text, beatASecond) },
                   { "steps_per_beat", beatASecond.stepsPerBeat },
                   { "strokes", strokesJson (strokes) } } };
}

/** What the notes of a MIDI file play on this drum, and remarks about notes that are left out. */
Answer midi (const Json& request)
{
    const bool hasBrush = drumOf (request).fittings.stick.isBrush();
    const auto& list = memberOf (request, "notes");
    std::vector<score::MidiNote> notes;

    if (! list.is_array())
        throw InputError ("notes", files::described (list), "a list of MIDI notes");

    for (const auto& item : list)
    {
        score::MidiNote note{ numberOf (item, "time_s", { 0.0, 3600.0, "s" }),
                              static_cast<int> (numberOf (item, "number", { 0.0, 127.0, "" })),
                              static_cast<int> (numberOf (item, "velocity", { 1.0, 127.0, "" })),
                              {} };

        if (item.contains ("held_s"))
            note.held = numberOf (item, "held_s", { 0.0, 3600.0, "s" });
        notes.push_back (note);
    }

    const auto read = score::strokesOfNotes (notes, hasBrush, "MIDI file");
    score::requireBrushForSweeps (read.strokes, hasBrush, brushWanted);
    return { Json{ { "strokes", strokesJson (read.strokes) }, { "remarks", read.remarks } } };
}

score::Score strokesOf (const Json& request)
{
    if (! request.contains ("strokes"))
        return score::readPattern (
            textOf (request, "text"),
            { numberOf (request, "tempo", score::tempoRange, 100.0), stepsPerBeat (request) }, "pattern");

    const auto& list = request["strokes"];
    score::Score strokes;

    if (! list.is_array() || list.empty())
        throw InputError ("strokes", files::described (list), "a list of strokes");

    for (const auto& item : list)
        strokes.push_back ({ numberOf (item, "time_s", { 0.0, 600.0, "s" }, 0.0), strokeOf (item) });

    std::stable_sort (strokes.begin(), strokes.end(), [] (const auto& a, const auto& b) { return a.time < b.time; });
    return strokes;
}

/** Plays faster than in real time: the microphones' mix or, in a place, what the listener hears. The bytes are samples, left and
 * right in turn; for a listener with one channel all of that. */
Answer render (const Json& request)
{
    constexpr double usualRinging = 3.0, longest = 120.0; // s
    constexpr int block = 512;
    constexpr double usualPeak = 0.70794578; // -3 dB
    const auto tuned = drumOf (request);
    const auto strokes = strokesOf (request);
    const double rate = numberOf (request, "rate", { 22050.0, 192.0e3, "Hz" }, playedRate);
    const double seconds =
        numberOf (request, "seconds", { 0.01, longest, "s" }, std::min (score::lastStroke (strokes) + usualRinging, longest));
    const auto modes = numberOf (request, "modes", { 100.0, 1200.0, "" }, usualModes);

    const bool mono = isMono (request);
    auto heardIn = roomOf (tuned, rate, mono);
    const auto placeGain = static_cast<float> (heardIn ? score::usualPlaceGain() : 1.0);
    const std::size_t channels = heardIn && mono ? 1 : 2;
    score::Performance performance (std::make_shared<const engine::DrumModel> (setUpToPlay (tuned, modes, rate)), strokes);
    score::LoudnessMeter meter (rate, static_cast<int> (channels));
    const score::UsualMix mixer;
    constexpr auto microphones = score::UsualMix::microphones;
    const auto frames = static_cast<int> (std::lround (seconds * rate));
    std::array<std::array<float, block>, microphones + 2> buffers{};
    const std::array<float*, microphones> heard{ buffers[0].data(), buffers[1].data(), buffers[2].data() };
    const std::array<float*, 2> sides{ buffers[3].data(), buffers[4].data() };
    std::vector<float> samples;
    samples.reserve (channels * static_cast<std::size_t> (frames));
    float peak = 0.0f;

    for (int done = 0; done < frames; done += block)
    {
        const int count = std::min (block, frames - done);
        performance.process (heard.data(), count);

        if (heardIn)
        {
            heardIn->process (heard.back(), sides[0], sides[1], count);

            for (auto* side : sides)
                std::for_each_n (side, count, [placeGain] (float& sample) { sample *= placeGain; });
        }
        else
        {
            mixer.mix (heard.data(), sides[0], sides[1], count);
        }

        meter.add (sides.data(), count);

        for (int i = 0; i < count; ++i)
            for (std::size_t c = 0; c < channels; ++c)
            {
                samples.push_back (sides[c][i]);
                peak = std::max (peak, std::abs (sides[c][i]));
            }
    }

    const double highest = peak > 0.0f ? usualPeak / static_cast<double> (peak) : 1.0;
    const bool hasLoudness = request.contains ("loudness_lufs");
    const double wanted = hasLoudness ? numberOf (request, "loudness_lufs", { -60.0, -5.0, "LUFS" }) : 0.0;
    const double gain = hasLoudness ? std::min (meter.gainFor (wanted), highest / usualPeak) : highest;

    for (auto& sample : samples)
        sample *= static_cast<float> (gain);

    return { Json{ { "rate", rate },
                   { "channels", channels },
                   { "seconds", seconds },
                   { "peak_pa", static_cast<double> (peak / placeGain) * engine::fullScalePressure },
                   { "loudness_lufs", meter.loudness() },
                   { "gain", gain } },
             bytesOf (samples) };
}

using Handler = std::function<Answer (const Json&, std::span<const float>)>;

const std::map<std::string, Handler>& handlers()
{
    const auto plain = [] (Answer (*handler) (const Json&)) -> Handler
    { return [handler] (const Json& request, std::span<const float>) { return handler (request); }; };
    /** Something is done to the lug check; the answer is its state. */
    const auto check = [] (auto change) -> Handler
    {
        return [change] (const Json& request, std::span<const float> samples)
        {
            change (request, samples);
            return Answer{ lugCheck().state() };
        };
    };
    static const std::map<std::string, Handler> table{
        { "presets", plain (presets) },
        { "normalise", plain (normalise) },
        { "note", plain (note) },
        { "predict", plain (predict) },
        { "played", plain (played) },
        { "compare", plain (compare) },
        { "shapes", plain (shapes) },
        { "map", plain (map) },
        { "find", plain (find) },
        { "plan", plain (plan) },
        { "sheet", plain (sheet) },
        { "model", plain (model) },
        { "room", plain (room) },
        { "in_place", plain (inPlace) },
        { "pattern", plain (pattern) },
        { "midi", plain (midi) },
        { "render", plain (render) },
        { "fit_tap_notes", plain (fitTapNotes) },
        { "fit_recording", fitRecording },
        { "lug_check", plain (startLugCheck) },
        { "lug_check_add", check ([] (const Json&, std::span<const float> samples) { lugCheck().add (samples); }) },
        { "lug_check_choose", check (
                                  [] (const Json& request, std::span<const float>) {
                                      lugCheck().chooseLug (numberOf (request, "lug", { 1.0, 64.0, "" }));
                                  }) },
        { "lug_check_delete", check ([] (const Json&, std::span<const float>) { lugCheck().deleteLastTap(); }) },
        { "lug_check_fit",
          [] (const Json& request, std::span<const float>) { return Answer{ lugCheck().fit (textOf (request, "date", "")) }; } },
    };
    return table;
}
} // namespace

Answer answer (const std::string& name, const Json& request, std::span<const float> samples)
{
    const auto handler = handlers().find (name);

    if (handler == handlers().end())
        throw InputError ("request", '"' + name + '"', "one of those that instrument.js makes");

    return handler->second (request, samples);
}

Json errorJson (const std::exception& error)
{
    Json json{ { "message", error.what() } };

    if (const auto* input = dynamic_cast<const InputError*> (&error))
    {
        json["field"] = input->field();
        json["value"] = input->value();
        json["allowed"] = input->allowed();
    }

    return json;
}

} // namespace web
