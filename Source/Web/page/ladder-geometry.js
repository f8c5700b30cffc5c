// Where notes stand on the pitch ladder. Pure arithmetic: no page.

/** Maps notes (MIDI numbers) to heights: `low` at the bottom, `high` at the top. */
export class PitchScale {
  constructor(low, high, top, bottom) {
    Object.assign(this, { low, high, top, bottom });
  }
  yOf(midi) {
    return this.bottom - ((midi - this.low) / (this.high - this.low)) * (this.bottom - this.top);
  }
  midiAt(y) {
    return this.low + ((this.bottom - y) / (this.bottom - this.top)) * (this.high - this.low);
  }
  get pixelsPerSemitone() {
    return (this.bottom - this.top) / (this.high - this.low);
  }
}

/** The range of the ladder for these notes. It stays as it was while everything fits, and during a drag: a scale that moves under
    the hand cannot be read. */
export function rangeFor(notes, before, isHeld) {
  const low = Math.min(...notes),
    high = Math.max(...notes);
  if (before) {
    const fits = low >= before.low + 1 && high <= before.high - 1;
    const isLoose = before.high - before.low > 1.5 * (high - low) + 12;
    if (isHeld || (fits && !isLoose)) return before;
  }
  const room = Math.max(3, (24 - (high - low)) / 2);
  return { low: low - room, high: high + room };
}

/** Moves labels of one height apart, keeping their order, between top and bottom. `wanted` are middles, ascending. */
export function spreadLabels(wanted, height, top, bottom) {
  const placed = [];
  for (const y of wanted) placed.push(Math.max(y, placed.length === 0 ? top + height / 2 : placed.at(-1) + height));
  let limit = bottom - height / 2;
  for (let i = placed.length - 1; i >= 0; --i) {
    placed[i] = Math.min(placed[i], limit);
    limit = placed[i] - height;
  }
  return placed;
}

/** A dragged note: whole semitones from where it was grabbed, or cents with `isFine`. */
export function draggedNote(grabbed, pixelsUp, scale, isFine) {
  const note = grabbed + pixelsUp / scale.pixelsPerSemitone;
  return isFine ? Math.round(100 * note) / 100 : Math.round(note);
}
