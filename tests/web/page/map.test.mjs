import assert from 'node:assert/strict';
import { test } from 'node:test';
import { contoursOf, frameOf, MapGrid } from '../../../Source/Web/page/map-geometry.js';
import { hertzOfMidi, midiOfHertz } from '../../../Source/Web/page/notes.js';

/** A map whose answer is known: the (0,1) mode half way between both heads, an octave lower; the (1,1) mode `rocking` semitones above the batter. */
function gridOf(rocking = 40) {
  const batter = Array.from({ length: 25 }, (_, i) => 44 + i),
    resonant = Array.from({ length: 31 }, (_, i) => 46 + i);
  const head = (midis, ends_at_yield) => ({ notes_hz: midis.map(midi => hertzOfMidi(midi)), half_of_yield_hz: hertzOfMidi(midis.at(-1) - 5), ends_at_yield });
  const columns = batter.map((b, column) => ({
    batter: head(batter, true),
    resonant: head(resonant, false),
    column,
    tunings: resonant.map(r => [
      { frequency_hz: hertzOfMidi((b + r) / 2 - 12), t60_s: 1 },
      { frequency_hz: hertzOfMidi(b + rocking), t60_s: 0.5 }
    ])
  }));
  const grid = new MapGrid(columns[0]);
  columns.forEach(column => grid.add(column));
  return { grid, frame: frameOf(columns[0], 440) };
}

test('what lies between solved tunings is interpolated in pitch, each mode by itself', () => {
  const { grid } = gridOf();
  const { drumNote, ring } = grid.at({ batter: 56.3, interval: 4.45 });
  assert.ok(Math.abs(midiOfHertz(drumNote) - (56.3 + 4.45 / 2 - 12)) < 1e-9 && Math.abs(ring - 1) < 1e-9);
  // With the other mode at 10.25 below the batter, intervals above 3.5 have it as the drum note, at once and not by and by.
  const other = gridOf(-10.25).grid;
  assert.equal(other.at({ batter: 56, interval: 3.4 }).ring.toFixed(6), '1.000000');
  assert.equal(other.at({ batter: 56, interval: 3.6 }).ring.toFixed(6), '0.500000');
});

test('contours have their drum note all along', () => {
  const { grid, frame } = gridOf();
  const contours = contoursOf(grid, frame);
  assert.ok(contours.length > 20);
  for (const { midi, points } of contours)
    for (const spot of points) {
      assert.ok(Math.abs(midiOfHertz(grid.at(spot).drumNote) - midi) < 1e-5);
      assert.ok(Math.abs(spot.batter + spot.interval / 2 - 12 - midi) < 1e-5);
    }
  assert.ok(Math.abs(grid.intervalFor(56, hertzOfMidi(47)) - 6) < 1e-5);
  assert.equal(grid.intervalFor(56, hertzOfMidi(60)), null);
});

test('a tuning that cannot be had says why, and has no figures', () => {
  const { grid, frame } = gridOf();
  assert.deepEqual(frame, { lowestBatter: 43, highestBatter: 69 });
  for (const [batter, interval, why] of [
    [68.5, 0, /batter would yield/],
    [43.5, 5, /batter too slack/],
    [67, 10, /resonant head cannot reach this note/],
    [48, -4, /resonant head too slack/]
  ]) {
    assert.match(grid.whyNot({ batter, interval }), why);
    assert.equal(grid.at({ batter, interval }), null);
  }
  assert.equal(grid.whyNot({ batter: 56, interval: 5 }), '');
});

test('a column that has not come yet has no figures', () => {
  const { grid } = gridOf();
  grid.columns.delete(13);
  assert.equal(grid.at({ batter: 56.5, interval: 5 }), null);
  assert.ok(grid.at({ batter: 55.5, interval: 5 }));
});
