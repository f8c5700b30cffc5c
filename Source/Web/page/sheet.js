// The tuning sheet on paper: target, lugs and order, boxes for what is heard, the plan, cautions.

import { byId, draw, make } from './dom.js';
import { figuresOf } from './figures.js';
import { inches } from './lengths.js';
import { lugAngle, viewOf } from './lug-picture.js';
import { hertzOfMidi, intervalName, midiOfHertz, noteName } from './notes.js';
import { isEven, turningLugs } from './work.js';

export function printSheet(model, plan, work, cautions) {
  byId('paper').replaceChildren(...sheetOf(model, plan, work, cautions));
  window.print();
}

function headTable(model, work) {
  const { heads, drum } = model.prediction;
  const row = side =>
    make(
      'tr',
      {},
      make('th', { scope: 'row' }, side),
      make('td', { class: 'big' }, noteName(model.notes[side])),
      make('td', {}, `${hertzOfMidi(model.notes[side], model.a4).toFixed(1)} Hz`),
      make('td', {}, `${heads[side].tension_n_per_m.toFixed(0)} N/m`),
      make('td', {}, `${heads[side].force_per_rod_n.toFixed(0)} N`),
      make('td', {}, `${(100 * heads[side].yield_share).toFixed(0)} %`),
      make('td', {}, drum[side].name ?? ''),
      make('td', {}, work.now[side] === null ? '' : noteName(work.now[side]))
    );
  return make(
    'table',
    {},
    make(
      'thead',
      {},
      make(
        'tr',
        {},
        ...['head', 'tap note', '', 'tension ± 5 %', 'force per rod ± 20 %', 'of yield strength', 'head type', 'heard now'].map(text =>
          make('th', {}, text)
        )
      )
    ),
    make('tbody', {}, row('batter'), model.hasResonant ? row('resonant') : '')
  );
}

/** The lugs with a box for the note heard at each. */
function boxedLugs(side, lugs) {
  const [width, height, radius] = [320, 230, 62];
  const [x0, y0] = [width / 2, height / 2];
  const svg = draw(
    'svg',
    { viewBox: `0 0 ${width} ${height}`, class: 'paper-lugs' },
    draw('circle', { cx: x0, cy: y0, r: radius, class: 'paper-line' }),
    draw('text', { x: x0, y: y0 - 4, class: 'middle' }, side),
    draw('text', { x: x0, y: y0 + 12, class: 'middle small' }, viewOf(side))
  );
  for (let lug = 1; lug <= lugs; ++lug) {
    const angle = lugAngle(lug, lugs, side);
    const [c, s] = [Math.cos(angle), Math.sin(angle)];
    svg.append(
      draw('circle', { cx: x0 + radius * c, cy: y0 + radius * s, r: 4, class: 'paper-dot' }),
      draw('text', { x: x0 + 46 * c, y: y0 + 46 * s + 4, class: 'middle small' }, String(lug)),
      draw('rect', { x: x0 + 105 * c - 25, y: y0 + 90 * s - 13, width: 50, height: 24, class: 'paper-line' })
    );
  }
  return svg;
}

function planOf(plan, a4) {
  const note = hertz => noteName(midiOfHertz(hertz, a4));
  return plan.heads.map(head =>
    make(
      'section',
      {},
      make('h3', {}, `${head.head}: ${note(head.from_hz)} to ${note(head.to_hz)}`),
      make(
        'table',
        {},
        make('thead', {}, make('tr', {}, ...['pass', 'turn', 'tightening order', 'expected note', 'heard', 'done'].map(text => make('th', {}, text)))),
        make(
          'tbody',
          {},
          ...head.passes.map((pass, i) =>
            make(
              'tr',
              {},
              make('td', {}, head.has_test_turn && i === 0 ? 'test turn' : String(i + (head.has_test_turn ? 0 : 1))),
              make(
                'td',
                {},
                isEven(pass)
                  ? `every rod ${pass.turns_text[0]}`
                  : turningLugs(pass)
                      .map(lug => `${lug}: ${pass.turns_text[lug - 1]}`)
                      .join(', ')
              ),
              make('td', {}, pass.order.join(' ')),
              make('td', {}, `${note(pass.tap_note_hz)} ± ${pass.tap_note_error_cents.toFixed(0)} c`),
              make('td', { class: 'box' }),
              make('td', { class: 'box' }, '☐')
            )
          )
        )
      )
    )
  );
}

function sheetOf(model, plan, work, cautions) {
  const { drum } = model.prediction,
    sides = model.hasResonant ? ['batter', 'resonant'] : ['batter'];
  const figures = figuresOf(model, null, model.said).filter(({ isDetail, name }) => !isDetail && !/tension|rod|yield/.test(name));
  return [
    make('h1', {}, `${model.drum.name || 'Drum'}${model.tuningName ? `: ${model.tuningName}` : ''}`),
    make(
      'p',
      {},
      `${inches(drum, 'diameter')} × ${inches(drum, 'depth')} in, ${drum.shell.material}, ${drum.lugs} lugs. ${model.hasResonant ? `Interval: ${intervalName(model.interval)}. ` : ''}Date ____________  Lug 1 is at ${work.lugOne || '______________________'}`
    ),
    headTable(model, work),
    make('div', { class: 'paper-columns' }, ...sides.map(side => boxedLugs(side, drum.lugs))),
    make(
      'dl',
      {},
      ...figures.map(({ name, value, uncertainty }) => make('div', {}, make('dt', {}, name), make('dd', {}, `${value} (${uncertainty})`)))
    ),
    make('p', {}, 'Tap 25 mm from the edge beside each lug, the other head held still, wires off. Write the note of each lug in its box.'),
    ...(plan ? planOf(plan, model.a4) : []),
    make('p', { class: 'lines' }, 'Notes'),
    make('ul', {}, ...[...new Set([...cautions, ...(plan?.cautions ?? [])])].map(text => make('li', {}, text)))
  ];
}
