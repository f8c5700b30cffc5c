import assert from 'node:assert/strict';
import { test } from 'node:test';
import { notesOf, partOf, performanceOf } from '../../../Source/Web/page/midi-part.js';

const close = (value, wanted) => assert.ok(Math.abs(value - wanted) < 1e-9, `${value} instead of ${wanted}`);
const on = (deltaTime, noteNumber, velocity = 90) => ({ deltaTime, type: 'noteOn', channel: 9, noteNumber, velocity });
const off = (deltaTime, noteNumber) => ({ deltaTime, type: 'noteOff', channel: 9, noteNumber, velocity: 64 });
const tempo = (deltaTime, microsecondsPerBeat) => ({ deltaTime, meta: true, type: 'setTempo', microsecondsPerBeat });

test('ticks become seconds by the tempo map, which holds for every track', () => {
  // Standard MIDI File 1.0: 120 beats a minute until a tempo event says otherwise; ticks per quarter note in the header.
  const header = { format: 1, numTracks: 2, ticksPerBeat: 96 };
  const plain = notesOf({ header, tracks: [[on(96, 38), off(48, 38)]] });
  close(plain.tempo, 120);
  close(plain.notes[0].time_s, 0.5);
  close(plain.notes[0].held_s, 0.25);

  const { notes, tempo: first } = notesOf({ header, tracks: [[tempo(0, 600000), tempo(192, 300000)], [on(96, 38), on(96, 40), on(96, 37)]] });
  close(first, 100);
  [0.6, 1.2, 1.5].forEach((time, i) => close(notes[i].time_s, time));
  assert.deepEqual(notes.map(({ number }) => number), [38, 40, 37]);
  assert.equal(notes[0].held_s, undefined);
});

test('time code: frames a second and ticks a frame', () => {
  const { notes } = notesOf({ header: { framesPerSecond: 25, ticksPerFrame: 40 }, tracks: [[on(500, 38), tempo(0, 250000), on(500, 38)]] });
  close(notes[0].time_s, 0.5);
  close(notes[1].time_s, 1); // tempo changes nothing
});

test('a part plays in beats as in the file, at another tempo in proportion, and ends after its last stroke', () => {
  const strokes = [
    { time_s: 0, kind: 'tip', position: 0.25, speed: 3 },
    { time_s: 1.2, kind: 'sweep', position: 0.5, speed: 0.5, sweep_time_s: 0.6, sweep_path: 'circle' }
  ];
  const part = partOf('Verse', strokes, 100);
  close(part.strokes[1].time_s, 2);
  close(part.strokes[1].sweep_time_s, 1);
  assert.equal(part.beats, 4);
  close(performanceOf(part, 100).strokes[1].time_s, 1.2);
  close(performanceOf(part, 50).strokes[1].sweep_time_s, 1.2);
  assert.equal(performanceOf(part, 100, 1).strokes.length, 1);
  assert.equal(partOf('', strokes, 1000).tempo, 400);
});
