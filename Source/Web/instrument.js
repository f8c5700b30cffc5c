// The instrument in a browser: solver in a worker, sound in an audio worklet. All that a page uses is here.
//
// A drum is everywhere the drum file of the program ("snarewright-drum", version 1) as an object. Its first tuning is the one in use.
// Every method that returns a promise rejects with an Error whose `message` is a plain sentence; where a value was at fault, `field`,
// `value` and `allowed` hold its parts.

import { compiledModule, workerSource, workletSource } from "./parts.js";
import { wavOf } from "./wav.js";

/** Numbers of heads' modes to play, from the usual one downwards for slow devices. */
const modeCounts = [400, 250, 150, 100];

/** Requests of which only the newest counts. */
const replaceable = new Set(["tune", "predict", "played", "in_place", "shapes", "compare", "map", "find", "plan", "sheet"]);

const workletUrl = "data:text/javascript," + encodeURIComponent(workletSource);

const heldText = "The browser holds the sound back until you touch the page.";
const noAudioText = "This browser cannot play the drum: it has no AudioWorklet. Predictions work; for sound use a current browser.";

/** A stroke: { kind: "tip" | "rimshot" | "cross_stick" | "buzz" | "double" | "sweep" (with a brush), position: share of the radius 0 to 0.98, angle: rad
    clockwise from lug 1 seen from above, speed: m/s, 0.01 to 12, of a sweep 0.02 to 3 }; and, if wanted, rim_delay_s, press_force_n, press_time_s,
    second_after_s, second_share, sweep_force_n, sweep_time_s, sweep_path: "circle" | "straight".
    @typedef {object} Stroke */

/**
 * Events, each with `detail`, from the first tune() on:
 * - "waiting": { message }. The browser holds the sound back until the page is touched, anywhere.
 * - "running": {}. Sound plays.
 * - "slow": { message, modes }. The device is too slow for all modes; from now on the drum is played with fewer.
 * - "failed": { message }. A part of the instrument has stopped; nothing that was set is lost.
 * - "level": { peak }. Largest sample since the last one, full scale 1, about 20 times a second while the drum sounds.
 * - "step": { index }. The step of the pattern that begins, counted from 0, rests included, bar lines left out.
 * - "listening": the state of the lug check, as addLugCheckSamples() gives it; see startMicrophone().
 */
export class Instrument extends EventTarget {
  /** Starts worker and audio thread. Resolves once requests can be made, whether or not sound may play yet. */
  static async open() {
    const instrument = new Instrument();
    await instrument.#start();
    return instrument;
  }

  /** What comes with the program: { drums: [{ name, document }], heads: [{ name, description, head }],
      wires: [{ name, description, wires }], sticks: [{ name, description, stick }], places: [{ name, description, place }],
      patterns: [{ name, text, steps_per_beat }], materials: [name], cautions: [sentence], version }. */
  presets() { return this.#ask("presets"); }

  /** A drum file as the program writes it, for one that was opened from a file or a link. Throws if it cannot be used.
      @param {object|string} document  an object, or the file's text */
  normalise(document) { return this.#ask("normalise", typeof document === "string" ? { text: document } : { document }); }

  /** The object that `predict --json` writes. `null` if a newer call replaced this one. */
  predict(document, { highestHz = 2000 } = {}) { return this.#ask("predict", { document, highest_hz: highestHz }); }

  /** Solves a drum, hands it to the sound without a pause and predicts it: { prediction, modes, wire_contacts, highest_hz }.
      Resolves when it plays, or at once while no sound runs. `null` if a newer call replaced this one. */
  async tune(document) {
    if (this.#document === null)
      setTimeout(() => this.#tellState(), 300); // a moment for browsers that start the sound by themselves
    this.#document = document;
    const answer = await this.#ask("tune", { document, ...this.#build });
    // Until the sound may run the audio thread takes nothing.
    if (answer !== null && this.soundState === "running")
      await this.#handedOver;
    return answer;
  }

  /** The "played" object of `predict --played --json`: half a second of work, for when a drag rests. */
  played(document) { return this.#ask("played", { document }); }

  /** What the document's place makes of the drum, { place, at_listener } as in `predict --json`; null without a place, or if a newer call replaced
      this one. It plays a stroke: half a second of work. */
  inPlace(document) { return this.#ask("in_place", { document }); }

  /** With a place the listener hears with two channels, as two microphones at one spot that point to the left and the right of the drum, or with one.
      Holds for all that plays or is rendered from now on. */
  async setChannels(channels) {
    this.#channels = channels;
    await this.#again();
  }

  /** The object that `compare --json` writes; changes count from the first. */
  compare(documents, { played = false } = {}) { return this.#ask("compare", { documents, played }); }

  /** One column of the map of a drum's tunings, a batter note with every resonant one: { batter and resonant: { notes_hz: [Hz], evenly spaced in
      pitch; half_of_yield_hz: the tap note there; ends_at_yield: whether the highest note is at yield, and not where an air mode begins }, column,
      tunings: for each resonant note null or the lowest modes of order 0 and 1, each { frequency_hz, t60_s } or null }. The drum note is the lower
      one. `null` if a newer call replaced this one.
      @param column     index of the batter note
      @param stepCents  between neighbouring notes, at most
      @param reach      { lowest, highest }: semitones; tunings of other intervals are null */
  mapColumn(document, column, stepCents, reach) {
    return this.#ask("map", { document, column, step_cents: stepCents, lowest_interval: reach.lowest, highest_interval: reach.highest });
  }

  /** Tunings for wishes, over what is solved of the map: the object that `find --json` writes, and `mask`, bytes with 1 where a tuning in view meets
      the wishes, row by row from the highest interval down. `null` if a newer call replaced this one.
      @param request  { wishes: { "drum-note": "D3:E3", lasts: ":1beat", ... } by the program's options; key: "D minor"; tempo: the song's; beats: a
        minute, where the song has no tempo; now: { batter_hz, resonant_hz }, from which the heads move; frame: { columns, rows, lowest_batter,
        highest_batter (MIDI), lowest_interval, highest_interval (semitones) }; step_cents: of the map } */
  async find(document, request) {
    const answer = await this.#ask("find", { ...request, document });
    if (answer === null)
      return null;
    const { bytes, ...found } = answer;
    return { ...found, mask: new Uint8Array(bytes) };
  }

  /** What moves, for drawing: { radius_m, depth_m, rings, basis: [{ m, n, parity: "cosine" | "sine", profile: rings values from the
      centre to the rim, 1/m }], modes: [{ m, n, frequency_hz, decay_per_s, is_air_mode, batter, resonant: Float32Array with a coefficient
      per basis function, 1/√kg·m }] }. A head's displacement is Σ q·coefficient·profile(r)·cos(mθ) or sin(mθ), upwards; after a blow of
      impulse I (N s, downwards) at a place where the batter's shape is s, q(t) = -I·s/ω·exp(-decay·t)·sin ωt. */
  async shapes(document, { highestHz = 1200 } = {}) {
    const answer = await this.#ask("shapes", { document, highest_hz: highestHz });
    if (answer === null)
      return null;
    const { bytes, ...shapes } = answer;
    const numbers = new Float32Array(bytes), size = shapes.basis.length;
    shapes.modes.forEach((mode, i) => {
      mode.batter = numbers.subarray(2 * i * size, (2 * i + 1) * size);
      mode.resonant = numbers.subarray((2 * i + 1) * size, (2 * i + 2) * size);
    });
    return shapes;
  }

  /** The object that `plan --json` writes.
      @param {object} request  { now: { batter, resonant }: a note "F3 +12" or Hz; now_lugs_cents: { batter: [...], resonant: [...] };
        measured: [what fitLugCheck() gave]; observed: [{ head: "batter" | "resonant", turns, before, after }], the turns just made, which the
        plan goes on from; calibration: the same of another day; thread: "12-24 UNC"; step_turns; below_turns } */
  plan(document, request) { return this.#ask("plan", { ...request, document }); }

  /** The data of a tuning sheet, as `sheet --output x.json` writes it. `request` as for plan(), and { date, notes, lug_one }. A plan is
      made if the request says how the drum is now. */
  sheet(document, request = {}) { return this.#ask("sheet", { ...request, document }); }

  /** A note as text ("F3 +12", "174.6Hz") in Hz at a concert pitch. */
  async noteToHz(text, a4 = 440) { return (await this.#ask("note", { text, concert_pitch_hz: a4 })).hz; }

  // Sound

  /** Plays at once. In a touch, a click or a key press it also ends the browser's hold on the sound.
      @param {Stroke} stroke */
  strike(stroke) {
    this.wake();
    this.#node?.port.postMessage({ strike: stroke });
  }

  /** Plays a pattern from its beginning, until stop() unless `repeat` is false.
      @param {object} pattern  { text, steps_per_beat } as in presets().patterns, or what readPattern() gives */
  async playPattern(pattern, { tempo = 100, repeat = true } = {}) {
    this.wake();
    const read = pattern.strokes ? pattern : await this.readPattern(pattern);
    this.#node?.port.postMessage({ pattern: { ...read, tempo, repeat } });
  }

  /** A pattern's strokes: { strokes: [{ time_s, ...Stroke }] at a beat a second, beats, steps_per_beat }.
      @param {object|null} document  if given, the promise rejects where this drum cannot play them */
  readPattern({ text, steps_per_beat = 4 }, document = null) { return this.#ask("pattern", { text, steps_per_beat, ...(document && { document }) }); }

  /** What the notes of a MIDI file play on a drum: { strokes: [{ time_s, ...Stroke }], remarks: [sentence] }. Rejects if none plays a stroke.
      @param {object[]} notes  [{ time_s, number, velocity: 1 to 127, held_s }]; held_s may be missing */
  readNotes(document, notes) { return this.#ask("midi", { document, notes }); }

  /** Another tempo while a pattern plays, 20 to 400 beats a minute. */
  setTempo(tempo) { this.#node?.port.postMessage({ tempo }); }

  /** Ends the pattern; the drum rings on. */
  stop() { this.#node?.port.postMessage({ pattern: null }); }

  /** Silence at once: the hand on the head. */
  silence() { this.#node?.port.postMessage({ silence: true }); }

  /** Level of everything that sounds, dB. Caution: at 0 dB the drum is as loud as the loudspeaker lets it. */
  setGain(decibels) { this.#node?.port.postMessage({ gain: decibels }); }

  /** Ends the browser's hold on the sound; call it in a touch, a click or a key press. */
  wake() {
    if (this.#context?.state === "suspended")
      this.#context.resume();
  }

  /** "none", "waiting" or "running". */
  get soundState() { return !this.#node ? "none" : this.#context.state === "running" ? "running" : "waiting"; }

  /** Plays in the worker, faster than in real time, as `render` does, and with a place what the listener hears:
      { wav: Blob (24 bit; stereo, or for a listener with one channel mono), channels, seconds, peak_pa, loudness_lufs, gain }.
      @param {object} what  { strokes: [{ time_s, ...Stroke }] } or { text, steps_per_beat, tempo }, and, if wanted, seconds (3 s after the
        last stroke), rate (48000), loudness_lufs (otherwise the peak is at -3 dB) */
  async render(document, what) {
    const { samples, ...report } = await this.sound(document, what);
    return { ...report, wav: wavOf(samples, report.rate, report.channels) };
  }

  /** The same as samples instead of a file: channels in turn, full scale 1. */
  async sound(document, what) {
    const { bytes, ...report } = await this.#ask("render", { ...what, document, channels: this.#channels });
    return { ...report, samples: new Float32Array(bytes) };
  }

  /** Loudness of such a performance in LUFS (ITU-R BS.1770), to bring tunings to equal loudness with setGain(). */
  async loudness(document, what) { return (await this.#ask("render", { ...what, document, channels: this.#channels })).loudness_lufs; }

  // Lug check

  /** Begins a lug check of a head: a tap beside each lug, lug 1 first. @param {"batter"|"resonant"} head */
  startLugCheck(document, head, sampleRate = this.#rate) {
    return this.#ask("lug_check", { document, head, rate: sampleRate });
  }

  /** The next samples of the microphone. Gives { next: lug from 1, or null when all are heard; heard: [{ lug, tap_note_hz, error_cents }];
      remark: sentence; is_refusal; is_silent }. */
  addLugCheckSamples(samples) { return this.#ask("lug_check_add", {}, samples); }

  /** The next tap is beside this lug, counted from 1. */
  chooseLug(lug) { return this.#ask("lug_check_choose", { lug }); }
  deleteLastTap() { return this.#ask("lug_check_delete"); }

  /** The object that `fit --json` writes, from the taps so far. */
  fitLugCheck(date = "") { return this.#ask("lug_check_fit", { date }); }

  /** The same from a recording, lug 1 first, once or several times around; with `remarks` about its taps.
      @param {Float32Array} samples  one channel */
  fitRecording(document, head, samples, sampleRate, date = "") {
    return this.#ask("fit_recording", { document, head, rate: sampleRate, date }, samples);
  }

  /** The same from tap notes that a person read: one, or one for each lug. */
  fitTapNotes(document, head, notes, date = "") { return this.#ask("fit_tap_notes", { document, head, notes, date }); }

  /** Opens the microphone, without echo cancellation, gain control and noise suppression, and feeds the lug check that
      startLugCheck() began; "listening" events tell how it goes. Resolves with its sample rate. Rejects with what to do if there is no
      microphone, or it may not be used. Call it in a gesture. */
  async startMicrophone() {
    if (!navigator.mediaDevices?.getUserMedia)
      throw new Error("A page opened from a file may not use the microphone in this browser. Put the file on a server of your own " +
        "(in its folder: python3 -m http.server) and open http://localhost:8000/snarewright.html, or type the tap notes.");
    this.wake();
    try {
      this.#microphone = await navigator.mediaDevices.getUserMedia(
        { audio: { echoCancellation: false, autoGainControl: false, noiseSuppression: false, channelCount: 1 } });
    } catch (error) {
      throw new Error(microphoneText(error));
    }
    const source = this.#context.createMediaStreamSource(this.#microphone);
    this.#ear = new AudioWorkletNode(this.#context, "snarewright-microphone", { numberOfOutputs: 0 });
    this.#ear.port.onmessage = async ({ data }) => {
      try {
        this.#tell("listening", await this.addLugCheckSamples(data));
      } catch (error) {
        this.stopMicrophone();
        this.#tell("failed", { message: error.message });
      }
    };
    source.connect(this.#ear);
    return this.#rate;
  }

  stopMicrophone() {
    this.#microphone?.getTracks().forEach(track => track.stop());
    this.#ear?.disconnect();
    this.#microphone = this.#ear = null;
  }

  /** For tests: the parts, to play in a context of their own. */
  forTests() {
    const bytesOf = async (what, request) => new Uint8Array((await this.#ask(what, request)).bytes ?? 0);
    const modelOf = (document, rate) => bytesOf("model", { document, modes: modeCounts[0], rate });
    const roomOf = (document, rate, channels) => bytesOf("room", { document, rate, channels });
    return { module: this.#module, workletUrl, modelOf, roomOf };
  }

  // Inside

  #module;
  #worker;
  #context = null;
  #node = null;
  #rate = 48000;
  #modes = modeCounts[0];
  #channels = 2;
  #document = null;
  #microphone = null;
  #ear = null;
  #queue = [];
  #asked = null;
  #handedOver = Promise.resolve();
  #taken = () => {};

  async #start() {
    const module = this.#module = await compiledModule();
    this.#worker = new Worker(URL.createObjectURL(new Blob([workerSource], { type: "text/javascript" })));
    this.#worker.onmessage = ({ data }) => this.#answered(data);
    this.#worker.onerror = event => this.#tell("failed", { message: "The solver has stopped: " + event.message });
    this.#worker.postMessage({ module });
    await this.#startSound(module);
  }

  async #startSound(module) {
    const Context = globalThis.AudioContext;
    if (!Context || !globalThis.AudioWorkletNode)
      return;
    this.#context = new Context({ latencyHint: "interactive" });
    this.#rate = this.#context.sampleRate;
    try {
      await this.#context.audioWorklet.addModule(workletUrl);
    } catch (error) {
      return; // as without a worklet: see #tellState()
    }
    const { port1, port2 } = new MessageChannel();
    this.#node = new AudioWorkletNode(this.#context, "snarewright-drum",
      { numberOfInputs: 0, outputChannelCount: [2], processorOptions: { module } });
    this.#node.port.onmessage = ({ data }) => this.#heard(data);
    this.#node.onprocessorerror = () => this.#tell("failed", { message: "The sound has stopped. Open the page again; what you set is kept." });
    this.#node.port.postMessage({ models: port1 }, [port1]);
    this.#worker.postMessage({ models: port2 }, [port2]);
    this.#node.connect(this.#context.destination);
    this.#context.onstatechange = () => this.#tellState();
    // Which of these counts as a touch differs: on a telephone it is the finger's lifting.
    for (const type of ["pointerdown", "pointerup", "click", "keydown"])
      addEventListener(type, () => this.wake(), { capture: true });
  }

  #tellState() {
    switch (this.soundState) {
      case "running": return this.#tell("running", {});
      case "waiting": return this.#tell("waiting", { message: heldText });
      default: return this.#tell("failed", { message: noAudioText });
    }
  }

  /** From the audio thread. */
  #heard({ taken, level, step, load }) {
    if (taken)
      this.#taken();
    if (level !== undefined)
      this.#tell("level", { peak: level });
    if (step !== undefined)
      this.#tell("step", { index: step });
    if (load > 0.85)
      this.#playFewerModes();
  }

  #playFewerModes() {
    const fewer = modeCounts[modeCounts.indexOf(this.#modes) + 1];
    if (fewer === undefined || this.#document === null)
      return;
    this.#modes = fewer;
    this.#tell("slow", { modes: fewer, message: `This device is too slow for the whole drum: it plays about ${fewer} modes from now on. Predictions stay the same.` });
    this.#again().catch(() => {});
  }

  /** How the drum is built for the sound. */
  get #build() { return { modes: this.#modes, rate: this.#rate, channels: this.#channels }; }

  /** Builds the drum once more with what has changed of that. A drum that waits for the solver is built so, and stays in the queue. */
  async #again() {
    const waiting = this.#queue.find(({ name }) => name === "tune");
    if (waiting)
      Object.assign(waiting.request, this.#build);
    else if (this.#document !== null)
      await this.tune(this.#document);
  }

  #tell(type, detail) { this.dispatchEvent(new CustomEvent(type, { detail })); }

  /** One request at a time goes to the worker; of those that wait, a newer one replaces its kind. */
  #ask(name, request = {}, samples = null) {
    return new Promise((resolve, reject) => {
      if (replaceable.has(name)) {
        const former = this.#queue.findIndex(waiting => waiting.name === name);
        if (former >= 0)
          this.#queue.splice(former, 1)[0].resolve(null);
      }
      this.#queue.push({ name, request, samples, resolve, reject });
      this.#askNext();
    });
  }

  #askNext() {
    if (this.#asked || this.#queue.length === 0)
      return;
    const { name, request, samples } = this.#asked = this.#queue.shift();
    if (name === "tune" && this.#node)
      this.#handedOver = new Promise(resolve => { this.#taken = resolve; });
    this.#worker.postMessage({ name, request: JSON.stringify(request), samples });
  }

  #answered({ text, bytes, isError }) {
    const { resolve, reject } = this.#asked;
    this.#asked = null;
    const answer = JSON.parse(text);
    if (isError)
      reject(Object.assign(new Error(answer.message), answer));
    else
      resolve(bytes ? { ...answer, bytes } : answer);
    this.#askNext();
  }
}

function microphoneText(error) {
  switch (error.name) {
    case "NotAllowedError": return "The microphone may not be used: allow it for this page in the browser's settings, or type the tap notes. "
      + "If the page is open from a file, put it on a server of your own (in its folder: python3 -m http.server) and open http://localhost:8000/snarewright.html.";
    case "NotFoundError": return "No microphone was found: connect one, or type the tap notes.";
    case "NotReadableError": return "The microphone is in use by another program: close that, or type the tap notes.";
    default: return "The microphone cannot be used: " + error.message + ". You can type the tap notes.";
  }
}
