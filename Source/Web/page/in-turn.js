// Tunings one after the other, each playing the chosen pattern or MIDI part once, at the loudness of the softest.

import { button, make, redraw } from './dom.js';
import { warn } from './messages.js';

export class InTurn {
  #turn = null; // what plays now; a new object each time
  #before = null; // the drum as it was

  constructor(model, playBar, match, volume) {
    Object.assign(this, { model, playBar, match, volume });
    this.start = button('Play in turn', () => this.play(this.model.kept), {
      title: 'Every kept tuning plays the pattern or MIDI part once, at the loudness of the softest (ITU-R BS.1770).'
    });
    this.element = make('section', { class: 'card ear', 'aria-label': 'Tunings in turn', hidden: true });
    model.addEventListener('change', () => (this.start.disabled = this.#turn !== null || model.kept.length < 2));
  }

  /** @param items  [{ document, label, letter }]; a found tuning has no letter */
  async play(items) {
    if (this.#turn) return;
    const turn = (this.#turn = {});
    const { model, playBar, match, volume } = this;
    this.#before = model.document();
    model.begin();
    this.element.hidden = false;
    match.hold();
    const isOver = () => this.#turn !== turn;
    try {
      this.#draw(items, null, 'Measuring how loud each of them is.');
      const gains = await match.gains(items.map(({ document }) => document), playBar.measured);
      for (let i = 0; i < items.length && !isOver(); ++i) {
        await model.load(items[i].document, 0, { canUndo: false, keepsTunings: true });
        if (isOver()) return;
        volume.setOffset(gains[i]);
        this.#draw(items, i, nameOf(items[i], i));
        await playBar.playOnce();
      }
    } catch (error) {
      warn('turn', error);
    } finally {
      if (!isOver()) await this.end();
    }
  }

  /** Back to the drum as it was. */
  async end() {
    if (!this.#turn) return;
    this.#turn = null;
    this.playBar.end();
    this.element.hidden = true;
    await this.model.load(this.#before, 0, { canUndo: false, keepsTunings: true }).catch(error => warn('turn', error));
    this.match.again();
  }

  #draw(items, now, words) {
    redraw(
      this.element,
      make('h2', {}, `${this.playBar.pattern.name} on each tuning`),
      make('ol', { class: 'turns' }, ...items.map((item, i) => make('li', { 'aria-current': i === now && 'true' }, nameOf(item, i)))),
      make('p', { role: 'status' }, words),
      make('div', { class: 'row' }, button('Stay on this one', () => this.#stay(), { disabled: now === null }), button('Stop', () => this.end()))
    );
  }

  #stay() {
    this.#before = this.model.document();
    this.end();
  }
}

const nameOf = ({ letter, label }, i) => `${letter ?? i + 1}, ${label}`;
