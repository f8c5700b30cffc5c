// The predicted result as a table, with uncertainty and the change from a kept tuning.

import { choice, make, redraw } from './dom.js';
import { figuresOf } from './figures.js';

export class Results {
  constructor(model) {
    this.model = model;
    this.element = make('div', { class: 'results' });
    model.addEventListener('change', () => this.render());
  }

  render() {
    const { model } = this;
    if (model.prediction === null) return;
    const before = model.before;
    const from =
      model.kept.length > 1
        ? make(
            'label',
            {},
            'Change from ',
            choice(
              model.kept.map(({ letter }) => [letter, letter]),
              model.reference,
              letter => model.compareWith(letter)
            )
          )
        : before
          ? `change from ${before.letter}`
          : '';
    const rows = figuresOf(model, before, model.said).map(row => {
      const name = make('th', { scope: 'row', title: row.tip }, row.name);
      if (row.limitShare !== undefined)
        name.append(
          make(
            'span',
            { class: 'limit', role: 'img', 'aria-label': 'the mark stands at half of the yield strength' },
            make('span', { class: row.limitShare > 0.5 ? 'reached over' : 'reached', 'data-share': Math.min(1, row.limitShare) }),
            make('span', { class: 'half' })
          )
        );
      return make(
        'tr',
        { class: row.isDetail ? 'detail' : '' },
        name,
        make('td', { class: 'value' }, row.value, before ? make('small', { class: 'sure-below' }, row.uncertainty) : null),
        before ? make('td', { class: 'change' }, row.change) : null,
        make('td', { class: 'sure' }, row.uncertainty)
      );
    });
    for (const bar of rows.flatMap(row => [...row.querySelectorAll('.reached')])) bar.style.width = `${100 * bar.dataset.share}%`;
    const cautions = model.prediction.cautions.map(text => make('li', {}, text));
    redraw(
      this.element,
      make(
        'table',
        { class: before ? 'compared' : '' },
        make(
          'thead',
          {},
          make(
            'tr',
            {},
            make('th', { scope: 'col' }, make('h2', { id: 'results-title' }, 'Predicted result')),
            make('th', { scope: 'col', class: 'value' }, make('span', { class: 'hidden' }, 'value')),
            before ? make('th', { scope: 'col', class: 'change' }, from) : null,
            make('th', { scope: 'col', class: 'sure' }, 'uncertainty')
          )
        ),
        make('tbody', {}, ...rows)
      ),
      cautions.length > 0 ? make('ul', { class: 'caution' }, ...cautions) : ''
    );
  }
}
