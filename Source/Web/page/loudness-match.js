// Brings all kept tunings and the present one to one loudness (ITU-R BS.1770): louder tends to sound better.

import { make } from './dom.js';

export const oneStroke = { text: 'o6...', steps_per_beat: 4, tempo: 100, seconds: 1.2 }; // off centre

export class LoudnessMatch {
  #measured = new Map();
  #signature = '';
  #isHeld = false;

  constructor(model, instrument, volume) {
    Object.assign(this, { model, instrument, volume });
    this.box = make('input', { type: 'checkbox', onchange: () => this.again() });
    this.element = make(
      'label',
      { class: 'check', title: 'Plays every tuning at the loudness of the softest one (ITU-R BS.1770).' },
      this.box,
      'Match loudness'
    );
    model.addEventListener('change', () => {
      if (this.box.checked && !this.#isHeld && model.played) this.#match();
    });
  }

  /** Leaves the volume to something else, until again(). */
  hold() {
    this.#isHeld = true;
  }

  /** Decibels, 0 or less, that bring each of these drums to the loudness of the softest.
      @param what  they play, as Instrument.loudness() takes it */
  async gains(documents, what = oneStroke) {
    const all = [];
    for (const document of documents) all.push(await this.#loudness(document, what));
    const softest = Math.min(...all);
    return all.map(loudness => softest - loudness);
  }

  /** Sets the volume as the box says. */
  async again() {
    this.#isHeld = false;
    this.#signature = '';
    if (this.box.checked) await this.#match();
    else this.volume.setOffset(0);
  }

  async #loudness(document, what) {
    const key = JSON.stringify([document, what]);
    if (!this.#measured.has(key)) this.#measured.set(key, await this.instrument.loudness(document, what));
    return this.#measured.get(key);
  }

  async #match() {
    const document = this.model.document(),
      signature = JSON.stringify([document, this.model.kept.map(({ letter }) => letter)]);
    if (signature === this.#signature) return;
    this.#signature = signature;
    const [gain] = await this.gains([document, ...this.model.kept.map(kept => kept.document)]);
    if (this.#signature === signature && this.box.checked && !this.#isHeld) this.volume.setOffset(gain);
  }
}
