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
const said = { a4: 440, tempo: 120, hasPlace: false };
const named = (rows, name) => rows.find(row => row.name === name);

test('a change has an arrow only where it exceeds the uncertainty', () => {
  const before = { prediction: prediction(150, 2000), played: null };
  const rows = hertz => figuresOf({ prediction: prediction(hertz, 2200), played: null }, before, said);
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
  const rows = figuresOf({ prediction: one, played: null }, null, said);
  assert.equal(named(rows, 'Dryness').value, 'calculating');
  assert.ok(!rows.some(row => /^Resonant/.test(row.name)));
  assert.ok(rows.every(row => row.uncertainty && row.tip));
});

test('wires off have no snare response', () => {
  const played = { contact_time_ms: 5, rebound_percent: 70, attack_brightness_hz: 400, dryness_db: -3, snare_response: [] };
  const rows = figuresOf({ prediction: prediction(150, 2000), played }, null, said);
  assert.equal(named(rows, 'Snare response, edge').value, 'wires off');
  assert.equal(named(rows, 'Dryness').value, '−3.0 dB');
});

test('the listener’s figures are there with a place only, counted in beats', () => {
  const now = at => ({ prediction: prediction(150, 2000), played: null, inPlace: at && { at_listener: at } });
  const inClub = { ...said, hasPlace: true };
  const rows = at => figuresOf(now(at), null, inClub);
  const note = 'Drum note at the listener', wires = 'Wires carry to';
  assert.equal(named(figuresOf(now(null), null, said), note), undefined);
  assert.equal(named(rows(null), note).value, 'calculating');
  const at = { drum_note_lasts_s: 1.25, level_dba: 88.4, wires_clear_to_m: 3.46, wires_heard_to_m: null };
  assert.equal(named(rows(at), note).value, '1.25 s, 2.5 beats'); // at 120 beats a minute a beat is half a second
  assert.equal(named(rows(at), wires).value, '3.5 m');
  assert.equal(named(rows({ ...at, wires_clear_to_m: null }), wires).value, 'everywhere');
  const { wires_clear_to_m: clear, wires_heard_to_m: heard, ...withoutWires } = at;
  assert.equal(named(rows(withoutWires), wires).value, 'wires off');
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
