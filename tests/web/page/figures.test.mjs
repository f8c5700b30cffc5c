import assert from 'node:assert/strict';
import { test } from 'node:test';
import { figuresOf } from '../../../Source/Web/page/figures.js';
import { inches, setInches } from '../../../Source/Web/page/lengths.js';

const head = (tension, share) => ({ tension_n_per_m: tension, yield_share: share, force_per_rod_n: tension / 7 });
const prediction = (hertz, tension) => ({
  drum_note_hz: hertz,
  drum_note_t60_s: 1,
  sensitivity: { drum_note_cents_per_batter_semitone: 60, drum_note_cents_per_resonant_semitone: 45 },
  heads: { batter: head(tension, 0.1), resonant: head(2000, 0.3) }
});
const named = (rows, name) => rows.find(row => row.name === name);

test('a change has an arrow only where it exceeds the uncertainty', () => {
  const before = { prediction: prediction(150, 2000), played: null };
  const rows = hertz => figuresOf({ prediction: prediction(hertz, 2200), played: null }, before, 440);
  // 150 to 160 Hz is 1200·log2(160/150) = 111.7 cents, more than ± 50; to 151 Hz 11.5 cents, less.
  assert.equal(named(rows(160), 'Drum note').change, '▲ 112 c');
  assert.equal(named(rows(151), 'Drum note').change, '+12 c');
  assert.equal(named(rows(150), 'Drum note').change, '± 0');
  assert.equal(named(rows(150), 'Batter tension').change, '▲ 10 %');
  assert.equal(named(rows(150), 'Resonant tension').change, '± 0');
});

test('figures that are not there yet say so, and a drum with one head has one head', () => {
  const one = prediction(150, 2000);
  delete one.heads.resonant;
  delete one.sensitivity.drum_note_cents_per_resonant_semitone;
  const rows = figuresOf({ prediction: one, played: null }, null, 440);
  assert.equal(named(rows, 'Dryness').value, 'calculating');
  assert.ok(!rows.some(row => /^Resonant/.test(row.name)));
  assert.ok(rows.every(row => row.uncertainty && row.tip));
});

test('wires off have no snare response', () => {
  const played = { contact_time_ms: 5, rebound_percent: 70, attack_brightness_hz: 400, dryness_db: -3, snare_response: [] };
  const rows = figuresOf({ prediction: prediction(150, 2000), played }, null, 440);
  assert.equal(named(rows, 'Snare response, edge').value, 'wires off');
  assert.equal(named(rows, 'Dryness').value, '−3.0 dB');
});

test('lengths are read in any unit and written in inches', () => {
  assert.equal(inches({ depth_mm: 127 }, 'depth'), 5);
  assert.equal(inches({ depth_m: 0.4087 }, 'depth'), 16.09); // 0.4087 / 0.0254 = 16.091
  assert.equal(inches({ diameter_in: 14 }, 'diameter'), 14);
  assert.deepEqual(
    Object.entries(setInches('depth', 5.5)).filter(([, value]) => value !== undefined),
    [['depth_in', 5.5]]
  );
});
