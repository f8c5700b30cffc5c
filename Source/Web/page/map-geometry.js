// The map as data: tunings of one drum by both tap notes, what lies between them, contours of equal drum note. No page.
// Notes are MIDI numbers with fractions. A spot is { batter, interval }, the latter in semitones.

import { midiOfHertz } from './notes.js';

/** The part of the map in view: two octaves of batter notes up to the highest. */
export const lowestInterval = -5,
  highestInterval = 12;
const width = 26; // semitones

export function frameOf({ batter }, a4) {
  const highestBatter = Math.ceil(midiOfHertz(batter.notes_hz.at(-1), a4) + 1);
  return { lowestBatter: Math.max(Math.floor(midiOfHertz(batter.notes_hz[0], a4) - 1), highestBatter - width), highestBatter };
}

/** Where a note lies among notes that are evenly spaced in pitch: [index below, share of the way to the next], or null outside. */
function placeIn(notes, midi) {
  const last = notes.length - 1,
    at = (last * (midi - notes[0])) / (notes[last] - notes[0]);
  if (!(at >= -1e-9 && at <= last + 1e-9)) return null;
  const below = Math.min(Math.max(Math.floor(at), 0), last - 1);
  return [below, Math.min(Math.max(at - below, 0), 1)];
}

export class MapGrid {
  columns = new Map(); // batter note's index -> for each resonant note its logarithms [f, t, f, t] of the lowest modes, or null

  /** @param column  an answer of Instrument.mapColumn(); add() takes it too */
  constructor(column, a4 = 440) {
    const midis = ({ notes_hz }) => notes_hz.map(hertz => midiOfHertz(hertz, a4));
    this.batter = midis(column.batter);
    this.resonant = midis(column.resonant);
    this.batterHalf = midiOfHertz(column.batter.half_of_yield_hz, a4);
    this.resonantHalf = midiOfHertz(column.resonant.half_of_yield_hz, a4);
    this.batterEndsAtYield = column.batter.ends_at_yield;
    this.resonantEndsAtYield = column.resonant.ends_at_yield;
    this.a4 = a4;
  }

  add({ column, tunings }) {
    const logarithms = mode => (mode ? [Math.log(mode.frequency_hz), Math.log(mode.t60_s)] : [Infinity, -Infinity]);
    this.columns.set(
      column,
      tunings.map(lowest => lowest && lowest.flatMap(logarithms))
    );
  }

  /** { drumNote: Hz, ring: s } of a tuning, between the solved ones; null where there is none, or none yet. The modes of order 0 and 1
      are interpolated each by itself, since the drum note jumps from one to the other. */
  at({ batter, interval }) {
    const b = placeIn(this.batter, batter),
      r = placeIn(this.resonant, batter + interval);
    if (!b || !r) return null;
    const sum = [0, 0, 0, 0];
    for (const [column, across] of [
      [b[0], 1 - b[1]],
      [b[0] + 1, b[1]]
    ])
      for (const [row, up] of [
        [r[0], 1 - r[1]],
        [r[0] + 1, r[1]]
      ]) {
        const share = across * up;
        if (share === 0) continue;
        const corner = this.columns.get(column)?.[row];
        if (!corner) return null;
        for (let k = 0; k < 4; ++k) sum[k] += share * corner[k];
      }
    const lower = sum[0] <= sum[2] ? 0 : 2;
    return Number.isFinite(sum[lower]) ? { drumNote: Math.exp(sum[lower]), ring: Math.exp(sum[lower + 1]) } : null;
  }

  /** The interval that gives a drum note (Hz) with a batter note, or null if none in view does. The drum note rises with it. */
  intervalFor(batter, drumNote) {
    let low = Math.max(lowestInterval, this.resonant[0] - batter),
      high = Math.min(highestInterval, this.resonant.at(-1) - batter);
    const noteAt = interval => this.at({ batter, interval })?.drumNote;
    if (!(low < high && noteAt(low) <= drumNote && noteAt(high) >= drumNote)) return null;
    for (let i = 0; i < 24; ++i) {
      const middle = (low + high) / 2;
      if (noteAt(middle) < drumNote) low = middle;
      else high = middle;
    }
    return (low + high) / 2;
  }

  /** Why a tuning cannot be had; empty if it can. */
  whyNot({ batter, interval }) {
    const resonant = batter + interval,
      near = 1e-6;
    if (batter > this.batter.at(-1) + near) return this.batterEndsAtYield ? 'batter would yield' : 'batter cannot reach this note (air mode)';
    if (resonant > this.resonant.at(-1) + near)
      return this.resonantEndsAtYield ? 'resonant head would yield' : 'resonant head cannot reach this note (air mode)';
    if (batter < this.batter[0] - near) return 'batter too slack';
    return resonant < this.resonant[0] - near ? 'resonant head too slack' : '';
  }
}

/** Contours of whole drum notes: [{ midi, points: [spot] }], lowest first. */
export function contoursOf(grid, frame) {
  const steps = 150,
    contours = [];
  for (let midi = Math.floor(frame.lowestBatter) - 14; midi <= frame.highestBatter + 14; ++midi) {
    const drumNote = grid.a4 * 2 ** ((midi - 69) / 12),
      points = [];
    for (let i = 0; i <= steps; ++i) {
      const batter = frame.lowestBatter + ((frame.highestBatter - frame.lowestBatter) * i) / steps;
      const interval = grid.intervalFor(batter, drumNote);
      if (interval !== null) points.push({ batter, interval });
    }
    if (points.length > 3) contours.push({ midi, points });
  }
  return contours;
}
