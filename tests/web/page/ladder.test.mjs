import assert from 'node:assert/strict';
import { test } from 'node:test';
import { draggedNote, PitchScale, rangeFor, spreadLabels } from '../../../Source/Web/page/ladder-geometry.js';

test('the scale maps notes to heights and back', () => {
  const scale = new PitchScale(48, 72, 10, 490);
  assert.equal(scale.yOf(48), 490);
  assert.equal(scale.yOf(72), 10);
  assert.equal(scale.pixelsPerSemitone, 20);
  for (let midi = 48; midi <= 72; midi += 0.37) assert.ok(Math.abs(scale.midiAt(scale.yOf(midi)) - midi) < 1e-9);
});

test('a drag moves by semitones to whole notes, or by cents', () => {
  const scale = new PitchScale(48, 72, 10, 490);
  assert.equal(draggedNote(56.12, 29, scale, false), 58);
  assert.equal(draggedNote(56.12, 29, scale, true), 57.57);
  assert.equal(draggedNote(56, -9, scale, false), 56);
});

test('the range holds every note, and stays while everything fits or the hand holds on', () => {
  const first = rangeFor([50, 56, 61], null, false);
  assert.ok(first.low <= 47 && first.high >= 64 && first.high - first.low >= 24);
  assert.equal(rangeFor([50, 57, 63], first, false), first);
  assert.equal(rangeFor([50, 57, 90], first, true), first);
  const moved = rangeFor([50, 57, 90], first, false);
  assert.ok(moved.low < 50 && moved.high > 90);
});

test('labels keep their order, their distance and the edges', () => {
  const placed = spreadLabels([10, 12, 13, 200, 205, 299], 20, 0, 300);
  placed.forEach((y, i) => {
    assert.ok(y >= 10 && y <= 290);
    if (i > 0) assert.ok(y - placed[i - 1] >= 20 - 1e-9);
  });
  assert.deepEqual(spreadLabels([50, 150], 20, 0, 300), [50, 150]);
});
