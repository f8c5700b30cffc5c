#pragma once

#include "CommandButton.h"
#include "ValueBinding.h"

#include "Modal/Prediction.h"

/** Every word that the window shows, in one place. Parameters bring their names from the table of parameters; what is said about
    them here is physics, found by their identifiers. */
namespace editor::strings
{

inline constexpr const char* product = "Snarewright";

// Headings of views, also their accessible names.
inline constexpr const char* ladderTitle = "Pitch ladder";
inline constexpr const char* sectionTitle = "The drum in section";
inline constexpr const char* batterHeadTitle = "Batter head from above";
inline constexpr const char* resonantHeadTitle = "Resonant head from above";
inline constexpr const char* outcomesTitle = "What you will get";
inline constexpr const char* spectrumTitle = "Spectrum of the last strike";
inline constexpr const char* decayTitle = "Decay of the last strike";
inline constexpr const char* auditionTitle = "Audition";
inline constexpr const char* listenTitle = "A walk round a real head";
inline constexpr const char* setUpTitle = "The drum and how it is played";

// Short words on the drawings.
inline constexpr const char* batter = "batter";
inline constexpr const char* resonant = "resonant";
inline constexpr const char* drumNoteShort = "the drum";
inline constexpr const char* headsTogether = "together";
inline constexpr const char* headsOpposed = "opposed";
inline constexpr const char* noStrikeYet = "Strike the batter head to see it move and hear it";
inline constexpr const char* noSpectrumYet = "Strike the drum: its spectrum appears here";
inline constexpr const char* struckBefore = "struck before the change: strike again";
inline constexpr const char* struckBeforeShort = "struck before the change:";
inline constexpr const char* strikeAgain = "strike again";
inline constexpr const char* noOutput = "No sound output: see Options > Audio";
inline constexpr const char* hostIsStill = "The host is not playing audio";
inline constexpr const char* notYet = "working";
inline constexpr const char* fallsIn = "falls 60 dB in";
inline constexpr const char* wholeSound = "whole sound";
inline constexpr const char* drumNoteAlone = "drum note alone";
inline constexpr const char* predictedSlope = "predicted, wires off:";

// What you will get. These hold letters beyond ASCII: read them with String::fromUTF8.
inline constexpr const char* same = "\xc2\xb1 0";
inline constexpr const char* withinTwentieth = "\xc2\xb1 5 %";
inline constexpr const char* withinFifth = "\xc2\xb1 20 %";
inline constexpr const char* within3dB = "\xc2\xb1 3 dB";
inline constexpr const char* withinSemitone = "\xc2\xb1 50 c";
inline constexpr const char* withinFactor2 = "factor of 2";
inline constexpr const char* yieldMark = "yield";
inline constexpr const char* notAtAll = "not at all";
inline constexpr const char* wiresOff = "wires off";
inline constexpr const char* changeColumn = "from A";
inline constexpr const char* changeColumnBefore = "from before";
inline constexpr const char* surenessColumn = "give or take";
inline constexpr const char* drumNote = "Drum note";
inline constexpr const char* sustain = "Sustain";
inline constexpr const char* batterLeverage = "Drum note, if batter goes up a semitone";
inline constexpr const char* batterLeverageShort = "if batter goes up a semitone";
inline constexpr const char* resonantLeverage = "Drum note, if resonant goes up a semitone";
inline constexpr const char* resonantLeverageShort = "if resonant goes up a semitone";
inline constexpr const char* brightness = "Attack brightness";
inline constexpr const char* earlyToLate = "Early over late";
inline constexpr const char* wiresAtCentre = "Softest stroke at the centre that moves the wires";
inline constexpr const char* wiresAtCentreShort = "Wires move from, centre";
inline constexpr const char* wiresAtEdge = "Softest stroke at the edge that moves the wires";
inline constexpr const char* wiresAtEdgeShort = "Wires move from, edge";
inline constexpr const char* rebound = "Stick rebound";
inline constexpr const char* contact = "Stick on the head";
inline constexpr const char* batterTension = "Batter tension";
inline constexpr const char* batterStress = "Batter film";
inline constexpr const char* batterLugForce = "Batter force per lug";
inline constexpr const char* resonantTension = "Resonant tension";
inline constexpr const char* resonantStress = "Resonant film";
inline constexpr const char* resonantLugForce = "Resonant force per lug";

inline constexpr const char* drumNoteTip = "The lowest mode of both heads and the air together; the frequencies rest on the mass "
                                           "of film and air, and are as sure as the "
                                           "film's thickness is.";
inline constexpr const char* sustainTip =
    "Time for the drum note to fall by 60 dB; what leaves as sound is computed, what film and edge take is common practice, so "
    "take it as a factor, not a figure.";
inline constexpr const char* leverageTip =
    "How far the drum note moves when this head alone goes up a semitone (100 cents): the head that "
    "carries more of the motion has the longer "
    "lever.";
inline constexpr const char* brightnessTip = "The root mean square frequency of the first 20 ms at the microphone above: it "
                                             "falls with contact time and rises with tension.";
inline constexpr const char* earlyToLateTip =
    "Energy of the first 50 ms over all that follows: more is drier. It leans on the losses, as sustain does.";
inline constexpr const char* wireResponseTip =
    "The softest stroke that moves the wires off the head, as the speed of the tip: lower answers to a lighter touch; strainer "
    "and bed differ much between drums.";
inline constexpr const char* reboundTip =
    "How fast the stick leaves against how fast it came, without the hand's help: a tight head gives more back.";
inline constexpr const char* contactTip =
    "How long the tip rests on the head: modes whose half period is shorter are hardly struck.";
inline constexpr const char* tensionTip = "Pull across each metre of head; follows from tap note, film and the air that moves "
                                          "along. The maker's limit for the head comes "
                                          "first.";
inline constexpr const char* stressTip =
    "Tension over the thickness of the film, of the stress at which polyester begins to yield: stop "
    "at half of it, where the mark stands, or at the maker's limit if that is lower.";
inline constexpr const char* lugForceTip = "The pull of the head shared by its rods, without friction at the edge; rods, inserts "
                                           "and hoops have limits of their own, which "
                                           "their makers give.";

// Buttons: what is on them, what they are called, and what they do.
inline constexpr CommandText presets{ "Drums and tunings", "Drums and tunings",
                                      "Loads a drum with a tuning, or saves what is set; film, size and notes decide the rest." };
inline constexpr CommandText headsPage{ "Heads", "Page: heads",
                                        "The drum in section and its heads from above, moving as they did at the last strike." };
inline constexpr CommandText soundPage{ "Sound", "Page: sound",
                                        "Spectrum and decay of the last strike against the predicted modes." };
inline constexpr CommandText setUpPage{
    "Set up", "Page: set up", "Everything that can be measured and set on the drum: sizes, films, wires, stick, microphones."
};
inline constexpr CommandText listenPage{
    "Listen", "Page: listen", "Hears a real drum at the audio input: tap beside each lug, see each note, copy it to the model."
};
inline constexpr CommandText keepA{ "Keep A", "Keep as A",
                                    "Keeps what is set as A; from then on every quantity shows its change from A." };
inline constexpr CommandText keepB{ "Keep B", "Keep as B",
                                    "Keeps what is set as B, to switch back and forth or to play a drum between A and B." };
inline constexpr CommandText hearA{ "A", "Recall A", "Sets the drum as it was kept as A." };
inline constexpr CommandText hearB{ "B", "Recall B", "Sets the drum as it was kept as B." };
inline constexpr CommandText undo{ "Undo", "Undo", "Takes the last change back (Ctrl Z)." };
inline constexpr CommandText redo{ "Redo", "Redo", "Makes the change again (Ctrl Shift Z)." };
inline constexpr CommandText theme{ "Dark", "Light or dark", "Dark letters on light paper, or the other way round." };
inline constexpr CommandText sweep{
    "Hear every interval", "Hear every interval",
    "Plays the drum with the heads a minor second apart, then wider by semitones to an octave, and puts back what was set."
};
inline constexpr CommandText matchLoudness{
    "Match loudness", "Match loudness",
    "Moves the output gain so that one stroke keeps its level from tuning to tuning: louder always seems better."
};
inline constexpr CommandText listenBatter{ "Batter", "Listen to the batter head",
                                           "The batter head is tapped; the resonant head is held still with a cloth." };
inline constexpr CommandText listenResonant{ "Resonant", "Listen to the resonant head",
                                             "The resonant head is tapped; the batter head is held still, the wires are off." };
inline constexpr CommandText startListening{ "Start", "Start or stop listening",
                                             "Begins the walk anew at lug 1; while it runs, stops it and keeps what was heard." };
inline constexpr CommandText takeBackTap{ "Take back", "Take the last tap back",
                                          "Forgets the tap that was heard last; tap beside that lug again." };
inline constexpr CommandText workOutHead{
    "Work out", "Work the head out now",
    "Makes tension and lugs of the taps so far; after the last lug this comes by itself, and fewer taps tell less."
};
inline constexpr CommandText setDrumAsHeard{
    "Copy to the model", "Copy the head that was heard to the model",
    "Sets this head's tap note and its lugs to what was heard, as one step of undo; the other head keeps its note."
};
inline constexpr const char* changed = "(changed)";
inline constexpr const char* playPattern = "Play pattern";
inline constexpr const char* toLight = "Light";
inline constexpr const char* toDark = "Dark";
inline constexpr const char* yourPresets = "Your presets";
inline constexpr const char* saveAs = "Save as";
inline constexpr const char* deletePreset = "Delete";
inline constexpr const char* importPreset = "Import a file";
inline constexpr const char* exportPreset = "Export to a file";
inline constexpr const char* presetNamePrompt = "Name, then Return";

// Listening.
inline constexpr const char* inputShort = "input";
inline constexpr const char* inputLevel = "Input level, dB below full scale";
inline constexpr const char* inputLevelTip =
    "The peak of what comes in: taps should reach -20 dB or more and stay below 0, where the recording is cut off.";
inline constexpr const char* stopListening = "Stop";
inline constexpr const char* goOnListening = "Go on";
inline constexpr const char* stillListening = "listening";
inline constexpr const char* otherLugs = "The drum now has another number of lugs, so the walk has ended.";
inline constexpr const char* lugChosen = "Go on listens from this lug on. Press the lug again to leave it as it is.";
inline constexpr const char* nothingHeard = "nothing heard yet";
inline constexpr const char* tapNote = "Tap note";
inline constexpr const char* tensionOfHead = "Tension heard";
inline constexpr const char* beforeListening = "Before you begin";
inline constexpr const char* howToListen =
    "Wires off, the other head held still with a cloth. Hold the microphone a hand's breadth "
    "over the lug: turn the drum, not the microphone. Then press Start.";
inline constexpr const char* noInput = "There is no audio input";
inline constexpr const char* howToGetInput =
    "In a host, give the instrument a side chain; in the standalone instrument, choose an input device under Options.";
inline constexpr const char* onlySilence = "Only silence comes in";
inline constexpr const char* whySilence =
    "Check what is connected. In the standalone instrument the input may be muted under Options; "
    "unmuting it is safe here, since it never plays what it hears.";
inline constexpr const char* howToTap = "25 mm from the edge, once, and let it ring for a second.";
inline constexpr const char* workingOut = "Working the head out ...";
inline constexpr const char* headNotHeard = "No head fits these taps";
inline constexpr const char* everyTapFits = "Every tap fits one head. Copy it to the model to hear it.";
inline constexpr const char* listeningStopped = "Stopped";
inline constexpr const char* howToGoOn = "Choose a lug and press Go on, or Start to begin anew.";
inline constexpr const char* drumSetAsHeard = "Tuned as heard: note and lugs. Its tension is that of a film as heavy as entered, "
                                              "within the error heard. Ctrl Z takes it back.";

// Messages.
inline constexpr const char* outOfReach = ": the heads reach from ";
inline constexpr const char* speedRange = "The stroke's speed goes from 0.25 to 10 m/s.";
inline constexpr const char* tooManyStrokes = "Too many strokes wait to be played.";
inline constexpr const char* noMode = "no mode";
inline constexpr const char* noSuchMode = "There is no such mode: type one as (1,1) or a frequency in Hz.";
inline constexpr const char* caution =
    "Drums are loud: begin low on headphones. Tighten heads and rods no further than their makers allow.";

ControlText batterNote();
ControlText resonantNote();
ControlText interval();
ControlText lug (bool isBatter, int number);
ControlText lugSpot (int number);
ControlText strikePoint();
ControlText spectrumMode();
ControlText strokeSpeed();

/** How the heads share a mode: "together", "opposed"; empty for a drum of one head. */
juce::String sharing (const modal::Prediction&, const modal::Mode&);

/** "split, beats 0.4 Hz": two modes of the same kind, so far apart. */
juce::String splitPair (double hertz);

/** ", words", or nothing for none. */
juce::String afterComma (const juce::String& words);

/** "8 of 100 MPa". */
juce::String ofYield (double stress, double yieldStress);

/** "(1,1) 233 Hz". */
juce::String modeName (const modal::Mode&);

/** The mode that a person means by "(1,1)", "1,1" or a frequency in Hz (the nearest within a semitone); -1 if none. */
int findMode (const modal::Prediction&, const juce::String& typed);

juce::String modeCaption (const modal::Prediction&, const modal::Mode&);
juce::String strikeCaption (double milliseconds, double slowing);

juce::String headReaches (bool isBatter, const juce::String& lowest, const juce::String& highest);
/** "14 x 5.5 in, maple": a drum that nobody has named. */
juce::String drumWithoutName (const juce::String& diameter, const juce::String& depth, const juce::String& material);

juce::String tapBeside (int lug);
juce::String meanOfLugs (int count);

/** One sentence of physics about a parameter, by its identifier; never empty. */
juce::String tipFor (const juce::String& parameterId);

} // namespace editor::strings
