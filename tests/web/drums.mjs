// Drums and helpers that the tests in the browser share.
import { execFileSync } from "node:child_process";
import { mkdtempSync, readFileSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import process from "node:process";
import { pathToFileURL } from "node:url";

const folder = mkdtempSync(join(tmpdir(), "snarewright-web-drums-"));
process.on("exit", () => execFileSync("rm", ["-r", folder]));

export const page = pathToFileURL(process.env.SNAREWRIGHT_WEB_PAGE).href;

export const run = (program, ...args) => execFileSync(program, args.map(String), { encoding: "utf8", maxBuffer: 1 << 28 });
export const snarewright = (...args) => JSON.parse(run(process.env.SNAREWRIGHT_PROGRAM, ...args));
export const reference = (...args) => run(process.env.SNAREWRIGHT_WEB_REFERENCE, ...args);

/** The document as a file, for the program. */
export function saved(document) {
  const path = join(folder, `${Math.random().toString(36).slice(2)}.json`);
  writeFileSync(path, JSON.stringify(document));
  return path;
}

/** What the program writes to the JSON file that its last option names. */
export function written(...args) {
  const path = join(folder, "written.json");
  run(process.env.SNAREWRIGHT_PROGRAM, ...args, path);
  return JSON.parse(readFileSync(path, "utf8"));
}

const tuned = (drum, tuning) => ({ format: "snarewright-drum", version: 1, ...drum, tunings: [{ name: "Test", ...tuning }] });

/** One of each kind of tuning, with heads, lugs, muffling and bottoms of all kinds. */
export const drums = {
  usual: tuned({ name: "Usual", diameter_in: 14, depth_in: 5.5, lugs: 8, batter: { thickness_mil: 10, coating_g_per_m2: 30 }, resonant: "3mil" }, { batter: { tap_note: "G#3" }, interval: "P4" }),
  uneven: tuned({ diameter_in: 13, depth_in: 6, lugs: 8, batter: "2x7mil coated", resonant: "snare-side-2mil", shell: { material: "birch", thickness_mm: 7 },
    muffling: [{ shape: "patch", head: "batter", size_mm: 30, distance_mm: 110, angle_deg: 40, mass_g: 3 }] },
  { batter: { tap_note_hz: 220 }, resonant: { tap_note_hz: 311 }, batter_lugs_cents: [0, 10, 0, -15, 0, 0, 20, 0] }),
  byDrumNote: tuned({ diameter_in: 14, depth_in: 5, lugs: 10, batter: "10mil", resonant: "3mil", wires: "strands-42", hoop: "cast" }, { drum_note: "E3", interval: "P5" }),
  byTension: tuned({ diameter_in: 12, depth_in: 5, lugs: 6, batter: "7mil", resonant: "5mil", wires: { strainer: "off" } },
    { batter: { tension_n_per_m: 2500 }, resonant: { tension_n_per_m: 2200 } }),
  kettle: tuned({ diameter_in: 14, depth_in: 10, lugs: 6, batter: "10mil dot 100mm 7mil", bottom: "closed", vent: "none" }, { batter: { tap_note: "A2" } }),
};

export const withoutWires = document => ({ ...document, wires: { strainer: "off" } });

/** A lug check of the batter of `usual`: a tap beside each lug, synthesised from the modes of that head over a closed cavity. */
export function lugCheckTaps() {
  const rate = 48000, seconds = 1.5;
  const { modes } = snarewright("predict", saved({ ...drums.usual, bottom: "closed", tunings: [{ batter: { tap_note: "G#3" } }] }), "--highest", "900Hz", "--json", "-");
  const heard = modes.filter(mode => !mode.is_air_mode && mode.m > 0 && mode.t60_s);
  const samples = new Float32Array(Math.round(drums.usual.lugs * seconds * rate) + rate);
  let noise = 1;
  for (let i = 0; i < samples.length; ++i) {
    noise = (Math.imul(noise, 1664525) + 1013904223) | 0; // a linear congruential generator, the same each time
    samples[i] = 1e-5 * noise / 2 ** 31;
  }
  for (let lug = 0; lug < drums.usual.lugs; ++lug)
    heard.forEach(({ frequency_hz, t60_s }, k) => {
      const from = Math.round((0.5 + lug * seconds) * rate), decay = 6.9 / t60_s;
      for (let i = 0; i < 1.3 * rate; ++i)
        samples[from + i] += 0.1 / (k + 2) * Math.exp(-decay * i / rate) * Math.sin(2 * Math.PI * frequency_hz * i / rate);
    });
  return { samples, rate };
}

/** Samples as a WAV file of 32 bit numbers, for the program. */
export function savedSound({ samples, rate }) {
  const file = Buffer.alloc(44 + 4 * samples.length);
  file.write("RIFF", 0);
  file.writeUInt32LE(file.length - 8, 4);
  file.write("WAVEfmt ", 8);
  file.writeUInt32LE(16, 16);
  file.writeUInt16LE(3, 20); // floating point
  file.writeUInt16LE(1, 22);
  file.writeUInt32LE(rate, 24);
  file.writeUInt32LE(4 * rate, 28);
  file.writeUInt16LE(4, 32);
  file.writeUInt16LE(32, 34);
  file.write("data", 36);
  file.writeUInt32LE(4 * samples.length, 40);
  samples.forEach((sample, i) => file.writeFloatLE(sample, 44 + 4 * i));
  const path = join(folder, "taps.wav");
  writeFileSync(path, file);
  return path;
}
