#pragma once

#include "CommandButton.h"
#include "ValueBinding.h"

#include "Finding/Figure.h"
#include "Modal/Prediction.h"

/** All text that the window shows, except the names of parameters, which come from the parameter table. Tooltips of parameters
    are found here by parameter identifier. */
namespace editor::strings
{

inline constexpr const char* product = "Snarewright";

// Headings of views; also their accessible names.
inline constexpr const char* ladderTitle = "Pitch ladder";
inline constexpr const char* sectionTitle = "Cross-section of the drum";
inline constexpr const char* batterHeadTitle = "Batter head from above";
inline constexpr const char* resonantHeadTitle = "Resonant head from above";
inline constexpr const char* resultTitle = "Predicted result";
inline constexpr const char* spectrumTitle = "Spectrum of the last strike";
inline constexpr const char* decayTitle = "Decay of the last strike";
inline constexpr const char* auditionTitle = "Audition";
inline constexpr const char* patternTitle = "Pattern";
inline constexpr const char* listenTitle = "Listening to a real drum";
inline constexpr const char* spectrogramTitle = "Spectrogram of the input";
inline constexpr const char* answersTitle = "Tunings that explain the strikes";
inline constexpr const char* knownTitle = "What you know about the drum";
inline constexpr const char* setUpTitle = "Drum set-up";
inline constexpr const char* mapTitle = "Map of tunings";
inline constexpr const char* wishesTitle = "Wishes";
inline constexpr const char* keptTitle = "Kept tunings";

// Short labels on the drawings.
inline constexpr const char* batter = "batter";
inline constexpr const char* resonant = "resonant";
inline constexpr const char* drumNoteShort = "drum note";
inline constexpr const char* headsInPhase = "in phase";
inline constexpr const char* headsOpposed = "opposed";
inline constexpr const char* noStrikeYet = "Click the batter head to strike it";
inline constexpr const char* noSpectrumYet = "Strike the drum to see its spectrum";
inline constexpr const char* struckBefore = "recorded before the last change: strike again";
inline constexpr const char* struckBeforeShort = "recorded before the last change:";
inline constexpr const char* strikeAgain = "strike again";
inline constexpr const char* noOutput = "No sound output: choose a device under Options";
inline constexpr const char* hostIsStill = "No sound: the host is not running audio";
inline constexpr const char* notYet = "calculating";
inline constexpr const char* fallsIn = "rings";
inline constexpr const char* wholeSound = "whole sound";
inline constexpr const char* drumNoteAlone = "drum note only";
inline constexpr const char* predictedSlope = "predicted ring, wires off:";

// The map.
inline constexpr const char* mapTip =
    "Interval over the batter's tap note; lines join tunings with the same drum note. Click to tune there and hear it, drag to hear the way. With "
    "Alt, a drag or the left and right arrow keeps the drum note, so that the interval alone changes.";
inline constexpr const char* mapComing = "The map is being computed";
inline constexpr const char* mapNeedsTwoHeads = "The map needs a drum with two heads: it goes over the notes of both.";
inline constexpr const char* batterWouldYield = "batter would yield";
inline constexpr const char* resonantWouldYield = "resonant head would yield";
inline constexpr const char* noSuchBatterNote = "batter cannot reach this note (air mode)";
inline constexpr const char* noSuchResonantNote = "resonant head cannot reach this note (air mode)";
inline constexpr const char* batterSlack = "batter too slack";
inline constexpr const char* resonantSlack = "resonant head too slack";
inline constexpr const char* halfOfYield = "half of yield";
inline constexpr const char* tunedOnMap = "Tuning from the map";
inline constexpr const char* noWishes = "Type a wish beside its name: the map dims the tunings that miss it, and up to five that meet it appear below.";
inline constexpr const char* looking = "Looking for tunings";
inline constexpr CommandText startHere{ "Start here", "Count moves from the present tuning",
                                        "The heads' moves count from the tuning that is set now." };
inline constexpr CommandText foundTuning{ "1", "Found tuning", "Press to tune the drum to it and hear a stroke." };
inline constexpr const char* foundTitle = "Tunings found";
inline constexpr CommandText hearFound{
    "Hear all ...", "Hear all tunings found with a part",
    "Plays a part with every tuning found, one after the other at equal loudness (ITU-R BS.1770): the pattern, "
    "or a MIDI file, which you can also drop on this page. The drum keeps its tuning."
};
inline constexpr CommandText blindFound{
    "Blind", "Hear the tunings found blind",
    "Shuffles the tunings that are heard with a part and hides their notes until you choose one."
};
inline constexpr CommandText chooseFound{
    "Choose", "Choose the tuning heard last",
    "Tunes the drum to the tuning heard last, shows its notes and how far to turn the rods."
};
inline constexpr CommandText writeSheet{
    "Sheet ...", "Write a tuning sheet",
    "Writes two pages for the tuning that is set: target, lugs, and the plan for the rods from where the moves count."
};
inline constexpr const char* hearAgain = "Again, from the first";
inline constexpr const char* hearWithPattern = "With the pattern";
inline constexpr const char* hearWithMidi = "With a MIDI file ...";
inline constexpr const char* hearProgress = "Progress of rendering the tunings";
inline constexpr const char* hearCancelled = "Cancelled.";
inline constexpr const char* hearOneTip = "Press to hear the part with this tuning.";
inline constexpr const char* blindFoundTip = "One of the tunings found. Press to hear it; Choose shows which it is.";
inline constexpr const char* foundChanged = "The tunings found have changed. Press Hear all again.";
inline constexpr const char* otherRate = "The sample rate has changed. Press Hear all again.";
inline constexpr const char* nothingFound = "There are no tunings to hear yet: type a wish.";
juce::String filePattern (const char* endings); ///< "mid;smf" as "*.mid;*.smf", for a file chooser
juce::String partIsCut (double seconds);
juce::String turnRods (const juce::String& turns);
juce::String sheetWritten (const juce::File&);

// Predicted result. UTF-8: read with String::fromUTF8.
inline constexpr const char* same = "\xc2\xb1 0";
inline constexpr const char* withinTwentieth = "\xc2\xb1 5 %";
inline constexpr const char* withinFifth = "\xc2\xb1 20 %";
inline constexpr const char* within3dB = "\xc2\xb1 3 dB";
inline constexpr const char* withinSemitone = "\xc2\xb1 50 c";
inline constexpr const char* withinFactor2 = "factor of 2";
inline constexpr const char* yieldMark = "yield";
inline constexpr const char* notAtAll = "no response";
inline constexpr const char* wiresOff = "wires off";
inline constexpr const char* changeColumn = "change";
inline constexpr const char* uncertaintyColumn = "uncertainty";
inline constexpr const char* drumNote = "Drum note";
inline constexpr const char* ring = "Ring";
inline constexpr const char* ringWiresOff = "Ring, wires off";
inline constexpr const char* ringWiresOn = "Ring, wires on";
inline constexpr const char* perBatterSemitone = "Drum note per semitone on batter";
inline constexpr const char* perBatterSemitoneShort = "per semitone on batter";
inline constexpr const char* perResonantSemitone = "Drum note per semitone on resonant";
inline constexpr const char* perResonantSemitoneShort = "per semitone on resonant";
inline constexpr const char* brightness = "Attack brightness";
inline constexpr const char* dryness = "Dryness";
inline constexpr const char* wiresAtCentre = "Snare response, centre (softest stroke)";
inline constexpr const char* wiresAtCentreShort = "Snare response, centre";
inline constexpr const char* wiresAtEdge = "Snare response, edge (softest stroke)";
inline constexpr const char* wiresAtEdgeShort = "Snare response, edge";
inline constexpr const char* bendingScale = "stick bending, enlarged 50 times";
inline constexpr const char* ofStickOnly = "sticks only";
inline constexpr const char* rebound = "Stick rebound";
inline constexpr const char* contact = "Contact time";
inline constexpr const char* noteInPlace = "Drum note at the listener";
inline constexpr const char* levelInPlace = "Level at the listener";
inline constexpr const char* wiresCarry = "Wires carry to";
inline constexpr const char* everywhere = "everywhere";
inline constexpr const char* rimshotLevel = "Rimshot against stroke";
inline constexpr const char* batterTension = "Batter tension";
inline constexpr const char* batterStress = "Batter, of yield strength";
inline constexpr const char* batterRodForce = "Batter force per rod";
inline constexpr const char* resonantTension = "Resonant tension";
inline constexpr const char* resonantStress = "Resonant, of yield strength";
inline constexpr const char* resonantRodForce = "Resonant force per rod";

inline constexpr const char* drumNoteTip =
    "The lowest mode of the two heads and the air together. It is as accurate as the head weights you entered.";
inline constexpr const char* ringTip = "Time for the drum note to fall by 60 dB, wires off. Sound radiation is calculated; "
                                       "losses in head and edge are typical values, so expect up to a factor of two.";
inline constexpr const char* ringWiresOnTip =
    "Time for the drum note to fall by 60 dB after a stroke at 3 m/s with the wires on. They take its energy as they rattle: a softer "
    "stroke rings longer. The other modes, in which the resonant head moves less, ring on.";
inline constexpr const char* perSemitoneTip =
    "How far the drum note moves when you raise this head alone by a semitone (100 cents).";
inline constexpr const char* brightnessTip =
    "Centroid of the loudness in third octaves over the first 20 ms, at the microphone above the batter head.";
inline constexpr const char* drynessTip =
    "Energy of the first 50 ms against the rest: a higher figure is a drier drum. It depends on the damping, as the ring does.";
inline constexpr const char* wireResponseTip =
    "Tip speed of the softest stroke that lifts the wires off the head. Lower means the snares answer a lighter touch. Strainers "
    "and snare beds vary a lot from drum to drum.";
inline constexpr const char* reboundTip =
    "Speed of the stick leaving the head against its speed arriving, with a relaxed grip. A tighter head gives more back.";
inline constexpr const char* contactTip = "How long the tip stays on the head. A shorter contact gives a brighter attack.";
inline constexpr const char* noteInPlaceTip =
    "Time for the drum note to fall by 60 dB at the listener, wires off, and how many beats that is at the pattern's tempo.";
inline constexpr const char* levelInPlaceTip = "Sound exposure level of one stroke at 3 m/s, A-weighted: the level of one stroke a second.";
inline constexpr const char* wiresCarryTip =
    "Distance from the drum at which, in the octave of 4 kHz, the wires' reverberation is as loud as their direct sound, or they are only 10 dB above "
    "the usual noise, whichever is nearer.";
inline constexpr const char* rimshotLevelTip =
    "Level of a rimshot against a stroke on the head as fast, heard from above. Players strike rimshots harder.";
inline constexpr const char* tensionTip =
    "Pull per metre of head, from the tap note, the head's weight and the air it moves. The maker's limit comes first.";
inline constexpr const char* stressTip = "Stress in the head against the yield strength of polyester. Stop at half of it, where "
                                         "the mark stands, or at the maker's limit if that is lower.";
inline constexpr const char* rodForceTip = "The head's pull shared between the rods, without friction at the bearing edge. Rods, "
                                           "inserts and hoops have limits of their own: keep to the makers' figures.";

// Buttons: label, accessible name, tooltip.
inline constexpr CommandText presets{ "Drums and tunings", "Drums and tunings",
                                      "Load a drum with a tuning, or save the current one." };
inline constexpr CommandText headsPage{ "Heads", "Page: heads",
                                        "Cross-section and both heads from above, moving as they did at the last strike." };
inline constexpr CommandText soundPage{ "Sound", "Page: sound",
                                        "Spectrum and decay of the last strike with the predicted modes." };
inline constexpr CommandText mapPage{ "Map", "Page: map",
                                      "Every interval over every batter note, and the tunings that give what you wish for." };
inline constexpr CommandText setUpPage{ "Set up", "Page: set up", "Shell, heads, wires, muffling, stick, microphones and place." };
inline constexpr CommandText listenPage{
    "Listen", "Page: listen",
    "Measure a real drum through the audio input or from a recording: tap beside each lug, or strike the finished drum."
};
inline constexpr CommandText keepTuning{ "Keep", "Keep this tuning",
                                         "Keep the current drum and tuning under the next free letter, A to H." };
inline constexpr CommandText chooseTuning{ "Choose", "Choose this tuning",
                                           "End the blind comparison with the tuning that plays now, and show its name." };
inline constexpr CommandText compareWith{ "Change from", "Tuning to compare with",
                                          "Choose the kept tuning from which the results count the change." };
inline constexpr CommandText blind{ "Blind", "Blind comparison",
                                    "Hide names and figures and shuffle the kept tunings, so that only the ear decides." };
inline constexpr CommandText undo{ "Undo", "Undo", "Undo the last change (Ctrl Z)." };
inline constexpr CommandText redo{ "Redo", "Redo", "Redo the change (Ctrl Shift Z)." };
inline constexpr CommandText theme{ "Dark", "Light or dark", "Switch between light and dark colours." };
inline constexpr CommandText sweep{
    "Hear every interval", "Hear every interval",
    "Plays the drum with every interval from a minor second to an octave, then restores your tuning."
};
inline constexpr CommandText renderPattern{
    "Render ...", "Render the pattern to files",
    "Writes the pattern as sound files, stereo and each microphone, and as a MIDI file."
};
inline constexpr CommandText dragAudio{ "Drag audio", "Drag the pattern out as audio",
                                        "Drag this into a track or a folder: the pattern as a sound file." };
inline constexpr CommandText dragMidi{ "Drag MIDI", "Drag the pattern out as MIDI",
                                       "Drag this into a track or a folder: the pattern as a MIDI file." };
inline constexpr CommandText showDetails{ "Details", "Details", "Shows or hides the numbers of this group." };
inline constexpr CommandText matchLoudness{
    "Match loudness", "Match loudness",
    "Adjusts the output gain so that every tuning has the same loudness (ITU-R BS.1770): louder tends to sound better."
};
inline constexpr CommandText listenBatter{ "Batter lugs", "Lug check of the batter head",
                                           "Lug check: tap the batter head. Hold the resonant head still with a cloth, wires off." };
inline constexpr CommandText listenResonant{ "Resonant lugs", "Lug check of the resonant head",
                                             "Lug check: tap the resonant head. Hold the batter head still with a cloth, wires off." };
inline constexpr CommandText listenStrikes{ "Strikes", "Strikes of the finished drum",
                                            "Strike the finished drum, both heads free and wires off: gives the notes of both heads." };
inline constexpr CommandText startListening{ "Start", "Start or stop listening",
                                             "Listen from the beginning: to lug 1, or to strikes. Press again to stop; what was heard is kept." };
inline constexpr CommandText openRecording{ "Open ...", "Open a recording",
                                            "Hear a recording (WAV, AIFF, FLAC, MP3) instead of the input: a lug check from lug 1 on, or strikes. Or "
                                            "drop the file on this page." };
inline constexpr CommandText pauseSpectrogram{ "Pause", "Pause the spectrogram",
                                               "Holds the picture so that you can read it. Listening goes on." };
inline constexpr CommandText sizeUnsure{ "Size unsure", "Size of the drum unsure",
                                         "Also tries drums an inch larger and an inch smaller than the one set up." };
inline constexpr CommandText headsUnsure{ "Heads unsure", "Heads of the drum unsure",
                                          "Lets the heads be heavier or lighter than those set up, by a fifth (one standard deviation)." };
inline constexpr CommandText deleteLastTap{ "Delete last tap", "Delete last tap",
                                            "Delete the last tap and tap beside that lug again." };
inline constexpr CommandText analyseHead{ "Analyse", "Analyse the head",
                                          "Find tension and lug differences from the taps so far. This starts by itself after "
                                          "the last lug; fewer taps give a less certain result." };
inline constexpr CommandText playLike{
    "Match the sound", "Match the sound of the last strike",
    "Sets muffling and wires so that the model rings like the last strike, as one undo step, then plays the strike and the "
    "model, one after the other at equal loudness. Set the drum to the strikes first; to match the wires, strike with the wires on."
};
inline constexpr CommandText applyToDrum{
    "Set the drum to this", "Set the drum to what was heard",
    "After a lug check sets this head's tap note and lugs and leaves the other head; after strikes sets both notes of the chosen answer, and "
    "its diameter. One undo step."
};
inline constexpr const char* changed = "(changed)";
inline constexpr const char* playPattern = "Play";
inline constexpr const char* cancelRender = "Cancel";
inline constexpr const char* renderProgress = "Progress of the render";
inline constexpr const char* renderTo = "Render to ...";
inline constexpr const char* renderCancelled = "Cancelled: no file was written.";
inline constexpr const char* howToDrag = "Press the mouse on this button and drag it out of the window.";
inline constexpr const char* dragStroke = "Drag it out of the window for its sound as a file, with Shift as a MIDI note.";
inline constexpr const char* dragAgain = "The file is ready: drag again.";
juce::String patternTimes (int times); ///< "once", "4 times"
juce::String rendered (const juce::File& mix, int files, float peak);
inline constexpr const char* toLight = "Light";
inline constexpr const char* toDark = "Dark";
inline constexpr const char* yourPresets = "Your presets";
inline constexpr const char* saveAs = "Save as ...";
inline constexpr const char* deletePreset = "Delete";
inline constexpr const char* importPreset = "Import a file ...";
inline constexpr const char* exportPreset = "Export to a file ...";
inline constexpr const char* presetNamePrompt = "Type a name, press Return";

// Kept tunings.
inline constexpr const char* nothingKept = "Keep up to eight tunings to compare them.";
inline constexpr const char* keptTip = "Press to hear it. Right-click or Delete to replace or clear it.";
inline constexpr const char* blindTip = "One of the kept tunings. Press to hear it.";
inline constexpr const char* blindNotice =
    "Blind comparison\n\nThe kept tunings are shuffled; names and figures are hidden.\nPress the numbers and play, then press "
    "Choose on the tuning you like best.";
juce::String keptName (const juce::String& letter);
juce::String keepHere (const juce::String& letter);
juce::String clearKept (const juce::String& letter);
juce::String changeFrom (const juce::String& letter);
juce::String changeSince (const juce::String& letter); ///< the same as a heading
juce::String youChose (const juce::String& letter, const juce::String& tuning);

// Parts chosen by name.
inline constexpr const char* batterHeadTip = "The head you strike: plies, coating, dot and ring decide weight and damping.";
inline constexpr const char* resonantHeadTip = "The snare-side head: the thinner it is, the more sensitive the snare response.";
inline constexpr const char* stickTip = "The stick that strikes: its wood, size and tip.";
inline constexpr const char* snareWiresTip = "The set of snare wires with its strainer setting.";
inline constexpr const char* placeTip = "Where the drum is played and heard. With a place you hear what its listener hears.";
inline constexpr const char* noPlace = "none";
inline constexpr const char* customPart = "custom";

// Listening.
inline constexpr const char* inputShort = "input";
inline constexpr const char* inputLevel = "Input level, dB below full scale";
inline constexpr const char* inputLevelTip =
    "Peak of the audio input. Taps should reach -20 dB or more and stay below 0 dB, where recording clips.";
inline constexpr const char* stopListening = "Stop";
inline constexpr const char* goOnListening = "Continue";
inline constexpr const char* stillListening = "listening";
inline constexpr const char* otherLugs = "The drum now has a different number of lugs, so the lug check has ended.";
inline constexpr const char* lugChosen = "Press Continue to go on from this lug. Press the lug again to deselect it.";
inline constexpr const char* nothingHeard = "no taps yet";
inline constexpr const char* runSpectrogram = "Resume";
inline constexpr const char* spectrogramTip =
    "Level over time and pitch, 60 dB from the faintest to the strongest colour. Lines are the partials of the taps heard; beside them the notes "
    "of the last tap and their cents.";
inline constexpr const char* noPartials = "No partials heard yet";
inline constexpr const char* partialsHeard = "Partials of the last tap: ";
juce::String spectrogramOf (const juce::String& file);
inline constexpr const char* answerName = "Answer";
inline constexpr const char* answerTip =
    "A tuning that explains the strikes, with its probability among those found. Press it to choose what \"Set the drum to this\" sets.";
inline constexpr const char* notHeard = "not heard";
inline constexpr const char* noteExample = "e.g. G#3 -5";
inline constexpr const char* deleteLastStrike = "Delete last strike";
inline constexpr const char* strikesHeard = "Strikes heard";
inline constexpr const char* rodsToTuning = "Turn all rods";
inline constexpr const char* nothingToTurn = "The drum is as set. Set other notes on Heads to see what to turn.";
inline constexpr const char* namedLug = ", named in the answer";
inline constexpr const char* lugsDone = "Lugs done (press one to repeat it)";
juce::String doneOf (int done, int all);
inline constexpr const char* analysingDrum = "Analysing the strikes ...";
inline constexpr const char* strikeTheDrum = "Strike the drum";
inline constexpr const char* howToStrike = "Once, and let it ring for a second. Then half way, near the edge, and once on the resonant head.";
inline constexpr const char* howToHearStrikes =
    "Both heads free, wires off, nothing on the heads. Press Start, then strike at the centre, half way and near the edge, each left to ring "
    "for a second. Or open or drop recordings. Wear ear protection.";
inline constexpr const char* playedLike = "Muffling and wires are set to match the strike. You hear the strike, then the model.";
inline constexpr const char* strikesAgree =
    "Press \"Set the drum to this\", then strike the model to hear it. More strikes make the answer more certain.";
inline constexpr const char* drumNotHeard = "The strikes do not match this drum";
inline constexpr const char* cannotUse = "This cannot be used";
inline constexpr const char* turnOfUsualDrum =
    "The turn is for a typical drum; yours may need half or twice as much. Turn, then tap again.";
inline constexpr const char* dropLugCheck = "Drop a recorded lug check: one tap beside each lug, lug 1 first";
inline constexpr const char* dropStrikes = "Drop recorded strikes of the finished drum, wires off";
inline constexpr const char* tapNote = "Tap note";
inline constexpr const char* tensionOfHead = "Measured tension";
inline constexpr const char* beforeListening = "Before you start";
inline constexpr const char* howToListen =
    "Wires off. Hold the other head still with a cloth. Mark one lug as lug 1 and count clockwise, seen from above. Hold the "
    "microphone a hand's breadth over the lug you tap; turn the drum, not the microphone. Then press Start.";
inline constexpr const char* noInput = "No audio input";
inline constexpr const char* howToGetInput = "In a host, add an audio input or side chain to the instrument. In the standalone "
                                             "program, choose an input device under Options.";
inline constexpr const char* onlySilence = "The input is silent";
inline constexpr const char* whySilence = "Check the microphone and its cable. In the standalone program the input may be muted "
                                          "under Options; unmute it there: the input is never played back.";
inline constexpr const char* howToTap = "Tap 25 mm from the edge, once, and let it ring for a second.";
inline constexpr const char* analysing = "Analysing the head ...";
inline constexpr const char* headNotHeard = "The taps do not match any head";
inline constexpr const char* everyTapFits = "All taps agree. Press \"Set the drum to this\" to hear it.";
inline constexpr const char* listeningStopped = "Stopped";
inline constexpr const char* howToGoOn = "Choose a lug and press Continue, or press Start to begin again.";
inline constexpr const char* applied =
    "Applied: tap note and lugs are as measured. The tension assumes the head weight you entered. Ctrl Z undoes this.";
inline constexpr const char* appliedStrikes =
    "Applied: both heads have the notes that were heard. Lugs and wires are unchanged. Ctrl Z undoes this.";

// Messages.
inline constexpr const char* outOfReach = ": the range is ";
inline constexpr const char* speedRange = "Stroke speed must be 0.25 to 10 m/s.";
inline constexpr const char* tooManyStrokes = "Too many strokes at once.";
inline constexpr const char* noMode = "no mode";
inline constexpr const char* noSuchMode = "No such mode. Type one as (1,1), or a frequency in Hz.";
inline constexpr const char* caution =
    "Drums are loud: wear ear protection and start headphones quietly. Keep heads and rods within their makers' limits.";

ControlText batterNote();
ControlText resonantNote();
ControlText interval();
ControlText shading();
ControlText wish (finding::Figure);
ControlText songKey();
ControlText songTempo();
juce::String wishExample (finding::Figure);
juce::String noSuchShading (const juce::StringArray& names);
juce::String foundName (int number, const juce::String& kind);
juce::String foundTip (const juce::String& kind, const juce::String& notes, const juce::String& sounding);
juce::String heads (const juce::String& batterMove, const juce::String& resonantMove);
juce::String allMet (int count);
juce::String movesFrom (const juce::String& batterTap, const juce::String& resonantTap);
ControlText drumNoteHandle();
ControlText lug (bool isBatter, int number);
ControlText lugSpot (int number);
ControlText strikePoint();
ControlText batterNoteRead();
ControlText resonantNoteRead();
ControlText spectrumMode();
ControlText strokeSpeed();

/** "in phase" or "opposed", said of the heads; empty for a drum with one head. */
juce::String sharing (const modal::Prediction&, const modal::Mode&);

/** "split, beats at 0.4 Hz": two modes of one pair that differ by this much. */
juce::String splitPair (double hertz);

/** ", text", or nothing if the text is empty. */
juce::String afterComma (const juce::String& words);

/** "(1,1) 233 Hz". */
juce::String modeName (const modal::Mode&);

/** The index of the mode typed as "(1,1)", "1,1" or a frequency in Hz (the nearest within a semitone); -1 if none. */
int findMode (const modal::Prediction&, const juce::String& typed);

juce::String modeCaption (const modal::Prediction&, const modal::Mode&);
juce::String strikeCaption (double milliseconds, double slowing);

juce::String headReaches (bool isBatter, const juce::String& lowest, const juce::String& highest);
/** "14 x 5.5 in, maple": stands in for a missing name. */
juce::String drumWithoutName (const juce::String& diameter, const juce::String& depth, const juce::String& material);

juce::String tapBeside (int lug);
juce::String meanOfLugs (int count);

/** One sentence about what a parameter does, by its identifier; never empty for a parameter. */
juce::String tipFor (const juce::String& parameterId);

} // namespace editor::strings
