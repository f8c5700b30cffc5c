// The work at the drum as data: what is heard now, what was turned and heard since, which rods are done. No page.

import { writtenNote } from './notes.js';

export const sides = ['batter', 'resonant'];

export class Work {
  now = { batter: null, resonant: null }; // MIDI numbers heard, null: not entered, so the head is not turned
  measured = { batter: null, resonant: null }; // what the lug check gave ("fit --json")
  observed = []; // { head, turns, before, after } with MIDI numbers, in order
  done = {}; // "resonant 0 a3…": lugs that are done of that pass
  lugOne = ''; // where lug 1 is on the shell

  constructor(kept = null) {
    for (const key of ['now', 'measured', 'observed', 'done', 'lugOne']) if (kept?.[key] !== undefined && kept[key] !== null) this[key] = kept[key];
  }

  state() {
    const { now, measured, observed, done, lugOne } = this;
    return { now, measured, observed, done, lugOne };
  }

  /** What a person hears now, entered again: earlier turns and measurements of that head no longer count. */
  hear(side, midi) {
    this.now = { ...this.now, [side]: midi };
    this.measured = { ...this.measured, [side]: null };
    this.observed = this.observed.filter(({ head }) => head !== side);
  }

  /** What the lug check found. */
  measure(side, fit, midi) {
    this.hear(side, midi);
    this.measured = { ...this.measured, [side]: fit };
  }

  /** What turning every rod did: the plan goes on from there. */
  observe(side, turns, after) {
    this.observed = [...this.observed, { head: side, turns, before: this.now[side], after }];
    this.now = { ...this.now, [side]: after };
    this.measured = { ...this.measured, [side]: null };
  }

  /** The request for Instrument.plan(), or null if nothing was said about the drum as it is. */
  request(hasResonant) {
    const heads = sides.filter(side => this.now[side] !== null && (side === 'batter' || hasResonant));
    if (heads.length === 0) return null;
    const measured = heads.map(side => this.measured[side]).filter(Boolean);
    const now = Object.fromEntries(heads.filter(side => !this.measured[side]).map(side => [side, writtenNote(this.now[side])]));
    const observed = this.observed
      .filter(({ head }) => heads.includes(head))
      .map(({ head, turns, before, after }) => ({ head, turns, before: writtenNote(before), after: writtenNote(after) }));
    return { now, ...(measured.length > 0 ? { measured } : {}), observed };
  }

  doneLugs(pass) {
    return this.done[pass] ?? [];
  }

  toggle(pass, lug) {
    const lugs = this.doneLugs(pass);
    this.done = { ...this.done, [pass]: lugs.includes(lug) ? lugs.filter(other => other !== lug) : [...lugs, lug] };
  }

  finish(pass, lugs) {
    this.done = { ...this.done, [pass]: [...lugs] };
  }
}

/** A name for a pass that stays as long as the plan does. */
export function passName(head, index) {
  const pass = head.passes[index];
  return `${head.head} ${index} ${head.from_hz.toFixed(2)} ${head.to_hz.toFixed(2)} ${pass.turns.join(' ')}`;
}

export const isEven = pass => pass.turns.every(turn => turn === pass.turns[0]);

/** Lugs of a pass that turn at all, in tightening order. */
export const turningLugs = pass => pass.order.filter(lug => pass.turns[lug - 1] !== 0);
