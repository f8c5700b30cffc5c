import assert from 'node:assert/strict';
import { test } from 'node:test';
import { CutShape, frameTime, Motion, PlanShape } from '../../../Source/Web/page/motion.js';

const cosine = profile => ({ m: 1, n: 1, parity: 'cosine', profile });
const even = { m: 0, n: 1, parity: 'cosine', profile: [1, 1, 0] };

test('a mode rings at its frequency and fades at its rate', () => {
  const shapes = { basis: [even], modes: [{ frequency_hz: 200, decay_per_s: 20, batter: [1], resonant: [0.5] }] };
  const motion = new Motion(shapes, { position: 0, angle: 0, contactTime: 0.001 });
  const at = seconds => motion.frames[Math.round(seconds / frameTime)][0];
  // A damped sine after a short push: one period of 5 ms later it is smaller by exp(-20 · 0.005), and half a period later negative.
  assert.ok(Math.abs(at(0.0265) / at(0.0215) - Math.exp(-0.1)) < 1e-3);
  assert.ok(at(0.024) * at(0.0215) < 0);
  assert.ok(at(0.0015) < 0, 'the stick pushes downwards');
  const { batter, resonant } = motion.field(40);
  assert.ok(Math.abs(resonant[0] / batter[0] - 0.5) < 1e-6);
});

test('a stroke on a nodal line does not move that mode', () => {
  const shapes = { basis: [cosine([0, 1, 0])], modes: [{ frequency_hz: 300, decay_per_s: 10, batter: [1], resonant: [0] }] };
  const peak = angle => Math.max(...new Motion(shapes, { position: 0.5, angle, contactTime: 0.002 }).frames.map(frame => Math.abs(frame[0])));
  assert.ok(peak(Math.PI / 2) < 1e-9 * peak(0));
});

test('cut and plan show the same head, lug 1 at the right', () => {
  const shapes = { basis: [cosine([0, 0.5, 1, 0.5, 0])] },
    field = Float32Array.of(1);
  const cut = new CutShape(shapes, 0, 9).displacement(field);
  assert.deepEqual([...cut], [0, -0.5, -1, -0.5, 0, 0.5, 1, 0.5, 0].map(Math.fround));
  const size = 40,
    plan = new PlanShape(shapes, size).displacement(field);
  assert.ok(plan[20 * size + 29] > 0.9 && plan[20 * size + 10] < -0.9 && plan[0] === 0);
});
