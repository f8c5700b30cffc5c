// Patterns, MIDI files, microphones and sampling rates, by running the program.

#include "RunProgram.h"
#include "WavReader.h"

#include "tests/Catch.h"
#include "tests/Contains.h"

#include <algorithm>
#include <cmath>
#include <complex>

namespace
{
constexpr double pi = 3.14159265358979323846;
using Words = std::vector<std::string>;

/** Runs `render` in a folder. */
ProgramRun renderIn (const TemporaryFolder& folder, const Words& options)
{
    Words words{ "render", "maple-14x5", "--output", "out.wav", "--bits", "32f" };
    words.insert (words.end(), options.begin(), options.end());
    return runProgram (words, folder.path());
}

WavContent render (const Words& options)
{
    const TemporaryFolder folder;
    const auto run = renderIn (folder, options);
    CAPTURE (run.errors);
    REQUIRE (run.status == 0);
    return readWav (readBytes (folder.path() / "out.wav"));
}

/** Largest magnitude between two times, s, of a file with one channel. */
double peakBetween (const WavContent& wav, double from, double to)
{
    double peak = 0.0;

    for (auto i = static_cast<std::size_t> (from * wav.rate); i < static_cast<std::size_t> (to * wav.rate); ++i)
        peak = std::max (peak, std::abs (wav.samples.at (i)));

    return peak;
}

/** A format 0 file of 480 ticks a beat with these events, each a variable-length delta time and its bytes. By the layout that the
    MIDI Manufacturers Association's RP-001 gives. */
std::string midiFile (const std::string& events)
{
    using namespace std::string_literals;
    const auto track = events + "\x00\xFF\x2F\x00"s;
    const auto size = static_cast<char> (track.size());
    return "MThd\0\0\0\6\0\0\0\1\x01\xE0"s + "MTrk\0\0\0"s + size + track;
}

/** Power in a third of an octave, dB. */
double bandLevel (const WavContent& wav, double centre)
{
    double power = 0.0;

    for (double f = centre * std::pow (2.0, -1.0 / 6.0); f < centre * std::pow (2.0, 1.0 / 6.0); f += 5.0)
    {
        std::complex<double> sum = 0.0, turn = 1.0;
        const auto step = std::polar (1.0, -2.0 * pi * f / wav.rate);

        for (const auto sample : wav.samples)
        {
            sum += sample * turn;
            turn *= step;
        }

        power += std::norm (sum / static_cast<double> (wav.rate));
    }

    return 10.0 * std::log10 (power);
}
} // namespace

TEST_CASE ("A pattern's strokes have the written times and strengths", "[render]")
{
    // 120 beats a minute and 2 steps a beat: a step lasts 0.25 s.
    const auto wav = render ({ "--microphone", "above", "--pattern", "..o9 o2.", "--tempo", "120", "--steps", "2", "--wires",
                               "off", "--length", "1.2s", "--full-scale", "2000Pa" });
    CHECK (peakBetween (wav, 0.0, 0.5) == 0.0);
    CHECK (peakBetween (wav, 0.5, 0.52) > 4.0 * peakBetween (wav, 0.74, 0.75));
    CHECK (peakBetween (wav, 0.5, 0.52) > 4.0 * peakBetween (wav, 0.75, 0.77)); // the first still rings under the second
}

TEST_CASE ("A MIDI file's notes become strokes at the times of its tempo map", "[render]")
{
    using namespace std::string_literals;
    const TemporaryFolder folder;

    // 500 000 µs a beat; note 38 after one beat, then the tempo doubles, and note 40 comes two beats later: at 0.5 s and 1.0 s.
    // Note 60 plays nothing, and a note-on of velocity 0 is a note-off.
    folder.write ("part.mid", midiFile ("\x00\xFF\x51\x03\x07\xA1\x20"s + "\x83\x60\x99\x26\x7F"s + "\x00\x99\x3C\x7F"s +
                                        "\x00\xFF\x51\x03\x03\xD0\x90"s + "\x87\x40\x99\x28\x7F"s + "\x00\x99\x26\x00"s));

    const auto run = renderIn (folder, { "--midi", "part.mid", "--microphone", "above", "--full-scale", "5000Pa" });
    CAPTURE (run.errors);
    REQUIRE (run.status == 0);
    CHECK (run.errors.starts_with ("2 strokes"));
    CHECK (contains (run.errors, "1 note of 3 has no stroke (60)\n"));
    CHECK_FALSE (contains (run.errors, "left out"));

    const auto wav = readWav (readBytes (folder.path() / "out.wav"));
    CHECK (wav.samples.size() == 4 * 48000); // three seconds after the last stroke
    CHECK (peakBetween (wav, 0.0, 0.5) == 0.0);
    CHECK (peakBetween (wav, 0.5, 0.52) > 0.0);
    CHECK (peakBetween (wav, 1.0, 1.02) > 2.0 * peakBetween (wav, 0.95, 1.0));

    CHECK (renderIn (folder, { "--midi", "part.mid", "--length", "0.9s" }).errors.find ("1 stroke after 0.9 s left out") !=
           std::string::npos);
}

TEST_CASE ("A MIDI file without strokes, or cut short, is refused", "[render]")
{
    using namespace std::string_literals;
    const TemporaryFolder folder;
    folder.write ("silent.mid", midiFile ("\x00\x99\x3C\x7F"s));
    folder.write ("short.mid", "MThd\0\0"s);

    for (const std::string file : { "silent.mid", "short.mid" })
    {
        const auto run = renderIn (folder, { "--midi", file });
        CAPTURE (run.errors);
        CHECK (run.status == 2);
        CHECK (contains (run.errors, file));
    }

    CHECK (folder.count() == 2);
}

TEST_CASE ("A long dense pattern loses no stroke", "[render]")
{
    std::string roll;

    for (int i = 0; i < 100; ++i)
        roll += "o3o2";

    const TemporaryFolder folder;
    const auto run =
        renderIn (folder, { "--pattern", roll, "--tempo", "300", "--steps", "8", "--wires", "off", "--length", "5s" });
    CHECK (run.status == 0);
    CHECK (run.errors.starts_with ("200 strokes"));
    CHECK_FALSE (contains (run.errors, "left out"));
}

TEST_CASE ("A drum file's pattern plays, and its microphones' places and levels hold", "[render]")
{
    const TemporaryFolder folder;
    folder.write ("mine.json", R"({ "format": "snarewright-drum", "version": 2, "diameter_in": 14, "depth_in": 5, "lugs": 8,
        "batter": "10mil", "resonant": "3mil", "wires": { "strainer": "off" },
        "tunings": [ { "batter": { "tap_note": "G#3" }, "interval": "P4" } ],
        "microphones": { "above": { "along_mm": 40, "across_mm": 60, "up_mm": 150, "level_db": -6, "pan": -1 },
                         "below": { "along_mm": -80, "across_mm": 50, "up_mm": -240, "level_db": -60, "pan": 0 },
                         "distant": { "along_m": 1.2, "across_m": 0.9, "up_m": 1.1, "level_db": 0, "pan": 1, "inverted": true } },
        "pattern": { "strokes": "o8.. r9", "tempo_bpm": 120, "steps_per_beat": 4 },
        "window": { "format": "snarewright-state" } })");
    const auto play = [&] (std::vector<std::string> options)
    {
        std::vector<std::string> arguments{ "render", "mine.json",    "--length", "300ms",    "--bits",
                                            "32f",    "--full-scale", "1000Pa",   "--output", "out.wav" };
        arguments.insert (arguments.end(), options.begin(), options.end());
        const auto run = runProgram (arguments, folder.path());
        CAPTURE (run.errors);
        REQUIRE (run.status == 0);
        return std::pair{ readWav (readBytes (folder.path() / "out.wav")), run.errors };
    };
    const auto [mix, errors] = play ({});
    CHECK (errors.starts_with ("2 strokes"));
    CHECK (play ({ "--velocity", "90" }).second.starts_with ("1 stroke,"));

    const auto above = play ({ "--microphone", "above", "--above-at", "40mm:60mm:150mm" }).first;
    const auto distant = play ({ "--microphone", "distant" }).first;
    REQUIRE (mix.samples.size() == 2 * above.samples.size());

    for (std::size_t i = 0; i < above.samples.size(); ++i)
    {
        // -6 dB is a factor of 0.501; a channel at one side's end is not on the other.
        CHECK_FALSE (std::abs (mix.samples[2 * i] - 0.50119 * above.samples[i]) > 1.0e-5);
        CHECK_FALSE (std::abs (mix.samples[2 * i + 1] - distant.samples[i]) > 1.0e-5);
    }
}

TEST_CASE ("Each microphone's file and the mix of them agree", "[render]")
{
    const TemporaryFolder folder;
    REQUIRE (renderIn (folder, { "--length", "200ms", "--full-scale", "1000Pa", "--each" }).status == 0);
    CHECK (folder.count() == 3);
    const auto above = readWav (readBytes (folder.path() / "out-above.wav"));
    const auto below = readWav (readBytes (folder.path() / "out-below.wav"));
    const auto distant = readWav (readBytes (folder.path() / "out-distant.wav"));
    const auto alone = render ({ "--length", "200ms", "--full-scale", "1000Pa", "--microphone", "below" });
    const auto mix = render ({ "--length", "200ms", "--full-scale", "1000Pa" });
    CHECK (alone.samples == below.samples);
    CHECK (mix.channels == 2);
    REQUIRE (mix.samples.size() == 2 * above.samples.size());

    // The levels and places that the help gives: 0 dB a little left, -6 dB a little right, +6 dB in the centre, at equal power.
    const auto side = [] (double decibels, double pan, bool isRight)
    {
        const auto angle = pi / 4.0 * (1.0 + pan);
        return std::pow (10.0, decibels / 20.0) * (isRight ? std::sin (angle) : std::cos (angle));
    };

    double worst = 0.0, loudest = 0.0;

    for (std::size_t i = 0; i < mix.samples.size(); ++i)
    {
        const auto isRight = i % 2 == 1;
        const auto expected = side (0.0, -0.2, isRight) * above.samples[i / 2] +
                              side (-6.0, 0.2, isRight) * below.samples[i / 2] +
                              side (6.0, 0.0, isRight) * distant.samples[i / 2];
        worst = std::max (worst, std::abs (expected - mix.samples[i]));
        loudest = std::max (loudest, std::abs (expected));
    }

    CHECK (loudest > 0.0);
    CHECK (worst < 1.0e-5 * loudest);
}

TEST_CASE ("A microphone farther away is quieter and later", "[render]")
{
    const auto onset = [] (const WavContent& wav)
    {
        const auto first = std::find_if (wav.samples.begin(), wav.samples.end(), [] (double s) { return std::abs (s) > 1.0e-4; });
        return static_cast<double> (first - wav.samples.begin()) / wav.rate;
    };
    const auto at = [] (const char* place) {
        return render ({ "--microphone", "distant", "--distant-at", place, "--length", "100ms", "--full-scale", "500Pa" });
    };
    const auto close = at ("0m:0m:1m"), far = at ("0m:0m:4m");

    // 3 m farther: later by 3 m / 343 m/s.
    CHECK (onset (far) - onset (close) == Approx (3.0 / 343.0).margin (0.001));
    CHECK (peakBetween (close, 0.0, 0.1) / peakBetween (far, 0.0, 0.1) == Approx (4.0).epsilon (0.4));
}

TEST_CASE ("Wires add high frequencies, and tight ones are short", "[render]")
{
    const auto high = [] (const Words& options, double from = 0.0)
    {
        Words words{ "--microphone", "below", "--length", "300ms", "--full-scale", "1000Pa" };
        words.insert (words.end(), options.begin(), options.end());
        auto wav = render (words);
        wav.samples.erase (wav.samples.begin(), wav.samples.begin() + static_cast<std::ptrdiff_t> (from * wav.rate));
        return 0.5 * (bandLevel (wav, 4000.0) + bandLevel (wav, 6350.0));
    };
    const auto off = high ({ "--wires", "off" });
    CHECK (high ({ "--wires", "on" }) > off + 10.0);
    CHECK (high ({ "--wires", "8 strands" }) > off + 10.0);
    // Common practice, no source.
    const auto later = 0.15;
    CHECK (high ({ "--strainer", "8N", "--press", "0.4mm" }, later) < high ({}, later) - 3.0);
}

TEST_CASE ("A fine render has more modes and wire contacts, and the same level", "[render]")
{
    const TemporaryFolder folder;
    const Words words{ "--microphone", "below", "--length", "200ms", "--full-scale", "1000Pa", "--detail" };
    const auto with = [&] (const char* detail, std::string& report)
    {
        auto all = words;
        all.emplace_back (detail);
        const auto run = renderIn (folder, all);
        REQUIRE (run.status == 0);
        report = run.errors;
        return readWav (readBytes (folder.path() / "out.wav"));
    };

    std::string live, fine;
    const auto liveSound = with ("live", live), fineSound = with ("fine", fine);
    CHECK (contains (live, " 64 wire contacts"));
    CHECK (contains (fine, " 480 wire contacts"));
    CHECK (bandLevel (fineSound, 200.0) == Approx (bandLevel (liveSound, 200.0)).margin (2.0));
    CHECK (bandLevel (fineSound, 6350.0) > bandLevel (liveSound, 6350.0));
}

TEST_CASE ("Sampling rates agree", "[render]")
{
    // Wires rattle chaotically: a single third octave differs as much as between two strokes of one player, the mean over all
    // thirds less.
    const auto levels = [] (const char* rate, const char* wires)
    {
        const auto wav =
            render ({ "--microphone", "above", "--length", "250ms", "--full-scale", "1000Pa", "--rate", rate, "--wires", wires });
        std::vector<double> bands;

        for (double centre = 160.0; centre < 5000.0; centre *= std::pow (2.0, 1.0 / 3.0))
            bands.push_back (bandLevel (wav, centre));

        return bands;
    };

    struct Agreement
    {
        const char *wires, *rate;
        double worst, mean; // dB
    };

    for (const auto* wires : { "off", "on" })
    {
        const auto isOn = wires == std::string ("on");
        const auto reference = levels ("192000", wires);

        for (const auto& allowed : { Agreement{ wires, "22050", isOn ? 8.0 : 3.0, isOn ? 1.5 : 0.5 },
                                     Agreement{ wires, "44100", isOn ? 2.0 : 1.0, isOn ? 0.5 : 0.2 },
                                     Agreement{ wires, "48000", isOn ? 2.0 : 1.0, isOn ? 0.5 : 0.2 },
                                     Agreement{ wires, "96000", isOn ? 2.0 : 0.5, isOn ? 0.5 : 0.1 } })
        {
            const auto bands = levels (allowed.rate, wires);
            double worst = 0.0, sum = 0.0;

            for (std::size_t i = 0; i < bands.size(); ++i)
            {
                worst = std::max (worst, std::abs (bands[i] - reference[i]));
                sum += std::abs (bands[i] - reference[i]);
            }

            const auto mean = sum / static_cast<double> (bands.size());
            CAPTURE (allowed.wires, allowed.rate, worst, mean);
            CHECK (worst < allowed.worst);
            CHECK (mean < allowed.mean);
        }
    }
}

TEST_CASE ("Progress is shown if asked for", "[render]")
{
    const TemporaryFolder folder;
    const auto quiet = renderIn (folder, { "--length", "100ms" }),
               shown = renderIn (folder, { "--length", "100ms", "--progress" });
    CHECK_FALSE (contains (quiet.errors, "%"));
    CHECK (contains (shown.errors, "] 100 %\n"));
}
