// Plays the drum with every interval from a minor second to an octave over the same batter head, then restores the tuning.

import { button } from './dom.js';
import { say } from './messages.js';

const betweenStrokes = 1000; // ms

export class Sweep {
  /** @param strike  plays one stroke of the drum as it is */
  constructor(model, strike) {
    Object.assign(this, { model, strike, isOn: false });
    this.element = button('Hear every interval', () => (this.isOn ? this.stop() : this.#play()), { 'aria-pressed': 'false' });
    model.addEventListener('change', () => {
      this.element.hidden = !model.hasResonant;
    });
  }

  stop() {
    this.isOn = false;
  }

  async #play() {
    const { model } = this;
    const before = model.document(),
      { batter } = model.notes;
    this.#setOn(true);
    for (let semitones = 1; semitones <= 12 && this.isOn; ++semitones) {
      model.setInterval(semitones);
      await this.#settled();
      if (model.trouble) {
        say('sweep', `The resonant head goes no further: ${model.trouble}`);
        break;
      }
      this.strike();
      await new Promise(resolve => setTimeout(resolve, betweenStrokes));
      if (model.notes.batter !== batter || Math.abs(model.interval - semitones) > 0.01) return this.#setOn(false); // somebody tunes
    }
    this.#setOn(false);
    await model.load(before, 0, { canUndo: false, keepsTunings: true });
  }

  #setOn(isOn) {
    this.isOn = isOn;
    this.element.textContent = isOn ? 'Stop' : 'Hear every interval';
    this.element.setAttribute('aria-pressed', String(isOn));
  }

  #settled() {
    return new Promise(resolve => {
      const look = () => (this.model.isSettled ? resolve() : this.model.addEventListener('change', look, { once: true }));
      look();
    });
  }
}
