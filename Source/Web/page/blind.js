// The kept tunings by ear alone: in a hidden order, at one loudness, with names and figures hidden until one is chosen.

import { button, make, redraw } from './dom.js';
import { warn } from './messages.js';

/** The same items in another order. */
export function shuffled(items, random = Math.random) {
  const list = [...items];
  for (let i = list.length - 1; i > 0; --i) {
    const other = Math.floor(random() * (i + 1));
    [list[i], list[other]] = [list[other], list[i]];
  }
  return list;
}

export class Blind {
  /** @param play  plays the MIDI part on the drum on the page; without one a stroke, unless a pattern plays
      @param measured  gives what tunings are brought to one loudness for, as LoudnessMatch.gains() takes it
      @param plan  shows the plan for the drum on the page */
  constructor(model, match, volume, { play, measured, plan, random = Math.random }) {
    Object.assign(this, { model, match, volume, play, measured, plan, random, order: [], gains: null });
    this.start = button('Compare blind', () => this.begin().catch(error => this.#fail(error)), {
      title: 'Hear the kept tunings at one loudness (ITU-R BS.1770) in a hidden order; names and figures come back when you choose.'
    });
    this.element = make('section', { class: 'card ear', 'aria-label': 'Blind comparison', hidden: true });
    model.addEventListener('change', () => (this.start.disabled = model.kept.length < 2));
  }

  async begin() {
    this.order = shuffled(this.model.kept, this.random);
    this.before = this.model.document();
    this.now = null;
    this.model.begin();
    this.element.hidden = false;
    document.body.dataset.figures = 'hidden';
    this.match.hold();
    this.#draw('Measuring how loud each of them is.');
    const { order } = this,
      gains = await this.match.gains(
        order.map(({ document: tuned }) => tuned),
        this.measured()
      );
    if (this.order !== order || this.element.hidden) return; // ended meanwhile
    this.gains = gains;
    this.#draw('Play each of them, with strokes or while a pattern plays, as often as you like. Then choose.');
    this.element.querySelector('button')?.focus();
  }

  async #hear(index) {
    await this.#load(this.order[index].document);
    this.volume.setOffset(this.gains[index]);
    this.now = index;
    this.#draw(`Sound ${index + 1}.`);
    this.play();
  }

  /** Names and figures come back; the drum has the tuning that was chosen. */
  async #choose() {
    const name = ({ letter, label }) => `${letter}, ${label}`;
    const others = this.order.flatMap((item, i) => (i === this.now ? [] : [`sound ${i + 1} was ${name(item)}`]));
    this.#show();
    redraw(
      this.element,
      make('h2', {}, 'Blind comparison'),
      make('p', { role: 'status', class: 'turn' }, `You chose sound ${this.now + 1}: ${name(this.order[this.now])}.`),
      make('p', {}, `${others.join('; ')}.`.replace('sound', 'Sound')),
      make(
        'div',
        { class: 'row' },
        button('Plan it at the drum', () => {
          this.end();
          this.plan();
        }),
        button('Close', () => this.end())
      )
    );
    this.element.querySelector('button').focus();
  }

  #load(tuned) {
    return this.model.load(tuned, 0, { canUndo: false, keepsTunings: true });
  }

  #draw(words) {
    redraw(
      this.element,
      make('h2', {}, 'Blind comparison'),
      make(
        'div',
        { class: 'row' },
        ...this.order.map((_, i) =>
          button(`Sound ${i + 1}`, () => this.#hear(i).catch(error => this.#fail(error)), { disabled: !this.gains, 'aria-pressed': String(i === this.now) })
        )
      ),
      make('p', { role: 'status' }, words),
      make(
        'div',
        { class: 'row' },
        button(this.now === null ? 'Choose' : `Choose sound ${this.now + 1}`, () => this.#choose(), { class: 'main', disabled: this.now === null }),
        button('End without a choice', () => this.#leave())
      )
    );
  }

  #show() {
    delete document.body.dataset.figures;
    this.gains = null;
  }

  end() {
    this.#show();
    this.element.hidden = true;
    this.match.again();
  }

  async #leave() {
    this.end();
    await this.#load(this.before).catch(error => warn('blind', error));
  }

  #fail(error) {
    warn('blind', error);
    this.#leave();
  }
}
