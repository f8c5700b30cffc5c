// Names of notes and intervals, as the program and the window write them. Notes are MIDI numbers with fractions: 56.12 is G♯3 +12 cents.

const noteNames = ['C', 'C♯', 'D', 'D♯', 'E', 'F', 'F♯', 'G', 'G♯', 'A', 'A♯', 'B'];
const steps = { C: 0, D: 2, E: 4, F: 5, G: 7, A: 9, B: 11 };

export const intervals = [
  ['P1', 'perfect unison'],
  ['m2', 'minor second'],
  ['M2', 'major second'],
  ['m3', 'minor third'],
  ['M3', 'major third'],
  ['P4', 'perfect fourth'],
  ['A4', 'augmented fourth'],
  ['P5', 'perfect fifth'],
  ['m6', 'minor sixth'],
  ['M6', 'major sixth'],
  ['m7', 'minor seventh'],
  ['M7', 'major seventh'],
  ['P8', 'perfect octave']
].map(([short, long], semitones) => ({ short, long, semitones }));

export const midiOfHertz = (hertz, a4 = 440) => 69 + 12 * Math.log2(hertz / a4);
export const hertzOfMidi = (midi, a4 = 440) => a4 * 2 ** ((midi - 69) / 12);

/** The MIDI number to a hundredth of a cent, as the page keeps the notes of its drum. */
export const keptMidiOfHertz = (hertz, a4 = 440) => Math.round(midiOfHertz(hertz, a4) * 1e4) / 1e4;

/** Whether a whole MIDI number is a note without a sharp. */
export const isNatural = midi => [0, 2, 4, 5, 7, 9, 11].includes(((midi % 12) + 12) % 12);

/** "−12", "+12" or "0". */
export function withSign(value, decimals = 0) {
  const text = Math.abs(value).toFixed(decimals);
  if (Number(text) === 0) return text;
  return (value < 0 ? '−' : '+') + text;
}

const centsBeside = midi => Math.round(100 * (midi - Math.round(midi)));
const plainName = midi => noteNames[((Math.round(midi) % 12) + 12) % 12] + (Math.floor(Math.round(midi) / 12) - 1);

/** "G♯3" or "G♯3 −12". */
export function noteName(midi) {
  const cents = centsBeside(midi);
  return cents === 0 ? plainName(midi) : `${plainName(midi)} ${withSign(cents)}`;
}

/** The same for a screen reader: "G sharp 3, 12 cents below". */
export function spokenNote(midi) {
  const cents = centsBeside(midi);
  const name = plainName(midi).replace('♯', ' sharp ');
  return cents === 0 ? name : `${name}, ${Math.abs(cents)} cents ${cents < 0 ? 'below' : 'above'}`;
}

/** The note as files write it: "G#3 -12". */
export const writtenNote = midi => noteName(midi).replace('♯', '#').replace('−', '-');

/** The MIDI number of "G#3", "Ab3 +12" or "207.65 Hz"; NaN if it is not a note. */
export function readNote(text, a4 = 440) {
  const plain = text.trim().replaceAll('♯', '#').replaceAll('♭', 'b').replaceAll('−', '-');
  const hertz = /^(\d+(?:[.,]\d+)?)\s*hz$/i.exec(plain);
  if (hertz) return midiOfHertz(Number(hertz[1].replace(',', '.')), a4);
  const note = /^([A-Ga-g])([#b]?)(-?\d)(?:\s*([+-]\s*\d+(?:\.\d+)?)\s*c?)?$/.exec(plain);
  if (!note) return NaN;
  const [, letter, sign, octave, cents = '0'] = note;
  return (
    12 * (Number(octave) + 1) + steps[letter.toUpperCase()] + (sign === '#' ? 1 : sign === 'b' ? -1 : 0) + Number(cents.replace(/\s/g, '')) / 100
  );
}

const nearQuarterTone = 40; // cents from the nearest semitone, as in the program
const commonName = size => intervals[size].long.replace(/^perfect /, '');

/** The named interval nearest to a size, and how far it is from it. A unison has no direction: its cents may be negative. */
function nearest(semitones) {
  const size = Math.round(Math.abs(semitones)),
    cents = Math.round(100 * (size === 0 ? semitones : Math.abs(semitones) - size));
  return { named: intervals[size], isBelow: semitones < 0 && size > 0, beyond: cents === 0 ? '' : ` ${withSign(cents)} c` };
}

/** "perfect fourth", "perfect fourth +12 c", "minor third below", "between unison and minor second"; beyond an octave "+14 semitones". */
export function intervalName(semitones) {
  const size = Math.abs(semitones),
    isBetween = 100 * Math.abs(size - Math.round(size)) >= nearQuarterTone;
  if ((isBetween ? Math.ceil(size) : Math.round(size)) > 12) return `${withSign(semitones, Number.isInteger(semitones) ? 0 : 2)} semitones`;
  if (isBetween) return `between ${commonName(Math.floor(size))} and ${commonName(Math.ceil(size))}${semitones < 0 ? ' below' : ''}`;
  const { named, isBelow, beyond } = nearest(semitones);
  return named.long + beyond + (isBelow ? ' below' : '');
}

/** The interval as it can be typed and read back: "P4", "P4 +12 c", "-m3"; beyond an octave "+14 st". */
export function writtenInterval(semitones) {
  const { named, isBelow, beyond } = nearest(semitones);
  return named ? (isBelow ? '-' : '') + named.short + beyond : `${withSign(semitones, 2)} st`;
}

/** Semitones of "P4", "-m3", "perfect fourth", "fourth", "+5.5 st" or "550 c"; NaN if it is not an interval. */
export function readInterval(text) {
  const plain = text.trim().replaceAll('−', '-');
  const number = /^([+-]?\d+(?:\.\d+)?)\s*(st|semitones?|c|cents?)$/i.exec(plain);
  if (number) return Number(number[1]) / (/^c/i.test(number[2]) ? 100 : 1);
  const isBelow = plain.startsWith('-') || / below$/i.test(plain);
  const name = plain.replace(/^[+-]/, '').replace(/ below$/i, '');
  const cents = /^(.*\S)\s+([+-]\d+(?:\.\d+)?)\s*c(?:ents?)?$/i.exec(name);
  const [bare, beyond] = cents ? [cents[1], Number(cents[2]) / 100] : [name, 0];
  const found = intervals.find(
    ({ short, long }) =>
      short === bare || long === bare.toLowerCase() || (/^(perfect|augmented)/.test(long) && long.split(' ')[1] === bare.toLowerCase())
  );
  return found ? (found.semitones + beyond) * (isBelow ? -1 : 1) : NaN;
}

/** "2 064": thin spaces between thousands. */
export const grouped = value => value.toFixed(0).replace(/\B(?=(\d{3})+$)/g, ' ');
