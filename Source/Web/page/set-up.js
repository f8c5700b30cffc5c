// Set up: shell, heads, wires, stick, each by name; the numbers that a drum tech measures.

import { button, choice, make, redraw } from './dom.js';
import { inches, setInches } from './lengths.js';
import { restore, store } from './storage.js';

const same = (a, b) => JSON.stringify(a) === JSON.stringify(b);
const { round } = Math;

export class SetUp {
  constructor(model, presets, instrument) {
    Object.assign(this, { model, presets, instrument, channels: restore()?.channels ?? 2 });
    instrument.setChannels(this.channels);
    this.element = make('form', { class: 'set-up', 'aria-label': 'Set up', onsubmit: event => event.preventDefault() });
    model.addEventListener('change', () => this.render());
  }

  #change(members) {
    this.model.begin();
    this.model.edit(members);
  }

  #number(label, value, { min, max, step, unit }, set) {
    return make(
      'label',
      { class: 'field' },
      make('span', {}, label),
      make(
        'span',
        { class: 'with-unit' },
        make('input', {
          type: 'number',
          value,
          min,
          max,
          step,
          inputmode: 'decimal',
          onchange: event => {
            const typed = Number(event.target.value);
            if (Number.isFinite(typed)) set(Math.min(max, Math.max(min, typed)));
          }
        }),
        unit
      )
    );
  }

  #select(label, pairs, chosen, set) {
    return make('label', { class: 'field' }, make('span', {}, label), choice(pairs, chosen, set));
  }

  /** A part by name. `named` is [{ name, description, part }]; what is in the drum file may be a name or the part itself. */
  #part(label, key, named, fallback) {
    const now = this.model.drum[key] ?? fallback;
    const found = named.find(({ name, part }) => now === name || same(now, part));
    const pairs = named.map(({ name, description }) => [name, description]);
    if (!found) pairs.unshift(['', typeof now === 'string' ? now : (now?.name ?? 'as in the file')]);
    return this.#select(label, pairs, found?.name ?? '', name => {
      if (name) this.#change({ [key]: name });
    });
  }

  render() {
    const { model, presets } = this;
    if (model.prediction === null || this.element.hidden) return;
    const signature = JSON.stringify([model.drum, model.lugs, this.channels]);
    if (signature === this.signature) return;
    this.signature = signature;
    const { drum } = model.prediction,
      heads = presets.heads.map(({ name, description, head }) => ({ name, description, part: head }));
    const wires =
      typeof model.drum.wires === 'string' ? (presets.wires.find(({ name }) => name === model.drum.wires)?.wires ?? {}) : (model.drum.wires ?? {});
    const namedWires = presets.wires.map(({ name, description, wires: part }) => ({ name, description, part }));
    const groups = [
      [
        'Drum',
        this.#number('Diameter', inches(drum, 'diameter'), { min: 4, max: 59, step: 0.5, unit: ' in' }, value =>
          this.#change(setInches('diameter', value))
        ),
        this.#number('Depth', inches(drum, 'depth'), { min: 1, max: 78, step: 0.25, unit: ' in' }, value => this.#change(setInches('depth', value))),
        this.#number('Lugs', drum.lugs, { min: 4, max: 16, step: 1, unit: '' }, value => this.#change({ lugs: round(value) })),
        this.#select(
          'Shell',
          presets.materials.map(name => [name, name]),
          drum.shell.material,
          material => this.#change({ shell: { ...drum.shell, material } })
        ),
        this.#select(
          'Hoops',
          presets.hoops.map(({ name, description }) => [name, description]),
          (presets.hoops.find(hoop => [hoop.name, hoop.former_name].includes(model.drum.hoop)) ?? presets.hoops[0]).name,
          hoop => this.#change({ hoop })
        )
      ],
      [
        'Heads',
        this.#part('Batter', 'batter', heads, model.prediction.drum.batter),
        model.hasResonant && this.#part('Resonant', 'resonant', heads, model.prediction.drum.resonant),
        (model.lugs.batter || model.lugs.resonant) &&
          make(
            'p',
            { class: 'row' },
            'Lugs as measured. ',
            button('Make all lugs even', () => {
              model.begin();
              model.setLugs('batter', null);
              model.setLugs('resonant', null);
            })
          )
      ],
      model.hasResonant && [
        'Wires',
        make(
          'label',
          { class: 'check' },
          make('input', {
            type: 'checkbox',
            checked: wires.strainer !== 'off',
            onchange: event => this.#change({ wires: { ...wires, strainer: event.target.checked ? 'on' : 'off' } })
          }),
          'Wires on'
        ),
        this.#part('Set of wires', 'wires', namedWires, namedWires.find(({ name }) => name === 'strands-20')?.name),
        this.#number(
          'Strainer tension per strand',
          wires.strand_tension_n ?? presets.usual_strand_tension_n,
          { min: 0.05, max: 30, step: 0.05, unit: ' N' },
          value => this.#change({ wires: { ...wires, strand_tension_n: value } })
        )
      ],
      [
        'Stick',
        this.#part(
          'Stick',
          'stick',
          presets.sticks.map(({ name, description, stick }) => ({ name, description, part: stick })),
          'hickory-medium'
        )
      ],
      ['Muffling', this.#muffling()],
      ['Place', ...this.#place()],
      [
        'Air',
        this.#number('Temperature', model.drum.air?.temperature_c ?? 20, { min: -20, max: 50, step: 1, unit: ' °C' }, value =>
          this.#change({ air: { temperature_c: value } })
        )
      ]
    ];
    redraw(
      this.element,
      ...groups.filter(Boolean).map(([title, ...fields]) => make('fieldset', {}, make('legend', {}, title), ...fields.filter(Boolean)))
    );
  }

  /** Where it is played and heard; with one, how the listener hears. */
  #place() {
    const { model, presets } = this,
      now = model.drum.place;
    const found = presets.places.find(({ name, place }) => now === name || same(now, place));
    const pairs = [['none', 'none'], ...presets.places.map(({ name, description }) => [name, description])];
    if (now && !found) pairs.unshift(['', now.name ?? 'as in the file']);
    const where = this.#select('Heard in', pairs, now ? (found?.name ?? '') : 'none', name => {
      if (name) this.#change({ place: name === 'none' ? undefined : name });
    });
    const channels = [
      ['2', 'two channels (stereo)'],
      ['1', 'one channel (mono)']
    ];
    return now ? [where, this.#select('Listener', channels, String(this.channels), count => this.#listenWith(Number(count)))] : [where];
  }

  #listenWith(channels) {
    this.channels = channels;
    store({ channels });
    this.instrument.setChannels(channels);
    this.render();
  }

  #muffling() {
    const items = this.model.drum.muffling ?? [];
    const kinds = [
      ['none', 'none', []],
      ['gel', 'gel near the edge, 3 g', [{ shape: 'patch', head: 'batter', size_mm: 30, distance_mm: 120, mass_g: 3 }]],
      [
        'two',
        'two gels near the edge',
        [
          { shape: 'patch', head: 'batter', size_mm: 30, distance_mm: 120, mass_g: 3 },
          { shape: 'patch', head: 'batter', size_mm: 30, distance_mm: 120, angle_deg: 90, mass_g: 3 }
        ]
      ],
      ['ring', 'ring along the rim, 25 mm', [{ shape: 'ring', head: 'batter', size_mm: 25, mass_g: 8 }]]
    ];
    const found = kinds.find(([, , list]) => same(list, items));
    const pairs = kinds.map(([key, label]) => [key, label]);
    if (!found) pairs.unshift(['', 'as in the file']);
    return this.#select('On the batter', pairs, found?.[0] ?? '', key => {
      const chosen = kinds.find(kind => kind[0] === key);
      if (chosen) this.#change({ muffling: chosen[2].length > 0 ? chosen[2] : undefined });
    });
  }
}
