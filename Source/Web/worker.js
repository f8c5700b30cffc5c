// The solver's thread: answers the requests of instrument.js one after the other.

import { start } from "./wasm.js";

let exports = null;
let models = null; // the port to the audio thread
let roomSent = ""; // what the room was made from that the audio thread has
const encoder = new TextEncoder(), decoder = new TextDecoder();

onmessage = ({ data }) => {
  if (data.module)
    exports = start(data.module);
  else if (data.models)
    models = data.models;
  else
    answer(data);
};

function answer({ name, request, samples }) {
  const { report, bytes, isError } = name === "tune" ? tune(request) : ask(name, request, samples);
  postMessage({ text: report, bytes: bytes?.buffer, isError }, bytes ? [bytes.buffer] : []);
}

/** The sound comes first, then the figures. */
function tune(request) {
  const model = ask("model", request);
  if (model.isError)
    return model;
  sendRoom(request);
  models?.postMessage({ model: model.bytes }, [model.bytes.buffer]);
  const prediction = ask("predict", request);
  return prediction.isError ? prediction : { report: `{"prediction":${prediction.report},${model.report.slice(1)}`, isError: false };
}

/** The room in which the drum is heard, or none; only where it has changed, since the sound fades from one to the next. */
function sendRoom(request) {
  const { document: { tunings, ...drum }, rate, channels } = JSON.parse(request), wanted = JSON.stringify(drum.place ? [drum, rate, channels] : null);
  if (!models || wanted === roomSent)
    return;
  roomSent = wanted;
  models.postMessage({ room: ask("room", request).bytes ?? new Uint8Array() });
}

/** One request to the module. `bytes` is null where there are none. */
function ask(name, request, samples = null) {
  const texts = [name, request].map(copied), count = samples ? samples.length : 0;
  const sound = count > 0 ? exports.malloc(4 * count) : 0;
  if (count > 0)
    new Float32Array(exports.memory.buffer, sound, count).set(samples);
  const isError = exports.answerRequest(texts[0], texts[1], sound, count) === 0;
  [...texts, sound].forEach(pointer => exports.free(pointer));
  const size = exports.replyDataSize();
  return {
    report: decoder.decode(new Uint8Array(exports.memory.buffer, exports.replyText(), exports.replyTextSize())),
    bytes: size > 0 ? new Uint8Array(exports.memory.buffer, exports.replyData(), size).slice() : null,
    isError,
  };
}

/** Text with a zero at its end in the module's memory. */
function copied(text) {
  const bytes = encoder.encode(text), pointer = exports.malloc(bytes.length + 1);
  new Uint8Array(exports.memory.buffer, pointer).set(bytes);
  new Uint8Array(exports.memory.buffer)[pointer + bytes.length] = 0;
  return pointer;
}
