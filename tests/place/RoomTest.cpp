#include "ImpulseResponse.h"

#include "Place/RoomFader.h"

#include "tests/Catch.h"

#include <algorithm>
#include <cmath>
#include <random>

using namespace place;

namespace
{
Place room (double volume, double length, double width, Octaves times)
{
    Place place;
    place.volume = volume;
    place.lengthToHeight = length;
    place.widthToHeight = width;
    place.times = times;
    const Box box (place);
    place.drumFromWall = 0.15 * box.length;
    place.drumHeight = 0.35 * box.height;
    place.listenerDistance = 0.5 * box.length;
    place.listenerHeight = 0.55 * box.height;
    return place;
}

Place dryStudio()
{
    return room (100.0, 2.1, 1.6, { 0.3, 0.25, 0.25, 0.25, 0.25, 0.25, 0.24 });
}

Place club()
{
    return room (1500.0, 3.2, 2.4, { 0.85, 0.8, 0.8, 0.8, 0.8, 0.75, 0.65 });
}

Place church()
{
    return room (10000.0, 3.0, 1.4, { 3.4, 3.5, 3.4, 3.1, 2.6, 1.9, 1.15 });
}

double longest (const Place& place)
{
    return *std::max_element (place.times.begin(), place.times.end());
}

/** The same place with the listener elsewhere. */
Place moved (Place place, int step)
{
    const Box box (place);
    place.listenerDistance += 0.02 * box.length * (step - 6);
    place.listenerAside += 0.04 * box.width * (step % 5);
    return place;
}
} // namespace

TEST_CASE ("Reverberation time of the impulse response is what was asked for in each octave")
{
    // ISO 3382-1: T30 from the backward-integrated energy, mean of several positions.
    const auto place = GENERATE (dryStudio(), club(), church());
    constexpr double sampleRate = 44100.0;
    constexpr int positions = 12;
    Octaves mean{};
    for (int i = 0; i < positions; ++i)
    {
        const auto response = tests::impulseResponse (moved (place, i), sampleRate, false, longest (place) + 0.1);
        for (std::size_t octave = 0; octave < mean.size(); ++octave)
            mean[octave] +=
                tests::t30 (tests::inOctave (response.left, octaveCentres[octave], sampleRate), sampleRate) / positions;
    }
    for (std::size_t octave = 0; octave < mean.size(); ++octave)
    {
        INFO (place.volume << " m3, " << octaveCentres[octave] << " Hz");
        CHECK (mean[octave] == Approx (place.times[octave]).epsilon (0.05));
    }
}

TEST_CASE ("A listener beyond the critical distance hears the reverberant level that statistics give")
{
    // Barron & Lee, JASA 84 (1988) 618, in the mean of positions and of the octaves from 250 Hz up: single images are not in it.
    const auto place = GENERATE (club(), church());
    constexpr double sampleRate = 48000.0;
    constexpr int positions = 4;
    std::vector<float> impulse (4800, 0.0f);
    impulse[100] = 1.0f;
    const Box box (place);
    const Decay decay (place);
    double measured = 0.0, predicted = 0.0;
    for (int i = 0; i < positions; ++i)
    {
        const auto here = moved (place, i);
        const double far = distance (drumIn (here, box), listenerIn (here, box));
        const auto response = tests::impulseResponse (here, sampleRate, false, longest (place));
        for (std::size_t octave = 1; octave < octaveCentres.size(); ++octave)
        {
            const double whole = tests::energyOf (tests::inOctave (response.left, octaveCentres[octave], sampleRate)) /
                                 tests::energyOf (tests::inOctave (impulse, octaveCentres[octave], sampleRate));
            const double direct = std::pow (10.0, -0.1 * decay.airLoss[octave] * (far - 1.0)) / (far * far);
            measured += 10.0 * std::log10 (whole);
            predicted += 10.0 * std::log10 (direct + reverberantEnergy (place.volume, place.times[octave], far, box.soundSpeed));
        }
    }
    const double count = positions * (octaveCentres.size() - 1.0);
    INFO ("level " << measured / count << " dB, predicted " << predicted / count << " dB");
    CHECK (measured / count == Approx (predicted / count).margin (1.0));
}

TEST_CASE ("The direct sound comes first, as late and as loud as its distance says")
{
    const auto place = club();
    constexpr double sampleRate = 48000.0;
    const Box box (place);
    const double far = distance (drumIn (place, box), listenerIn (place, box));
    const auto arrival = static_cast<std::size_t> (std::lround ((far - 1.0) / box.soundSpeed * sampleRate));
    const auto response = tests::impulseResponse (place, sampleRate, false, 0.2);
    // Picked up at 1 m: later by the rest of the way.
    const auto begin = response.left.begin();
    CHECK (std::all_of (begin, begin + static_cast<std::ptrdiff_t> (arrival) - 2, [] (float x) { return x == 0.0f; }));
    double sum = 0.0; // at low frequencies
    for (std::size_t i = arrival - 2; i < arrival + 30; ++i)
        sum += static_cast<double> (response.left[i]);
    CHECK (sum == Approx (1.0 / far).epsilon (0.03));
}

TEST_CASE ("In the open air the ground's reflection is all there is")
{
    Place place;
    place.kind = Place::Kind::openAir;
    const auto response = tests::impulseResponse (place, 48000.0, true, 0.5);
    const Box box (place);
    const auto drum = drumIn (place, box), listener = listenerIn (place, box);
    const double straight = distance (drum, listener), byGround = distance ({ drum[0], drum[1], -drum[2] }, listener);
    const auto end = static_cast<std::ptrdiff_t> ((byGround - 1.0) / box.soundSpeed * 48000.0) + 60;
    CHECK (straight < byGround);
    for (const auto* channel : { &response.left, &response.right })
        CHECK (std::all_of (channel->begin() + end, channel->end(), [] (float x) { return std::abs (x) < 1.0e-5f; }));
}

TEST_CASE ("Stereo: a coincident pair of cardioids, 120 degrees apart")
{
    // Diffuse sound in cardioids: a third of the energy, correlated by (1 + cos(120°)/3)/(1 + 1/3); a source on the axis between
    // them: (1 + cos 60°)/2.
    const auto place = church();
    const auto one = tests::impulseResponse (place, 44100.0, false, 3.0),
               two = tests::impulseResponse (place, 44100.0, true, 3.0);
    double mono = 0.0, left = 0.0, right = 0.0, both = 0.0;
    for (std::size_t i = 20000; i < one.left.size(); ++i)
    {
        const auto at = [i] (const std::vector<float>& samples) { return static_cast<double> (samples[i]); };
        mono += at (one.left) * at (one.left);
        left += at (two.left) * at (two.left);
        right += at (two.right) * at (two.right);
        both += at (two.left) * at (two.right);
    }
    CHECK (left / mono == Approx (1.0 / 3.0).epsilon (0.1));
    CHECK (right / mono == Approx (1.0 / 3.0).epsilon (0.1));
    CHECK (both / std::sqrt (left * right) == Approx (0.625).margin (0.06));

    const Box box (place);
    const double far = distance (drumIn (place, box), listenerIn (place, box));
    const auto arrival = static_cast<std::size_t> (std::lround ((far - 1.0) / box.soundSpeed * 44100.0));
    double first = 0.0, firstLeft = 0.0;
    for (std::size_t i = arrival - 2; i < arrival + 20; ++i)
    {
        first += static_cast<double> (one.left[i]);
        firstLeft += static_cast<double> (two.left[i]);
    }
    CHECK (firstLeft / first == Approx (0.75).epsilon (0.02));
}

TEST_CASE ("A room decays at every sample rate, and the result does not depend on the block size")
{
    for (const double sampleRate : { 22050.0, 44100.0, 48000.0, 88200.0, 96000.0, 192000.0 })
    {
        const auto response = tests::impulseResponse (dryStudio(), sampleRate, true, 1.0);
        double early = 0.0, late = 0.0;
        for (std::size_t i = 0; i < response.left.size(); ++i)
        {
            REQUIRE (std::isfinite (response.left[i]));
            (i < response.left.size() / 2 ? early : late) +=
                static_cast<double> (response.left[i]) * static_cast<double> (response.left[i]);
        }
        CHECK (early > 0.0);
        CHECK (early < 10.0);
        CHECK (late < 1.0e-8 * early);
    }

    const std::size_t frames = 20000;
    std::mt19937 random (3);
    std::vector<float> noise (frames), whole (frames), parts (frames), wholeRight (frames), partsRight (frames);
    for (auto& sample : noise)
        sample = std::uniform_real_distribution (-1.0f, 1.0f) (random);
    Room a (club(), 1.9, 48000.0), b (club(), 1.9, 48000.0);
    a.process (noise.data(), whole.data(), wholeRight.data(), static_cast<int> (frames));
    for (std::size_t done = 0; done < frames;)
    {
        const auto count = std::min<std::size_t> (1 + random() % 700, frames - done);
        b.process (noise.data() + done, parts.data() + done, partsRight.data() + done, static_cast<int> (count));
        done += count;
    }
    CHECK (whole == parts);
    CHECK (wholeRight == partsRight);
}

TEST_CASE ("Random rooms are stable")
{
    std::mt19937 random (11);
    for (int i = 0; i < 40; ++i)
    {
        Place place;
        place.volume = std::exp (std::uniform_real_distribution (std::log (10.0), std::log (1.0e6)) (random));
        for (auto* side : { &place.lengthToHeight, &place.widthToHeight })
            *side = std::exp (std::uniform_real_distribution (std::log (0.3), std::log (20.0)) (random));
        for (auto& time : place.times)
            time = std::uniform_real_distribution (timeRange.low, 2.0) (random); // whatever the neighbours have
        place = madePossible (place);
        const auto response = tests::impulseResponse (place, 22050.0, false, 2.0 + 3.0 * longest (place));
        double peak = 0.0, end = 0.0;
        for (std::size_t k = 0; k < response.left.size(); ++k)
        {
            REQUIRE (std::isfinite (response.left[k]));
            auto& loudest = k < response.left.size() - 2000 ? peak : end;
            loudest = std::max (loudest, static_cast<double> (std::abs (response.left[k])));
        }
        INFO ("room " << i << ", " << place.volume << " m3, peak " << peak << ", end " << end);
        CHECK (end < 1.0e-3 * peak);
    }
}

TEST_CASE ("Another place comes in without a click")
{
    // A steady low tone: a click would be a step much larger than the tone's own largest from sample to sample.
    constexpr double sampleRate = 48000.0, hertz = 100.0;
    constexpr std::size_t frames = 48000;
    std::vector<float> tone (frames), left (frames), right (frames);
    for (std::size_t i = 0; i < frames; ++i)
        tone[i] = static_cast<float> (std::sin (2.0 * 3.14159265358979 * hertz * static_cast<double> (i) / sampleRate));

    RoomFader fader;
    fader.prepare (sampleRate);
    std::size_t done = 0;
    const auto playTo = [&] (std::size_t end)
    {
        fader.process (tone.data() + done, left.data() + done, right.data() + done, static_cast<int> (end - done));
        done = end;
    };
    CHECK (fader.isSilent());
    fader.fadeTo (std::make_unique<Room> (club(), 1.0, sampleRate));
    playTo (20000);
    CHECK_FALSE (fader.isFading());
    CHECK (fader.takeFormer() == nullptr);
    fader.fadeTo (std::make_unique<Room> (church(), 1.0, sampleRate));
    CHECK (fader.isFading());
    playTo (36000);
    CHECK (fader.takeFormer() != nullptr);
    fader.fadeTo (nullptr);
    playTo (frames);
    CHECK (fader.isSilent());
    CHECK (left.back() == 0.0f);

    float loudest = 0.0f, step = 0.0f;
    for (std::size_t i = 15000; i < frames; ++i)
    {
        loudest = std::max ({ loudest, std::abs (left[i]), std::abs (right[i]) });
        step = std::max ({ step, std::abs (left[i] - left[i - 1]), std::abs (right[i] - right[i - 1]) });
    }
    CHECK (static_cast<double> (step) < 1.5 * 2.0 * 3.14159265358979 * hertz / sampleRate * static_cast<double> (loudest));
}

TEST_CASE ("A room from another's bytes sounds the same")
{
    std::vector<float> sound (4000);
    std::minstd_rand random (1);
    for (auto& sample : sound)
        sample = static_cast<float> (random()) / static_cast<float> (std::minstd_rand::max()) - 0.5f;

    auto openAir = club();
    openAir.kind = Place::Kind::openAir;
    const auto frames = static_cast<int> (sound.size());
    for (const auto& place : { club(), openAir })
    {
        Room one (place, 1.5, 48000.0);
        const auto bytes = one.write();
        CHECK (bytes.size() < 20000);
        Room other (bytes);
        CHECK (other.sampleRate() == 48000.0);
        std::vector<float> left (sound.size()), right (left), otherLeft (left), otherRight (left);
        one.process (sound.data(), left.data(), right.data(), frames);
        other.process (sound.data(), otherLeft.data(), otherRight.data(), frames);
        CHECK (left == otherLeft);
        CHECK (right == otherRight);
        CHECK ((left == right) == (place.kind == Place::Kind::openAir)); // all of it comes from the front

        auto tooShort = bytes, tooLong = bytes;
        tooShort.pop_back();
        tooLong.push_back ({});
        CHECK_THROWS_AS (Room (tooShort), modal::InputError);
        CHECK_THROWS_AS (Room (tooLong), modal::InputError);
    }
}

TEST_CASE ("A room made for one channel gives both outputs what one channel hears")
{
    const auto place = club();
    Room mono (place, 1.5, 48000.0, true), usual (place, 1.5, 48000.0);
    std::vector<float> impulse (9600, 0.0f), left (impulse), right (impulse), one (impulse);
    impulse[0] = 1.0f;
    const auto frames = static_cast<int> (impulse.size());
    mono.process (impulse.data(), left.data(), right.data(), frames);
    usual.process (impulse.data(), one.data(), nullptr, frames);
    CHECK (left == one);
    CHECK (right == one);
}
