// Wishes: ranges for the figures of a tuning, and the tunings that meet them or the wishes that exclude each other. The search is the program's `find`.

import { button, make, redraw } from './dom.js';
import { say } from './messages.js';
import { hertzOfMidi, keptMidiOfHertz, midiOfHertz, noteName } from './notes.js';

/** By the program's options; `matter` is what its errors are about. Wishes on played strokes are left to the program. */
const fields = [
  { option: 'key', matter: 'key', label: 'Song’s key', example: 'D minor' },
  { option: 'tempo', matter: 'tempo', label: 'Song’s tempo', example: '120' },
  { option: 'drum-note', matter: 'drum note', label: 'Drum note', example: 'D3:E3' },
  { option: 'ring', matter: 'ring', label: 'Ring', example: ':0.6s' },
  { option: 'lasts', matter: 'drum note at the listener', label: 'Lasts at listener', example: ':1beat' },
  { option: 'interval', matter: 'interval', label: 'Interval', example: 'P4:P5' },
  { option: 'batter-move', matter: 'batter move', label: 'Batter moves', example: '-4:4' },
  { option: 'resonant-move', matter: 'resonant move', label: 'Resonant moves', example: 'stays' },
  { option: 'batter-stress', matter: 'batter stress', label: 'Batter stress, %', example: ':50' },
  { option: 'resonant-stress', matter: 'resonant stress', label: 'Resonant stress, %', example: ':50' }
];
const ofSong = ['key', 'tempo'];
const withSharps = text => text.replace(/([A-G])#/g, '$1♯');

export class Wishes {
  found = null; // as "find --json" writes it, with its mask; null: nothing is wished for, or it is not known yet
  #texts = {};
  #asked = '';

  /** @param hear    called with { batter, interval } of a tuning that is chosen
      @param playInTurn  plays a list of { document, label } one after the other
      @param onFound called when `found` has changed */
  constructor(model, instrument, { hear, playInTurn, onFound }) {
    Object.assign(this, { model, instrument, hear, onFound });
    this.inputs = fields.map(({ option, example }) =>
      make('input', { placeholder: `e.g. ${example}`, autocomplete: 'off', spellcheck: 'false', onchange: event => this.#wish(option, event.target.value.trim()) })
    );
    this.text = make('p', { class: 'hint', role: 'status' });
    this.list = make('div', { class: 'found' });
    this.keep = button('Keep them all', () => this.#keepAll(), { hidden: true, title: 'Keeps them under letters, to compare them by ear or blind.' });
    this.inTurn = button('Play in turn', () => playInTurn(this.found.tunings.map(tuning => this.#itemOf(tuning))), {
      hidden: true,
      title: 'Each of them plays the pattern or MIDI part once, at the loudness of the softest (ITU-R BS.1770).'
    });
    this.from = make('span', { class: 'hint' });
    this.element = make(
      'section',
      { class: 'wishes', 'aria-labelledby': 'wishes-title' },
      make('h2', { id: 'wishes-title' }, 'Wishes'),
      make('div', { class: 'typing' }, ...fields.map(({ label }, i) => make('label', { class: 'field' }, make('span', {}, label), this.inputs[i]))),
      make('div', { class: 'row' }, this.from, button('Start here', () => this.startHere())),
      this.text,
      this.list,
      make('div', { class: 'row' }, this.inTurn, this.keep)
    );
  }

  /** Counts moves of the heads from the present tuning from now on. */
  startHere() {
    const { batter, resonant } = this.model.notes;
    this.start = { batter, resonant };
    this.from.textContent = `Moves count from ${noteName(batter)} and ${noteName(resonant)}.`;
    this.onFound();
  }

  #wish(option, text) {
    this.#texts[option] = text;
    this.onFound();
  }

  /** Looks again where the drum, its place, the start or a wish is another than before.
      @param frame  the map in view with { columns, rows } of its shading; null while there is no map
      @param step   cents between the map's tunings */
  async follow(frame, step) {
    const { model, start } = this,
      { key, tempo, ...wishes } = this.#texts;
    const isWished = Object.values(this.#texts).some(Boolean);
    const request = {
      wishes,
      key,
      tempo: tempo ? (Number.isNaN(Number(tempo)) ? tempo : Number(tempo)) : null,
      beats: model.tempo,
      now: start && { batter_hz: hertzOfMidi(start.batter, model.a4), resonant_hz: hertzOfMidi(start.resonant, model.a4) },
      frame,
      step_cents: step
    };
    const asked = JSON.stringify([request, { ...model.drum }, model.a4]);
    if (asked === this.#asked) return;
    this.#asked = asked;
    if (!frame || !isWished) return this.#take(null, isWished ? 'The search starts when the map is finished.' : '');
    this.text.textContent = 'Looking for tunings.';
    try {
      const found = await this.instrument.find(model.document(), request);
      if (found !== null && asked === this.#asked) this.#take(found, '');
    } catch (error) {
      if (asked === this.#asked) this.#take(null, error.message, error.field);
    }
  }

  #take(found, text, field = null) {
    this.found = found;
    this.inputs.forEach((input, i) => input.setAttribute('aria-invalid', String(field === fields[i].matter)));
    const ofTheSong = (found?.wishes ?? []).filter(({ reason }) => reason).map(wish => `${wish.text}: ${wish.reason}.`);
    const said = !found
      ? text
      : found.all_met
        ? `${found.tunings.length === 1 ? 'One kind of tuning meets' : `${found.tunings.length} kinds of tunings meet`} every wish.`
        : found.conflicts.map(conflict => conflict.text).join(' ');
    this.text.textContent = withSharps([said, ...ofTheSong].join(' '));
    this.keep.hidden = this.inTurn.hidden = !(found?.tunings.length > 1);
    redraw(this.list, ...(found?.tunings ?? []).map((tuning, i) => this.#button(tuning, i + 1)));
    this.onFound();
  }

  /** A tuning that was found as { document, label }, with the notes the page keeps once it is opened: loudness is measured of the
      same document that plays. */
  #itemOf({ batter_tap_note_hz, resonant_tap_note_hz }) {
    const { drum, a4 } = this.model,
      [batter, resonant] = [batter_tap_note_hz, resonant_tap_note_hz].map(hertz => keptMidiOfHertz(hertz, a4)),
      head = midi => ({ tap_note_hz: hertzOfMidi(midi, a4) });
    return {
      document: { ...drum, tunings: [{ concert_pitch_hz: a4, batter: head(batter), resonant: head(resonant) }] },
      label: `${noteName(batter)} and ${noteName(resonant)}`
    };
  }

  async #keepAll() {
    const { model } = this;
    for (const { document, label } of this.found.tunings.map(tuning => this.#itemOf(tuning))) {
      const prediction = await this.instrument.predict(document);
      if (prediction && !model.keepFound(document, label, prediction))
        return say('kept', 'Eight tunings are kept, A to H: clear one to keep another.');
    }
  }

  #button(tuning, number) {
    const { a4 } = this.model,
      batter = midiOfHertz(tuning.batter_tap_note_hz, a4),
      resonant = midiOfHertz(tuning.resonant_tap_note_hz, a4);
    const misses = tuning.misses.map(({ wish, text }) => `; ${this.found.wishes[wish - 1].text}: ${text}`).join('');
    const moves = [
      ['batter', tuning.batter_move_semitones],
      ['resonant', tuning.resonant_move_semitones]
    ].map(([head, by]) => `${head} ${Math.abs(by) < 0.1 ? 'stays' : `${by > 0 ? 'up' : 'down'} ${Math.abs(by).toFixed(1)}`}`);
    const element = button('', () => this.hear({ batter, interval: resonant - batter }), { class: 'found-tuning' });
    element.append(
      make('strong', {}, `${number}  ${noteName(batter)} and ${noteName(resonant)}`),
      ` ${tuning.kind}: drum note ${noteName(midiOfHertz(tuning.drum_note_hz, a4))}, ${moves.join(', ')}${withSharps(misses)}`
    );
    return element;
  }
}
