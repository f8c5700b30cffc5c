// The predicted result as rows: name, value, change from a kept tuning, uncertainty. The same figures as in the window.

import { grouped, midiOfHertz, noteName, withSign } from './notes.js';

const cents = size => ({
  words: `± ${size} c`,
  size,
  unit: ' c',
  decimals: 0,
  change: (from, to) => 1200 * Math.log2(to / from),
  of: change => Math.abs(change)
});
const share = (words, factor) => ({
  words,
  size: Math.log(factor),
  unit: ' %',
  decimals: 0,
  change: (from, to) => 100 * (to / from - 1),
  of: change => Math.abs(Math.log(1 + change / 100))
});
const decibels = size => ({ words: `± ${size} dB`, size, unit: ' dB', decimals: 1, change: (from, to) => to - from, of: change => Math.abs(change) });

const withinSemitone = cents(50),
  within3dB = decibels(3);
const withinTwentieth = share('± 5 %', 1.05),
  withinFifth = share('± 20 %', 1.2),
  withinFactor2 = share('factor of 2', 2);

/** "▲ 90 c" where the change exceeds the uncertainty, "+12 c" where it does not, "± 0" where there is none. */
export function changeText(from, to, sure) {
  if (!Number.isFinite(from) || !Number.isFinite(to) || (sure !== within3dB && !(from > 0 && to > 0))) return '';
  const change = sure.change(from, to);
  if (Math.abs(change) < 0.5 * 10 ** -sure.decimals) return '± 0';
  const isClear = sure.of(change) >= sure.size;
  return (isClear ? `${change > 0 ? '▲' : '▼'} ${Math.abs(change).toFixed(sure.decimals)}` : withSign(change, sure.decimals)) + sure.unit;
}

const softest = (played, isEdge) => played?.snare_response?.at(isEdge ? -1 : 0)?.softest_speed_m_per_s;

const metres = distance => (distance === Infinity ? 'everywhere' : `${distance.toFixed(distance < 10 ? 1 : 0)} m`);
/** The nearer of where the wires are clear and where they are heard; null in a report: no limit. */
const wiresCarry = ({ at_listener: at }) =>
  at.wires_heard_to_m === undefined ? undefined : Math.min(at.wires_clear_to_m ?? Infinity, at.wires_heard_to_m ?? Infinity);

const rows = [
  {
    name: 'Drum note',
    sure: withinSemitone,
    read: p => p.drum_note_hz,
    tip: 'The lowest mode of the two heads and the air together. It is as accurate as the head weights you entered.',
    text: (hertz, { a4 }) => noteName(midiOfHertz(hertz, a4))
  },
  {
    name: 'per semitone on batter',
    isDetail: true,
    sure: withinFifth,
    isCents: true,
    read: p => p.sensitivity.drum_note_cents_per_batter_semitone,
    text: value => `${withSign(value)} c`,
    tip: 'How far the drum note moves when you raise this head alone by a semitone (100 cents).'
  },
  {
    name: 'per semitone on resonant',
    isDetail: true,
    sure: withinFifth,
    isCents: true,
    read: p => p.sensitivity.drum_note_cents_per_resonant_semitone,
    text: value => `${withSign(value)} c`,
    tip: 'How far the drum note moves when you raise this head alone by a semitone (100 cents).'
  },
  {
    name: 'Ring, wires off',
    sure: withinFactor2,
    read: p => p.drum_note_t60_s,
    text: value => `${value.toFixed(2)} s`,
    tip: 'Time for the drum note to fall by 60 dB, wires off. Losses in head and edge are typical values, so expect up to a factor of two.'
  },
  {
    name: 'Ring, wires on',
    needsResonant: true,
    isPlayed: true,
    sure: withinFactor2,
    read: p => p.drum_note_t60_wires_on_s,
    text: value => `${value.toFixed(2)} s`,
    otherwise: 'wires off',
    tip: 'Time for the drum note to fall by 60 dB after a stroke at 3 m/s with the wires on, which take its energy as they rattle.'
  },
  {
    name: 'Attack brightness',
    isPlayed: true,
    sure: withinFifth,
    read: p => p.attack_brightness_hz,
    text: value => `${grouped(value)} Hz`,
    tip: 'Centroid of the loudness in third octaves over the first 20 ms, at the microphone above the batter head.'
  },
  {
    name: 'Dryness',
    isPlayed: true,
    sure: within3dB,
    read: p => p.dryness_db,
    text: value => `${withSign(value, 1)} dB`,
    tip: 'Energy of the first 50 ms against the rest: a higher figure is a drier drum.'
  },
  {
    name: 'Snare response, centre',
    needsResonant: true,
    isPlayed: true,
    sure: withinFactor2,
    read: p => softest(p, false),
    text: value => `${value.toFixed(2)} m/s`,
    otherwise: 'wires off',
    tip: 'Tip speed of the softest stroke that lifts the wires off the head. Lower means the snares answer a lighter touch.'
  },
  {
    name: 'Snare response, edge',
    needsResonant: true,
    isPlayed: true,
    sure: withinFactor2,
    read: p => softest(p, true),
    text: value => `${value.toFixed(2)} m/s`,
    otherwise: 'wires off',
    tip: 'The same near the edge of the head.'
  },
  {
    name: 'Stick rebound',
    isPlayed: true,
    sure: withinFifth,
    read: p => p.rebound_percent,
    text: value => `${value.toFixed(0)} %`,
    tip: 'Speed of the stick leaving the head against its speed arriving, with a relaxed grip.'
  },
  {
    name: 'Contact time',
    isPlayed: true,
    sure: withinFifth,
    read: p => p.contact_time_ms,
    text: value => `${value.toFixed(1)} ms`,
    tip: 'How long the tip stays on the head. A shorter contact gives a brighter attack.'
  },
  {
    name: 'Drum note at the listener',
    isInPlace: true,
    sure: withinFactor2,
    read: p => p.at_listener.drum_note_lasts_s,
    text: (value, { tempo }) => `${value.toFixed(2)} s, ${((value * tempo) / 60).toFixed(1)} beats`,
    tip: 'Time for the drum note to fall by 60 dB at the listener, wires off, and how many beats that is at the pattern’s tempo.'
  },
  {
    name: 'Level at the listener',
    isInPlace: true,
    sure: within3dB,
    read: p => p.at_listener.level_dba,
    text: value => `${value.toFixed(0)} dB(A)`,
    tip: 'Sound exposure level of one stroke at 3 m/s, A-weighted: the level of one stroke a second.'
  },
  {
    name: 'Wires carry to',
    isInPlace: true,
    needsResonant: true,
    sure: withinFactor2,
    read: wiresCarry,
    text: metres,
    otherwise: 'wires off',
    tip: 'Distance from the drum at which, in the octave of 4 kHz, the wires’ reverberation is as loud as their direct sound, or they are only 10 dB above the usual noise, whichever is nearer.'
  },
  ...['Batter', 'Resonant'].flatMap(name => {
    const head = p => p.heads[name.toLowerCase()];
    return [
      {
        name: `${name} tension`,
        sure: withinTwentieth,
        read: p => head(p)?.tension_n_per_m,
        text: value => `${grouped(value)} N/m`,
        tip: 'Pull per metre of head, from the tap note, the head’s weight and the air it moves. The maker’s limit comes first.'
      },
      {
        name: `${name}, of yield strength`,
        sure: withinTwentieth,
        hasLimit: true,
        read: p => head(p)?.yield_share,
        text: value => `${(100 * value).toFixed(0)} %`,
        tip: 'Stress in the head against the yield strength of polyester. Stop at half of it, where the mark stands, or at the maker’s limit if that is lower.'
      },
      {
        name: `${name} force per rod`,
        sure: withinFifth,
        read: p => head(p)?.force_per_rod_n,
        text: value => `${grouped(value)} N`,
        tip: 'The head’s pull shared between the rods, without friction at the bearing edge. Keep to the makers’ figures for rods, inserts and hoops.'
      }
    ];
  })
];

/** @param now, before  { prediction, played, inPlace }; before may be null
    @param said  { a4, tempo, hasPlace }, as Model.said
    @returns rows { name, value, change, uncertainty, tip, isDetail, limitShare } */
export function figuresOf(now, before, said) {
  return rows.flatMap(row => {
    if ((row.needsResonant && !now.prediction.heads.resonant) || (row.isInPlace && !said.hasPlace)) return [];
    const of = result => (row.isInPlace ? result?.inPlace : row.isPlayed ? result?.played : result?.prediction) ?? null;
    const source = of(now),
      former = of(before);
    const value = source === null ? undefined : row.read(source);
    if (source !== null && value === undefined && row.otherwise === undefined) return [];
    const text = source === null ? 'calculating' : value === undefined ? row.otherwise : value === null ? 'no response' : row.text(value, said);
    return [
      {
        name: row.name,
        value: text,
        tip: row.tip,
        uncertainty: row.sure.words,
        isDetail: row.isDetail ?? false,
        change: row.isCents || former === null || source === null ? '' : changeText(row.read(former), value, row.sure),
        limitShare: row.hasLimit ? value : undefined
      }
    ];
  });
}
