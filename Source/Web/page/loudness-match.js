// Brings all kept tunings and the present one to one loudness (ITU-R BS.1770): louder tends to sound better.

import { make } from './dom.js';

export const oneStroke = { text: 'o6...', steps_per_beat: 4, tempo: 100, seconds: 1.2 }; // one stroke, off centre

export class LoudnessMatch {
  constructor(model, instrument, volume) {
    Object.assign(this, { model, instrument, volume, measured: new Map() });
    this.box = make('input', { type: 'checkbox', onchange: () => this.#match() });
    this.element = make(
      'label',
      { class: 'check', title: 'Plays every tuning at the loudness of the softest one (ITU-R BS.1770).' },
      this.box,
      'Match loudness'
    );
    model.addEventListener('change', () => {
      if (this.box.checked && model.played) this.#match();
    });
  }

  async #loudness(document) {
    const key = JSON.stringify(document);
    if (!this.measured.has(key)) this.measured.set(key, await this.instrument.loudness(document, oneStroke));
    return this.measured.get(key);
  }

  async #match() {
    if (!this.box.checked) {
      this.signature = '';
      return this.volume.setOffset(0);
    }
    const document = this.model.document(),
      signature = JSON.stringify([document, this.model.kept.map(({ letter }) => letter)]);
    if (signature === this.signature) return;
    this.signature = signature;
    const now = await this.#loudness(document),
      all = [now];
    for (const item of this.model.kept) all.push(await this.#loudness(item.document));
    if (this.signature === signature && this.box.checked) this.volume.setOffset(Math.min(...all) - now);
  }
}
