#include "tests/Catch.h"

#include "Plugin/Midi.h"

#include <random>

using namespace plugin;
using Kind = MidiAction::Kind;

namespace
{
MidiAction read (std::initializer_list<int> bytes, const MidiChoices& choices = {})
{
    std::vector<std::uint8_t> data;
    for (const int byte : bytes)
        data.push_back (static_cast<std::uint8_t> (byte));
    return readMidi (data.data(), static_cast<int> (data.size()), choices);
}
} // namespace

TEST_CASE ("Notes 37, 38 and 40 play cross-stick, stroke and rimshot")
{
    // General MIDI 1 percussion key map: 37 side stick, 38 acoustic snare. A rimshot on 40 is common practice, no source.
    CHECK (read ({ 0x99, 37, 100 }).stroke.kind == engine::StrokeKind::crossStick);
    CHECK (read ({ 0x99, 38, 100 }).stroke.kind == engine::StrokeKind::tip);
    CHECK (read ({ 0x99, 40, 100 }).stroke.kind == engine::StrokeKind::rimshot);
    CHECK (read ({ 0x99, 38, 127 }).stroke.speed > read ({ 0x99, 38, 20 }).stroke.speed);
}

// The brush set of General MIDI level 2 has a swirl on 40 (from memory).
TEST_CASE ("A held note sweeps: 19 in a circle, 18 straight, and with a brush 40 instead of its rimshot; its end lifts the brush")
{
    MidiChoices brush;
    brush.hasBrush = true;
    for (const int note : { 18, 19, 40 })
    {
        const auto down = read ({ 0x99, note, 100 }, brush);
        CHECK (down.kind == Kind::strike);
        CHECK (down.stroke.kind == engine::StrokeKind::sweep);
        CHECK (down.stroke.sweepsStraight == (note == 18));
        CHECK (down.stroke.sweepTime > 20.0);
        CHECK_FALSE (down.usesPlayersPosition);
        CHECK (read ({ 0x89, note, 64 }, brush).kind == Kind::liftBrush);
        CHECK (read ({ 0x99, note, 0 }, brush).kind == Kind::liftBrush);
    }
    CHECK (read ({ 0x89, 38, 64 }, brush).kind == Kind::nothing);
    CHECK (read ({ 0x89, 40, 64 }).kind == Kind::nothing);
}

TEST_CASE ("A note on with velocity 0 is a note off, as MIDI 1.0 says, and plays nothing")
{
    CHECK (read ({ 0x99, 38, 0 }).kind == Kind::nothing);
    CHECK (read ({ 0x89, 38, 64 }).kind == Kind::nothing);
}

// General MIDI level 1 percussion lies on 35 to 81, level 2 adds 27 to 34 and 82 to 87 (RP-003, RP-024; from memory).
TEST_CASE ("Of a whole kit in a General MIDI track only the snare's notes strike")
{
    for (int note = 27; note <= 87; ++note)
    {
        const bool isSnare = note == 37 || note == 38 || note == 40;
        CHECK (read ({ 0x99, note, 100 }).kind == (isSnare ? Kind::strike : Kind::nothing));
    }
}

TEST_CASE ("Our own notes can be switched off")
{
    CHECK (read ({ 0x99, 26, 100 }).kind == Kind::strike);
    CHECK (read ({ 0x99, 26, 100 }, { 0, false, 0 }).kind == Kind::nothing);
    CHECK (read ({ 0x99, 38, 100 }, { 0, false, 0 }).kind == Kind::strike);
}

TEST_CASE ("Notes on the tuning channel tune and do not strike")
{
    const auto action = read ({ 0x91, 54, 100 }, { 2, true, 0 });
    CHECK (action.kind == Kind::tune);
    CHECK (action.note == 54);
    CHECK (read ({ 0x90, 38, 100 }, { 2, true, 0 }).kind == Kind::strike);
}

TEST_CASE ("The chosen controller moves the position, pressure presses the stick")
{
    CHECK (read ({ 0xB0, 16, 127 }).kind == Kind::nothing);
    CHECK (read ({ 0xB0, 0, 127 }).kind == Kind::nothing);
    const MidiChoices chosen{ 0, true, 16 };
    CHECK (read ({ 0xB0, 16, 127 }, chosen).kind == Kind::position);
    CHECK (read ({ 0xB0, 18, 127 }, chosen).kind == Kind::nothing);
    CHECK (read ({ 0xB0, 16, 127 }, chosen).amount == Approx (1.0));
    CHECK (read ({ 0xB0, 17, 0 }).kind == Kind::pressure);
    CHECK (read ({ 0xD0, 127 }).kind == Kind::pressure);
    CHECK (read ({ 0xA0, 38, 64 }).kind == Kind::pressure);
    CHECK (read ({ 0xB0, 120, 0 }).kind == Kind::silence);
    CHECK (read ({ 0xB0, 121, 0 }).kind == Kind::resetControllers);
    CHECK (read ({ 0x90, chokeNote, 1 }).kind == Kind::choke);
}

TEST_CASE ("Broken MIDI does nothing")
{
    CHECK (readMidi (nullptr, 0, {}).kind == Kind::nothing);
    CHECK (read ({ 0x99 }).kind == Kind::nothing);
    CHECK (read ({ 0x99, 38 }).kind == Kind::nothing);
    CHECK (read ({ 0x99, 38, 200 }).kind == Kind::nothing);
    CHECK (read ({ 0xF0, 0x7E, 0x7F, 9, 1, 0xF7 }).kind == Kind::nothing);
    CHECK (read ({ 38, 38, 38 }).kind == Kind::nothing);
}
