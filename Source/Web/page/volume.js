// The volume, and what brings tunings or steps to one loudness on top of it.

import { make } from './dom.js';
import { restore, store } from './storage.js';

const [lowest, usual] = [-40, -6]; // dB; at 0 dB the drum is as loud as the loudspeaker lets it

export class Volume {
  #offset = 0; // dB

  constructor(instrument) {
    this.instrument = instrument;
    this.slider = make('input', {
      type: 'range',
      min: lowest,
      max: 0,
      step: 1,
      value: restore()?.volume ?? usual,
      oninput: () => this.#set(),
      onchange: () => store({ volume: Number(this.slider.value) })
    });
    this.element = make('label', { class: 'slider' }, make('span', {}, 'Volume'), this.slider);
    this.#set();
  }

  /** Decibels, 0 or less, for what plays now. */
  setOffset(decibels) {
    this.#offset = decibels;
    this.#set();
  }

  #set() {
    const decibels = Number(this.slider.value);
    this.slider.setAttribute('aria-valuetext', `${decibels} decibels`);
    this.instrument.setGain(decibels + this.#offset);
  }
}
