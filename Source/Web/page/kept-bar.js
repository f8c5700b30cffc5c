// Kept tunings, A to H: press one to hear it; changes count from one of them.

import { button, make, redraw } from './dom.js';

export class KeptBar {
  /** @param hear  called with a kept tuning */
  constructor(model, hear) {
    this.model = model;
    this.hear = hear;
    this.element = make('div', { class: 'kept-bar' });
    model.addEventListener('change', () => this.render());
  }

  render() {
    const { model } = this,
      heard = model.heardLetter;
    const letters = model.kept.map(item =>
      make(
        'span',
        { class: 'kept-item' },
        button('', () => this.hear(item), {
          'aria-pressed': String(item.letter === heard),
          class: 'kept'
        }),
        button('×', () => model.clearKept(item.letter), { class: 'quiet', 'aria-label': `Clear ${item.letter}` })
      )
    );
    const areOfOneDrum = new Set(model.kept.map(({ document }) => document.name)).size < 2;
    letters.forEach((element, i) => {
      const { letter, document, label } = model.kept[i],
        name = `${areOfOneDrum ? '' : `${document.name}: `}${label}`;
      element.firstChild.append(make('strong', {}, letter), ` ${name}`);
      element.firstChild.setAttribute('aria-label', `${letter} ${name}. Press to hear this tuning.`);
    });
    const keep = button(`Keep as ${model.freeLetter ?? '…'}`, () => model.keep(), {
      disabled: model.freeLetter === undefined || heard !== null
    });
    const signature = JSON.stringify([model.kept.map(({ letter, label }) => [letter, label]), heard]);
    if (signature === this.signature) return;
    this.signature = signature;
    redraw(
      this.element,
      keep,
      ...letters,
      model.kept.length === 0 ? make('span', { class: 'hint' }, 'Keep a tuning, change it, and compare: A against B.') : ''
    );
  }
}
