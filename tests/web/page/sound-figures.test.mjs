import assert from 'node:assert/strict';
import { test } from 'node:test';
import { decayOf, spectrumOf } from '../../../Source/Web/page/sound-figures.js';

const rate = 48000;
const sound = of => Float32Array.from({ length: rate }, (_, i) => of(i / rate));

test('a spectrum has each sine where it is, by its level', () => {
  // Half the amplitude is 20 log 2 = 6.02 dB less.
  const spectrum = spectrumOf(sound(t => Math.sin(2 * Math.PI * 440 * t) + 0.5 * Math.sin(2 * Math.PI * 3000 * t)), rate);
  const near = hertz => spectrum.reduce((best, one) => (Math.abs(Math.log(one.hertz / hertz)) < Math.abs(Math.log(best.hertz / hertz)) ? one : best));
  assert.equal(Math.max(...spectrum.map(({ decibels }) => decibels)), 0);
  assert.ok(Math.abs(near(440).hertz - 440) < 3 && near(440).decibels === 0);
  assert.ok(Math.abs(near(3000).decibels + 6.02) < 0.5, `${near(3000).decibels}`);
  assert.ok(near(1200).decibels < -40);
});

test('a decay falls as it was made to', () => {
  // 60 dB in 1 s.
  const decay = decayOf(sound(t => 10 ** (-3 * t) * Math.sin(2 * Math.PI * 1000 * t)), rate);
  const at = seconds => decay.find(one => one.seconds >= seconds).decibels;
  assert.ok(Math.abs(at(0.5) - at(0.1) + 24) < 0.2, `${at(0.5) - at(0.1)}`);
  assert.equal(decay[0].decibels, 0);
});

test('silence has neither', () => {
  for (const list of [spectrumOf(sound(() => 0), rate), decayOf(sound(() => 0), rate)]) assert.ok(list.every(({ decibels }) => decibels === -Infinity));
});
