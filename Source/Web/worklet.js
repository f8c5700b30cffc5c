// The audio thread: the drum that sounds, and the microphone's samples for the lug check.

import { start } from "./wasm.js";

/** In the order of engine::StrokeKind. */
const kinds = ["tip", "rimshot", "cross_stick", "buzz", "double", "sweep"];

class DrumProcessor extends AudioWorkletProcessor {
  /** @param processorOptions  module: the compiled WebAssembly; and, to play at once: room and model: their bytes, strokes: [{ frame, ...stroke }] */
  constructor({ processorOptions: { module, room, model, strokes = [] } }) {
    super();
    this.voice = start(module);
    this.voice.startVoice(sampleRate);
    this.row = this.voice.rowLength();
    this.peak = 0;
    this.step = -1;
    this.stepsPerBeat = 4;
    this.frames = 0;
    this.busy = 0; // ms of the last second
    this.port.onmessage = ({ data }) => this.follow(data);
    if (room)
      this.takeRoom(room);
    if (model)
      this.takeModel(model);
    strokes.forEach(stroke => this.strike(stroke, stroke.frame));
  }

  follow(order) {
    if (order.models)
      order.models.onmessage = ({ data: { room, model } }) => model ? this.takeModel(model) : this.takeRoom(room);
    if (order.strike)
      this.strike(order.strike, 0);
    if (order.pattern !== undefined)
      this.play(order.pattern);
    if (order.tempo)
      this.voice.setTempo(order.tempo);
    if (order.gain !== undefined)
      this.voice.setGain(order.gain);
    if (order.silence) {
      this.play(null);
      this.voice.silence();
    }
  }

  /** Another model, while the drum rings. */
  takeModel(bytes) {
    this.receive(bytes);
    this.port.postMessage({ taken: this.voice.takeModel() === 1 });
  }

  /** Another room to hear the drum in; none where there are no bytes. */
  takeRoom(bytes) {
    this.receive(bytes);
    this.voice.takeRoom();
  }

  receive(bytes) {
    const space = this.voice.spaceFor(bytes.length);
    new Uint8Array(this.voice.memory.buffer, space, bytes.length).set(bytes);
  }

  strike(stroke, frame) {
    const value = field => stroke[field] ?? NaN; // what is not given is the usual
    this.voice.strike(Math.max(0, kinds.indexOf(stroke.kind)), value("position"), value("angle"), value("speed"), value("rim_delay_s"),
      value("press_force_n"), value("press_time_s"), value("second_after_s"), value("second_share"), value("sweep_force_n"),
      value("sweep_time_s"), Number(stroke.sweep_path === "straight"), frame);
  }

  play(pattern) {
    for (const { time_s: beat, kind, position, speed, sweep_time_s: sweepBeats = 1, sweep_path: path } of pattern?.strokes ?? [])
      this.voice.addToPattern(beat, kinds.indexOf(kind), position, speed, sweepBeats, Number(path === "straight"));
    if (pattern) {
      this.voice.setTempo(pattern.tempo);
      this.stepsPerBeat = pattern.steps_per_beat;
    }
    this.step = -1;
    this.voice.playPattern(pattern?.beats ?? 4, pattern?.repeat ?? true);
  }

  process(inputs, [output]) {
    const begun = Date.now();
    const length = output[0].length, at = this.voice.play(length);
    if (this.left?.buffer !== this.voice.memory.buffer || this.left.length !== length) {
      this.left = new Float32Array(this.voice.memory.buffer, at, length);
      this.right = new Float32Array(this.voice.memory.buffer, at + 4 * this.row, length);
    }
    output[0].set(this.left);
    output[1]?.set(this.right);
    this.tell(this.left, this.right);
    this.busy += Date.now() - begun;
    return true;
  }

  /** Level and step for the page, and once a second how busy this thread was. The clock has steps of a millisecond, which level out. */
  tell(left, right) {
    for (const samples of [left, right])
      for (const sample of samples)
        this.peak = Math.max(this.peak, Math.abs(sample));
    const beat = this.voice.beat(), step = beat < 0 ? -1 : Math.floor(beat * this.stepsPerBeat + 1e-6);
    if (step !== this.step) {
      this.step = step;
      this.port.postMessage({ step });
    }
    const before = this.frames;
    this.frames += left.length;
    const passed = seconds => Math.floor(this.frames / (seconds * sampleRate)) > Math.floor(before / (seconds * sampleRate));
    if (passed(0.05) && this.peak > 0) {
      this.port.postMessage({ level: this.peak });
      this.peak = 0;
    }
    if (passed(1)) {
      this.port.postMessage({ load: this.busy / 1000 });
      this.busy = 0;
    }
  }
}

/** Hands on what the microphone hears in pieces of an eighth of a second or so. */
class MicrophoneProcessor extends AudioWorkletProcessor {
  constructor() {
    super();
    this.piece = new Float32Array(6144);
    this.filled = 0;
  }

  process([input]) {
    const samples = input[0];
    if (!samples)
      return true;
    if (this.filled + samples.length > this.piece.length) {
      this.port.postMessage(this.piece.slice(0, this.filled));
      this.filled = 0;
    }
    this.piece.set(samples, this.filled);
    this.filled += samples.length;
    return true;
  }
}

registerProcessor("snarewright-drum", DrumProcessor);
registerProcessor("snarewright-microphone", MicrophoneProcessor);
