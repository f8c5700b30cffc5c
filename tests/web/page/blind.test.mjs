import assert from 'node:assert/strict';
import { test } from 'node:test';
import { shuffled } from '../../../Source/Web/page/blind.js';

test('every order of three sounds is as likely', () => {
  let state = 1;
  const random = () => (state = (state * 48271) % 2147483647) / 2147483647; // Park and Miller's generator
  const counts = new Map(),
    trials = 6000;
  for (let i = 0; i < trials; ++i) {
    const order = shuffled(['A', 'B', 'C'], random).join('');
    counts.set(order, (counts.get(order) ?? 0) + 1);
  }
  // A sixth of the trials; the standard deviation of that is √(n/6·5/6) = 29, and five of these are allowed.
  assert.deepEqual([...counts.keys()].sort(), ['ABC', 'ACB', 'BAC', 'BCA', 'CAB', 'CBA']);
  for (const [order, count] of counts) assert.ok(Math.abs(count - trials / 6) < 145, `${order}: ${count}`);
});
