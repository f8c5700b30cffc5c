import assert from 'node:assert/strict';
import { test } from 'node:test';
import { farWords, makeQuestion, solution } from '../../../Source/Web/page/ear-question.js';
import { isEven, passName, turningLugs, Work } from '../../../Source/Web/page/work.js';

test('what is heard after a test turn goes back into the plan', () => {
  const work = new Work();
  assert.equal(work.request(true), null);
  work.hear('batter', 53);
  assert.deepEqual(work.request(true), { now: { batter: 'F3' }, observed: [] });
  work.observe('batter', 0.125, 54.1);
  assert.deepEqual(work.request(true), { now: { batter: 'F#3 +10' }, observed: [{ head: 'batter', turns: 0.125, before: 'F3', after: 'F#3 +10' }] });
  work.hear('batter', 54); // entered again: earlier turns no longer count
  assert.deepEqual(work.request(true), { now: { batter: 'F#3' }, observed: [] });
});

test('a measured head is planned from its measurement, until something else is heard', () => {
  const work = new Work(),
    fit = { head: 'resonant', tap_note_hz: { value: 233 } };
  work.measure('resonant', fit, 58);
  assert.deepEqual(work.request(true), { now: {}, measured: [fit], observed: [] });
  assert.equal(work.request(false), null, 'the drum has no resonant head');
  work.observe('resonant', 0.125, 59);
  assert.equal(work.request(true).measured, undefined);
});

test('work survives being kept', () => {
  const work = new Work();
  work.hear('batter', 53.5);
  work.toggle('pass', 3);
  const back = new Work(JSON.parse(JSON.stringify(work.state())));
  assert.deepEqual(back.state(), work.state());
  assert.deepEqual(new Work(null).state(), new Work(undefined).state());
});

test('done marks are of one pass of one plan', () => {
  const head = {
    head: 'batter',
    from_hz: 174.6,
    to_hz: 207.7,
    passes: [
      { order: [1, 3, 2, 4], turns: [0.125, 0, 0.125, 0.0625] },
      { order: [1, 3, 2, 4], turns: [0.125, 0.125, 0.125, 0.125] }
    ]
  };
  assert.deepEqual(turningLugs(head.passes[0]), [1, 3, 4]);
  assert.ok(!isEven(head.passes[0]) && isEven(head.passes[1]));
  assert.notEqual(passName(head, 0), passName(head, 1));
  assert.notEqual(passName(head, 0), passName({ ...head, to_hz: 210 }, 0));
  const work = new Work(),
    name = passName(head, 0);
  work.toggle(name, 3);
  work.toggle(name, 1);
  work.toggle(name, 3);
  assert.deepEqual(work.doneLugs(name), [1]);
  work.finish(name, [1, 3, 4]);
  assert.deepEqual(work.doneLugs(name), [1, 3, 4]);
});

test('questions by ear have the answer that they play', () => {
  const seen = new Set();
  for (let a = 0; a < 1; a += 0.11)
    for (let b = 0; b < 1; b += 0.11) {
      const values = [a, b],
        asked = makeQuestion(true, () => values.shift());
      seen.add(`${asked.head} ${asked.by}`);
      const [which, far] = asked.questions;
      assert.equal(which.answers[which.right], asked.head);
      assert.equal(far.answers[far.right], farWords(asked.by));
      assert.equal(asked.batter !== 0, asked.head !== 'resonant');
      assert.equal(asked.resonant !== 0, asked.head !== 'batter');
      assert.ok(asked.by !== 0 && solution(asked).includes(farWords(asked.by)));
    }
  assert.equal(seen.size, 18);
  assert.equal(makeQuestion(false, () => 0.5).questions.length, 1);
});
