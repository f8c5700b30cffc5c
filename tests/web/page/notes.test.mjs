import assert from 'node:assert/strict';
import { test } from 'node:test';
import {
  grouped,
  hertzOfMidi,
  intervalName,
  midiOfHertz,
  noteName,
  readInterval,
  readNote,
  spokenNote,
  writtenInterval,
  writtenNote
} from '../../../Source/Web/page/notes.js';

test('notes follow ISO 16: A4 is 440 Hz, a semitone is a twelfth of an octave', () => {
  assert.equal(hertzOfMidi(69), 440);
  assert.equal(hertzOfMidi(57), 220);
  // Equal temperament, MIDI Tuning Standard: note 60 is 261.6256 Hz.
  assert.ok(Math.abs(hertzOfMidi(60) - 261.6256) < 1e-4);
  assert.ok(Math.abs(midiOfHertz(442, 442) - 69) < 1e-12);
});

test('notes are named, spoken, written and read back', () => {
  assert.equal(noteName(56), 'G♯3');
  assert.equal(noteName(55.96), 'G♯3 −4');
  assert.equal(noteName(60.12), 'C4 +12');
  assert.equal(noteName(59.5), 'C4 −50'); // the upper note, as the program rounds
  assert.equal(noteName(0), 'C-1');
  assert.equal(spokenNote(55.96), 'G sharp 3, 4 cents below');
  for (let cents = 2400; cents <= 9600; cents += 7)
    assert.ok(Math.abs(readNote(writtenNote(cents / 100)) - cents / 100) < 1e-9, writtenNote(cents / 100));
});

test('what people type is read as the program reads it', () => {
  assert.equal(readNote('Ab3'), 56);
  assert.equal(readNote('g#3 +12'), 56.12);
  assert.equal(readNote('G♯3 −12'), 55.88);
  assert.ok(Math.abs(readNote('220 Hz') - 57) < 1e-12);
  for (const bad of ['', 'H3', 'G', 'G##3', '3G', 'G3 12', 'two']) assert.ok(Number.isNaN(readNote(bad)), bad);
});

test('intervals have the names of the program', () => {
  assert.equal(intervalName(5), 'perfect fourth');
  assert.equal(intervalName(-3), 'minor third below');
  assert.equal(intervalName(7.12), 'perfect fifth +12 c');
  assert.equal(intervalName(-0.2), 'perfect unison −20 c');
  assert.equal(intervalName(-0.49), 'between unison and minor second below');
  assert.equal(intervalName(5.5), 'between fourth and augmented fourth');
  assert.equal(intervalName(12.45), '+12.45 semitones');
  assert.equal(intervalName(14), '+14 semitones');
  for (const size of [-12, -3.12, -0.2, 0, 4.55, 5, 11.5, 14.25]) assert.ok(Math.abs(readInterval(writtenInterval(size)) - size) < 1e-9, writtenInterval(size));
  assert.equal(readInterval('P4'), 5);
  assert.equal(readInterval('m3'), 3);
  assert.equal(readInterval('M3'), 4);
  assert.equal(readInterval('Perfect fifth'), 7);
  assert.equal(readInterval('fifth'), 7);
  assert.equal(readInterval('minor third below'), -3);
  assert.equal(readInterval('-m3'), -3);
  assert.equal(readInterval('+5.5 st'), 5.5);
  assert.equal(readInterval('550 c'), 5.5);
  assert.equal(readInterval('P5 −12 c'), 6.88);
  for (const bad of ['', 'third', 'P9', '7']) assert.ok(Number.isNaN(readInterval(bad)), bad);
});

test('thousands are set apart', () => assert.deepEqual([999, 2064.4, 1234567].map(grouped), ['999', '2 064', '1 234 567']));
