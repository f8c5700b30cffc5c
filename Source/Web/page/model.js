// The drum on the page: its document, the notes of its heads, what the solver says about them. Views read it and ask it to change;
// it tells them with the event "change". The document is a drum file (Source/Files/README.md) whose first tuning is the one in use.

import { hertzOfMidi, keptMidiOfHertz, midiOfHertz, writtenNote } from './notes.js';

const restBeforePlayed = 350; // ms without a change before the stroke is predicted, which takes longer
const mostUndo = 60;
const lettersOfKept = [...'ABCDEFGH'];

export class Model extends EventTarget {
  drum = {}; // the drum file without its tunings
  tunings = []; // of the file that was opened, to choose from
  tuningName = '';
  notes = { batter: 56, resonant: 61 }; // MIDI numbers; resonant is null for a drum with one head
  lugs = { batter: null, resonant: null }; // cents of each lug over the head's note, or null: even
  a4 = 440;
  prediction = null; // as "predict --json" writes it
  played = null; // the stroke's figures, later than the prediction
  inPlace = null; // what the place makes of it, later still; null without a place
  tempo = 100; // beats a minute, against which the listener's drum note is counted
  shapes = null; // for drawing, later than the prediction
  trouble = ''; // a sentence, if the last change could not be used
  kept = []; // { letter, document, label, prediction, played, inPlace }
  reference = null; // the letter from which changes count

  #solver;
  #undo = [];
  #redo = [];
  #wanted = null; // the document to solve next
  #isSolving = false;
  #good = null; // the last state that could be solved
  #timer = 0;

  /** @param solver  instrument.js: tune(), played(), inPlace(), shapes() */
  constructor(solver) {
    super();
    this.#solver = solver;
  }

  get hasResonant() {
    return this.notes.resonant !== null;
  }
  get interval() {
    return this.hasResonant ? this.notes.resonant - this.notes.batter : null;
  }
  get drumNote() {
    return this.prediction ? midiOfHertz(this.prediction.drum_note_hz, this.a4) : null;
  }
  get canUndo() {
    return this.#undo.length > 0;
  }
  get canRedo() {
    return this.#redo.length > 0;
  }
  get isSettled() {
    return !this.#isSolving && this.#wanted === null;
  }
  /** What figures are said with. */
  get said() {
    return { a4: this.a4, tempo: this.tempo, hasPlace: Boolean(this.drum.place) };
  }
  get before() {
    return this.kept.find(({ letter }) => letter === this.reference) ?? null;
  }

  /** The tuning in use as a drum file has it. Notes at whole cents are written as notes. */
  tuning() {
    const head = midi =>
      Math.abs(midi * 100 - Math.round(midi * 100)) < 1e-6 ? { tap_note: writtenNote(midi) } : { tap_note_hz: hertzOfMidi(midi, this.a4) };
    const tuning = this.tuningName ? { name: this.tuningName } : {};
    if (this.a4 !== 440) tuning.concert_pitch_hz = this.a4;
    tuning.batter = head(this.notes.batter);
    if (this.hasResonant) tuning.resonant = head(this.notes.resonant);
    for (const side of ['batter', 'resonant']) if (this.lugs[side]?.some(cents => cents !== 0)) tuning[`${side}_lugs_cents`] = this.lugs[side];
    return tuning;
  }

  document() {
    return { ...this.drum, tunings: [this.tuning()] };
  }

  /** The document to save: the tuning in use first, then the file's others. */
  fileDocument() {
    const { name } = this.tuning();
    return { ...this.drum, tunings: [this.tuning(), ...this.tunings.filter(tuning => tuning.name !== name)] };
  }

  /** Opens a drum file with one of its tunings. Rejects with a sentence and changes nothing if it cannot be used.
      @param keepsTunings  the file that was opened stays the one whose tunings are offered and saved */
  async load(document, which = 0, { canUndo = true, keepsTunings = false } = {}) {
    const { tunings = [], ...drum } = document;
    const tuning = tunings[which] ?? { batter: { tap_note: 'G#3' }, ...(drum.bottom && drum.bottom !== 'head' ? {} : { interval: 'P4' }) };
    const answer = await this.#solver.tune({ ...drum, tunings: [tuning] });
    if (answer === null) return; // a newer wish replaced this one
    if (canUndo) this.begin();
    this.drum = drum;
    if (!keepsTunings) this.tunings = tunings;
    this.tuningName = tuning.name ?? '';
    this.a4 = tuning.concert_pitch_hz ?? 440;
    this.lugs = { batter: tuning.batter_lugs_cents ?? null, resonant: tuning.resonant_lugs_cents ?? null };
    this.trouble = '';
    this.#take(answer.prediction, true);
    this.#tell();
    this.#askForTheRest();
  }

  /** Marks the state before a gesture for undo(). */
  begin() {
    if (this.prediction === null) return;
    this.#undo.push(this.#state());
    if (this.#undo.length > mostUndo) this.#undo.shift();
    this.#redo = [];
  }

  undo() {
    this.#step(this.#undo, this.#redo);
  }
  redo() {
    this.#step(this.#redo, this.#undo);
  }

  setNote(side, midi) {
    this.notes = { ...this.notes, [side]: midi };
    this.#retune(this.document());
  }

  /** Both heads at once, as on the map. */
  setNotes(batter, resonant) {
    this.notes = { batter, resonant };
    this.#retune(this.document());
  }

  /** The resonant head moves; the batter stays. */
  setInterval(semitones) {
    this.setNote('resonant', this.notes.batter + semitones);
  }

  /** Both heads move together. */
  moveTo(batter) {
    const by = batter - this.notes.batter;
    this.notes = { batter, resonant: this.hasResonant ? this.notes.resonant + by : null };
    this.#retune(this.document());
  }

  /** Both heads move, the interval stays, so that the finished drum sounds this note. */
  setDrumNote(midi) {
    const tuning = { ...this.tuning(), drum_note_hz: hertzOfMidi(midi, this.a4) };
    delete tuning.batter;
    delete tuning.resonant;
    if (this.hasResonant) tuning.interval_semitones = this.interval;
    this.#retune({ ...this.drum, tunings: [tuning] });
  }

  setLugs(side, cents) {
    this.lugs = { ...this.lugs, [side]: cents };
    this.#retune(this.document());
  }

  /** Changes keys of the drum file; undefined removes one. Lug differences belong to a number of lugs. */
  edit(members) {
    this.drum = { ...this.drum, ...members };
    for (const [key, value] of Object.entries(members)) if (value === undefined) delete this.drum[key];
    if ('lugs' in members) this.lugs = { batter: null, resonant: null };
    if ('bottom' in members)
      this.notes = { ...this.notes, resonant: (members.bottom ?? 'head') === 'head' ? (this.notes.resonant ?? this.notes.batter + 5) : null };
    this.#solve(this.document());
  }

  /** Names of the drum and of the tuning in use, as the drum file has them. */
  rename(drumName, tuningName) {
    this.drum = { ...this.drum, name: drumName };
    if (!drumName) delete this.drum.name;
    this.tuningName = tuningName;
    this.#tell();
  }

  /** The next letter to keep a tuning under; undefined if all are taken. */
  get freeLetter() {
    return lettersOfKept.find(free => !this.kept.some(({ letter }) => letter === free));
  }

  /** Keeps the present drum and tuning under a letter, or the next free one. False if all are taken. */
  keep(letter = this.freeLetter) {
    const { prediction, played, inPlace } = this;
    return prediction !== null && this.#keep({ letter, document: this.document(), label: this.describe(), prediction, played, inPlace });
  }

  /** Keeps a tuning that was found, with its prediction, under the next free letter. False if all are taken. */
  keepFound(document, label, prediction) {
    return this.#keep({ letter: this.freeLetter, document, label, prediction, played: null, inPlace: null });
  }

  #keep(item) {
    if (item.letter === undefined) return false;
    this.kept = [...this.kept.filter(({ letter }) => letter !== item.letter), item].sort((a, b) => a.letter.localeCompare(b.letter));
    this.reference ??= item.letter;
    this.#tell();
    return true;
  }

  clearKept(letter) {
    this.kept = this.kept.filter(item => item.letter !== letter);
    if (this.reference === letter) this.reference = this.kept[0]?.letter ?? null;
    this.#tell();
  }

  setTempo(tempo) {
    this.tempo = tempo;
    this.#tell();
  }

  compareWith(letter) {
    this.reference = letter;
    this.#tell();
  }

  /** The letter of the kept tuning that is the present one, or null. */
  get heardLetter() {
    const now = JSON.stringify(this.document());
    return this.kept.find(({ document }) => JSON.stringify(document) === now)?.letter ?? null;
  }

  /** "G#3 and C#4" for lists. */
  describe() {
    const note = midi => writtenNote(midi).replace('#', '♯').replace('-', '−');
    return note(this.notes.batter) + (this.hasResonant ? ` and ${note(this.notes.resonant)}` : '');
  }

  /** A tuning that was changed is no longer the one that has the name; that one stays in the file. */
  #retune(document) {
    this.tuningName = '';
    const tuning = { ...document.tunings[0] };
    delete tuning.name;
    this.#solve({ ...document, tunings: [tuning] });
  }

  #state() {
    const { drum, tunings, tuningName, notes, lugs, a4 } = this;
    return structuredClone({ drum, tunings, tuningName, notes, lugs, a4 });
  }

  #step(from, to) {
    if (from.length === 0) return;
    to.push(this.#state());
    Object.assign(this, from.pop());
    this.#solve(this.document());
  }

  #tell() {
    this.dispatchEvent(new Event('change'));
  }

  /** Takes what the solver says; the notes too, where they were not what was asked for. */
  #take(prediction, withNotes) {
    this.prediction = prediction;
    this.played = this.inPlace = this.shapes = null;
    if (withNotes) {
      const note = head => (head ? keptMidiOfHertz(head.tap_note_hz, this.a4) : null);
      this.notes = { batter: note(prediction.heads.batter), resonant: note(prediction.heads.resonant) };
    }
    this.#good = this.#state();
  }

  /** Solves the newest wish; what was wished meanwhile replaces it. */
  async #solve(document) {
    this.#wanted = document;
    this.#tell();
    if (this.#isSolving) return;
    this.#isSolving = true;
    while (this.#wanted !== null) {
      const next = this.#wanted;
      this.#wanted = null;
      try {
        const result = await this.#solver.tune(next);
        if (result === null || this.#wanted !== null) continue;
        this.trouble = '';
        this.#take(result.prediction, !('batter' in next.tunings[0]));
      } catch (error) {
        if (this.#wanted !== null) continue;
        this.trouble = error.message;
        if (this.#good !== null) Object.assign(this, structuredClone(this.#good));
      }
    }
    this.#isSolving = false;
    this.#tell();
    this.#askForTheRest();
  }

  #askForTheRest() {
    clearTimeout(this.#timer);
    this.#timer = setTimeout(async () => {
      const asked = this.prediction,
        document = this.document();
      const isStill = () => asked === this.prediction && this.isSettled;
      try {
        const shapes = await this.#solver.shapes(document);
        if (!isStill()) return;
        this.shapes = shapes;
        this.#tell();
        const played = await this.#solver.played(document);
        if (!isStill() || played === null) return;
        this.played = played;
        const same = this.kept.find(({ letter }) => letter === this.heardLetter);
        if (same) same.played ??= played;
        this.#tell();
        if (!document.place) return;
        const inPlace = await this.#solver.inPlace(document);
        if (!isStill() || inPlace === null) return;
        this.inPlace = inPlace;
        if (same) same.inPlace ??= inPlace;
        this.#tell();
      } catch (error) {
        this.trouble = error.message;
        this.#tell();
      }
    }, restBeforePlayed);
  }
}
