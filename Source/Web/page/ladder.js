// The pitch ladder: the notes of both heads, the interval between them as a distance, the drum's modes beside. Everything with a
// filled tag is a handle: dragged by touch or mouse, moved by the arrow keys, typed after Enter.

import { draw, drawingScale, make } from './dom.js';
import { draggedNote, PitchScale, rangeFor, spreadLabels } from './ladder-geometry.js';
import { hertzOfMidi, intervalName, intervals, isNatural, midiOfHertz, noteName, readInterval, readNote, spokenNote, withSign, writtenInterval } from './notes.js';

const lowest = 24,
  highest = 96; // MIDI: what the handles offer; the solver says what a head can reach
const pillHeight = 46,
  labelHeight = 38,
  gapHeight = 54;

const nameOfMode = ({ m, n }) => `(${m},${n})`;
const semitone = 2 ** (1 / 12);

/** Modes that share a label, highest first: uneven lugs split a mode into two that beat. */
function labelsOf(modes) {
  const labels = [];
  for (const mode of modes) {
    const last = labels.at(-1)?.[0];
    const isPartner =
      last &&
      nameOfMode(last) === nameOfMode(mode) &&
      last.head_correlation > 0 === mode.head_correlation > 0 &&
      last.frequency_hz < semitone * mode.frequency_hz;
    if (isPartner) labels.at(-1).push(mode);
    else labels.push([mode]);
  }
  return labels;
}

export class Ladder {
  /** @param ask  opens a field to type a value: ask(title, text, accept) where accept returns a sentence about what cannot be read
      @param onRest  called after a change, when the hand rests */
  constructor(model, ask, onRest) {
    this.model = model;
    this.ask = ask;
    this.onRest = onRest;
    this.isFine = false;
    this.held = null;
    this.range = null;
    this.svg = draw('svg', { class: 'ladder', role: 'group', 'aria-label': 'Pitch ladder' });
    this.back = draw('g', { 'aria-hidden': 'true' });
    this.handles = {
      batter: this.#handle(
        'batter',
        'Batter tap note',
        midi => model.setNote('batter', midi),
        () => model.notes.batter
      ),
      resonant: this.#handle(
        'resonant',
        'Resonant tap note',
        midi => model.setNote('resonant', midi),
        () => model.notes.resonant
      ),
      gap: this.#handle(
        'gap',
        'Interval, both heads together',
        midi => model.moveTo(midi),
        () => model.notes.batter
      ),
      drum: this.#handle(
        'drum',
        'Drum note, both heads together',
        midi => model.setDrumNote(midi),
        () => model.drumNote
      )
    };
    this.svg.append(this.back, this.handles.gap.group, this.handles.batter.group, this.handles.resonant.group, this.handles.drum.group);
    this.fine = make(
      'button',
      { type: 'button', class: 'fine', 'aria-pressed': 'false', onclick: () => this.#setFine(!this.isFine) },
      'Drag by cents'
    );
    this.strikes = make('input', { type: 'checkbox', checked: true });
    this.element = make(
      'div',
      { class: 'ladder-frame' },
      this.svg,
      make(
        'div',
        { class: 'ladder-tools' },
        this.fine,
        make('label', { class: 'check' }, this.strikes, 'Strike after a change'),
        make('span', { class: 'hint' }, 'Drag a note or the interval, or press Enter to type it.')
      )
    );
    new ResizeObserver(() => this.render()).observe(this.svg);
    model.addEventListener('change', () => this.render());
  }

  #setFine(isFine) {
    this.isFine = isFine;
    this.fine.setAttribute('aria-pressed', String(isFine));
  }

  #handle(kind, label, set, get) {
    const shape = draw('path', { class: `fill ${kind}` }),
      name = draw('text', { class: 'name' }),
      detail = draw('text', { class: 'detail' });
    const group = draw(
      'g',
      {
        class: `handle ${kind}`,
        role: 'slider',
        tabindex: 0,
        'aria-label': label,
        'aria-valuemin': lowest,
        'aria-valuemax': highest,
        'aria-orientation': 'vertical'
      },
      shape,
      name,
      detail
    );
    const move = midi => set(Math.min(highest, Math.max(lowest, midi)));
    group.addEventListener('pointerdown', event => {
      if (event.button !== 0 || get() === null) return;
      event.preventDefault();
      group.focus({ preventScroll: true });
      group.setPointerCapture(event.pointerId);
      this.model.begin();
      this.held = { kind, y: event.clientY, grabbed: get(), last: get() };
    });
    group.addEventListener('pointermove', event => {
      if (this.held?.kind !== kind) return;
      const midi = draggedNote(this.held.grabbed, (this.held.y - event.clientY) / this.zoom, this.scale, this.isFine || event.shiftKey);
      if (midi !== this.held.last) move((this.held.last = midi));
    });
    for (const end of ['pointerup', 'pointercancel'])
      group.addEventListener(end, () => {
        const hasMoved = this.held !== null && this.held.last !== this.held.grabbed;
        this.held = null;
        this.render();
        if (hasMoved) this.#rest(0);
      });
    group.addEventListener('keydown', event => {
      const direction = { ArrowUp: 1, ArrowRight: 1, ArrowDown: -1, ArrowLeft: -1 }[event.key];
      if (direction) {
        event.preventDefault();
        this.model.begin();
        const from = get(),
          step = this.isFine || event.shiftKey ? 0.01 : 1;
        // Semitones go to whole notes first, as a drag does.
        move(step === 1 ? (direction > 0 ? Math.floor(from + 1e-6) + 1 : Math.ceil(from - 1e-6) - 1) : Math.round(100 * from + direction) / 100);
        this.#rest(400);
      } else if (event.key === 'Enter') {
        event.preventDefault();
        this.#type(kind, label);
      }
    });
    group.addEventListener('dblclick', () => this.#type(kind, label));
    return { group, shape, name, detail };
  }

  #rest(after) {
    clearTimeout(this.resting);
    if (this.strikes.checked) this.resting = setTimeout(this.onRest, after);
  }

  #type(kind, label) {
    const { model } = this;
    const isGap = kind === 'gap';
    const now = isGap ? writtenInterval(model.interval) : noteName(kind === 'drum' ? model.drumNote : model.notes[kind]);
    this.ask(isGap ? 'Interval' : label, now, text => {
      const value = isGap ? readInterval(text) : readNote(text, model.a4);
      if (Number.isNaN(value)) return isGap ? 'Type an interval such as P4, fifth, or +5.5 st.' : 'Type a note such as G#3, Ab3 +12, or 207.65 Hz.';
      model.begin();
      if (isGap) model.setInterval(value);
      else if (kind === 'drum') model.setDrumNote(value);
      else model.setNote(kind, value);
      this.#rest(0);
      return '';
    });
  }

  render() {
    const box = this.svg.getBoundingClientRect();
    this.zoom = drawingScale();
    const width = box.width / this.zoom,
      height = box.height / this.zoom;
    if (width === 0 || this.model.prediction === null) return;
    const { model } = this;
    this.svg.setAttribute('viewBox', `0 0 ${width} ${height}`);
    const isNarrow = width < 420;
    const pill = isNarrow ? 78 : 96;
    const space = isNarrow ? 6 : Math.min(56, Math.max(12, (width - 2 * pill - 250) / 2));
    const left = isNarrow ? 30 : 38;
    const batterRail = left + 2 + pill / 2,
      resonantRail = model.hasResonant ? batterRail + pill + space : batterRail;
    const namesLeft = resonantRail + pill / 2 + 5,
      modesLeft = namesLeft + (isNarrow ? 24 : 34),
      tick = isNarrow ? 12 : 24;
    this.place = {
      width,
      height,
      isNarrow,
      pill,
      left,
      batterRail,
      resonantRail,
      namesLeft,
      modesLeft,
      tick,
      labelLeft: modesLeft + tick + (isNarrow ? 5 : 12)
    };
    this.range = rangeFor(this.#notesToShow(), this.range, this.held !== null);
    this.scale = new PitchScale(this.range.low, this.range.high, 14, height - 14);

    this.back.replaceChildren(...this.#drawScale(), ...this.#drawDistance(), ...this.#drawModes());
    this.#placeNote('batter', model.notes.batter, batterRail);
    this.handles.resonant.group.style.display = this.handles.gap.group.style.display = model.hasResonant ? '' : 'none';
    if (model.hasResonant) {
      this.#placeNote('resonant', model.notes.resonant, resonantRail);
      this.#placeGap();
    }
  }

  #mainModes(prediction) {
    const { breathing, rocking } = prediction.pairs;
    const hertz = [breathing.lower_hz, breathing.upper_hz, rocking.lower_hz, rocking.upper_hz].filter(value => value !== null);
    return hertz
      .map(value => prediction.modes.find(mode => mode.frequency_hz === value))
      .filter(Boolean)
      .sort((a, b) => b.frequency_hz - a.frequency_hz);
  }

  #notesToShow() {
    const { model } = this,
      notes = [model.notes.batter, model.notes.resonant ?? model.notes.batter];
    for (const prediction of [model.prediction, model.before?.prediction])
      if (prediction) {
        notes.push(...this.#mainModes(prediction).map(mode => midiOfHertz(mode.frequency_hz, model.a4)));
        for (const head of Object.values(prediction.heads)) notes.push(midiOfHertz(head.tap_note_hz, model.a4));
      }
    return notes;
  }

  #drawScale() {
    const { left, width, namesLeft, batterRail, isNarrow } = this.place,
      drawn = [];
    const isDense = this.scale.pixelsPerSemitone < 15;
    for (let midi = Math.ceil(this.range.low); midi <= this.range.high; ++midi) {
      const y = this.scale.yOf(midi),
        isC = midi % 12 === 0;
      drawn.push(draw('line', { x1: left, x2: width, y1: y, y2: y, class: isC ? 'line octave' : isNatural(midi) ? 'line' : 'line faint' }));
      if (isC || (isNatural(midi) && (!isDense || [2, 5, 7, 9].includes(midi % 12))))
        drawn.push(draw('text', { x: left - 6, y: y + 5, class: isC ? 'scale octave' : 'scale' }, noteName(midi)));
    }
    drawn.push(draw('line', { x1: batterRail, x2: batterRail, y1: 8, y2: this.place.height - 8, class: 'rail batter' }));
    if (!this.model.hasResonant) return drawn;
    drawn.push(draw('line', { x1: this.place.resonantRail, x2: this.place.resonantRail, y1: 8, y2: this.place.height - 8, class: 'rail resonant' }));
    const size = Math.round(Math.abs(this.model.interval)),
      isAbove = this.model.interval >= 0;
    for (const { short, semitones } of intervals) {
      const midi = this.model.notes.batter + (isAbove ? semitones : -semitones);
      if (midi < this.range.low + 0.3 || midi > this.range.high - 0.3 || (isDense && ![0, 5, 7, 12, size].includes(semitones))) continue;
      drawn.push(
        draw(
          'text',
          { x: namesLeft + (isNarrow ? 0 : 4), y: this.scale.yOf(midi) + 5, class: semitones === size ? 'interval chosen' : 'interval' },
          short
        )
      );
    }
    return drawn;
  }

  /** The interval as an area between the rails, and where the kept tuning's heads were. */
  #drawDistance() {
    const { model, scale } = this,
      { batterRail, resonantRail, pill } = this.place,
      drawn = [];
    if (model.hasResonant) {
      const from = scale.yOf(model.notes.batter),
        to = scale.yOf(model.notes.resonant);
      drawn.push(
        draw('rect', { x: batterRail, width: resonantRail - batterRail, y: Math.min(from, to), height: Math.abs(from - to), class: 'distance' }),
        draw('line', { x1: batterRail, x2: resonantRail, y1: from, y2: from, class: 'reach batter' }),
        draw('line', { x1: batterRail, x2: resonantRail, y1: to, y2: to, class: 'reach resonant' })
      );
    }
    const before = model.before?.prediction;
    if (before)
      for (const [side, rail] of [
        ['batter', batterRail],
        ['resonant', resonantRail]
      ])
        if (before.heads[side] && (side === 'batter' || model.hasResonant)) {
          const y = scale.yOf(midiOfHertz(before.heads[side].tap_note_hz, model.a4));
          drawn.push(draw('rect', { x: rail - pill / 2, width: pill, y: y - pillHeight / 2, height: pillHeight, rx: 6, class: 'former' }));
        }
    return drawn;
  }

  #drawModes() {
    const { model, scale } = this,
      { modesLeft, tick, labelLeft, width } = this.place,
      drawn = [];
    const main = this.#mainModes(model.prediction),
      drumNote = model.prediction.drum_note_hz;
    const yOf = mode => scale.yOf(midiOfHertz(mode.frequency_hz, model.a4));
    for (const mode of model.prediction.modes) {
      const y = yOf(mode);
      if (y > 8 && y < this.place.height - 8 && !main.includes(mode))
        drawn.push(draw('line', { x1: modesLeft, x2: modesLeft + tick / 2, y1: y, y2: y, class: 'mode minor' }));
    }
    for (const mode of model.before ? this.#mainModes(model.before.prediction) : []) {
      const now = main.find(other => nameOfMode(other) === nameOfMode(mode) && other.head_correlation > 0 === mode.head_correlation > 0);
      const y = yOf(mode);
      drawn.push(draw('line', { x1: modesLeft, x2: modesLeft + tick, y1: y, y2: y, class: 'mode former' }));
      if (now && Math.abs(yOf(now) - y) > 5) {
        const x = modesLeft + tick / 2,
          to = yOf(now),
          head = to < y ? 6 : -6;
        drawn.push(draw('path', { d: `M${x} ${y}V${to}M${x - 4} ${to + head}L${x} ${to}L${x + 4} ${to + head}`, class: 'mode arrow' }));
      }
    }
    const named = width - labelLeft < 100 ? main.filter(mode => mode.frequency_hz === drumNote) : main;
    const labels = labelsOf(named),
      middles = spreadLabels(
        labels.map(([mode]) => yOf(mode)),
        labelHeight,
        8,
        this.place.height - 8
      );
    main.forEach(mode => {
      const y = yOf(mode);
      drawn.push(draw('line', { x1: modesLeft, x2: modesLeft + tick, y1: y, y2: y, class: 'mode main' }));
    });
    this.handles.drum.group.style.display = named.some(mode => mode.frequency_hz === drumNote) ? '' : 'none';
    labels.forEach(([mode, partner], i) => {
      const y = yOf(mode),
        middle = middles[i];
      drawn.push(draw('line', { x1: modesLeft + tick, x2: labelLeft - 3, y1: y, y2: middle, class: 'mode lead' }));
      if (mode.frequency_hz === drumNote) this.#placeDrumNote(middle);
      else
        drawn.push(
          draw(
            'text',
            { x: labelLeft, y: middle - 3, class: 'mode name' },
            `${nameOfMode(mode)} ${noteName(Math.round(midiOfHertz(mode.frequency_hz, model.a4)))}`
          ),
          draw(
            'text',
            { x: labelLeft, y: middle + 13, class: 'mode detail' },
            partner
              ? `beats at ${(mode.frequency_hz - partner.frequency_hz).toFixed(1)} Hz`
              : `${mode.frequency_hz.toFixed(0)} Hz` +
                  (model.hasResonant && width - labelLeft > 130 ? `, ${mode.head_correlation > 0 ? 'in phase' : 'opposed'}` : '')
          )
        );
    });
    return drawn;
  }

  #write(kind, x, y, name, detail, midi, spoken) {
    const handle = this.handles[kind];
    handle.name.textContent = name;
    handle.detail.textContent = detail;
    for (const text of [handle.name, handle.detail]) text.setAttribute('x', x);
    handle.name.setAttribute('y', y - 1);
    handle.detail.setAttribute('y', y + 16);
    handle.group.setAttribute('aria-valuenow', midi.toFixed(2));
    handle.group.setAttribute('aria-valuetext', spoken);
  }

  #placeNote(side, midi, rail) {
    const { pill } = this.place,
      y = this.scale.yOf(midi),
      isBatter = side === 'batter',
      nose = 8,
      h = pillHeight / 2;
    const from = rail - pill / 2,
      to = rail + pill / 2;
    // A tag whose point shows the pitch: the batter's points right, the resonant head's left, towards each other.
    this.handles[side].shape.setAttribute(
      'd',
      isBatter
        ? `M${from + 5} ${y - h}H${to - nose}L${to} ${y}L${to - nose} ${y + h}H${from + 5}Q${from} ${y + h} ${from} ${y + h - 5}V${y - h + 5}Q${from} ${y - h} ${from + 5} ${y - h}Z`
        : `M${to - 5} ${y - h}H${from + nose}L${from} ${y}L${from + nose} ${y + h}H${to - 5}Q${to} ${y + h} ${to} ${y + h - 5}V${y - h + 5}Q${to} ${y - h} ${to - 5} ${y - h}Z`
    );
    const hertz = hertzOfMidi(midi, this.model.a4);
    this.#write(
      side,
      rail + (isBatter ? -nose / 2 : nose / 2),
      y,
      noteName(midi),
      `${hertz.toFixed(1)} Hz`,
      midi,
      `${spokenNote(midi)}, ${hertz.toFixed(1)} hertz`
    );
  }

  #placeGap() {
    const { model, scale } = this,
      { batterRail, resonantRail, pill } = this.place;
    const from = scale.yOf(model.notes.batter),
      to = scale.yOf(model.notes.resonant);
    const hasRoom = Math.abs(from - to) > pillHeight + gapHeight + 8;
    // Between the notes; below both where they are too close, above where the ladder ends.
    let y = (from + to) / 2;
    if (!hasRoom) {
      y = Math.max(from, to) + (pillHeight + gapHeight) / 2 + 6;
      if (y > this.place.height - gapHeight / 2 - 4) y = Math.min(from, to) - (pillHeight + gapHeight) / 2 - 6;
    }
    const middle = (batterRail + resonantRail) / 2,
      half = (resonantRail - batterRail + pill) / 2;
    this.handles.gap.shape.setAttribute(
      'd',
      `M${middle - half + 5} ${y - gapHeight / 2}h${2 * half - 10}q5 0 5 5v${gapHeight - 10}q0 5 -5 5h${10 - 2 * half}q-5 0 -5 -5v${10 - gapHeight}q0 -5 5 -5z`
    );
    const name = intervalName(model.interval);
    const whole = Math.abs(model.interval - Math.round(model.interval)) < 0.005;
    this.#write(
      'gap',
      middle,
      y,
      name,
      `${withSign(model.interval, whole ? 0 : 2)} st  ×${(2 ** (model.interval / 12)).toFixed(3)}`,
      model.notes.batter,
      `${name}; batter ${spokenNote(model.notes.batter)}, resonant ${spokenNote(model.notes.resonant)}`
    );
    this.handles.gap.name.classList.toggle('long', name.length > (this.place.isNarrow ? 14 : 18));
  }

  #placeDrumNote(y) {
    const { labelLeft, width } = this.place,
      h = labelHeight / 2 + 3,
      right = Math.min(width - 2, labelLeft + 132),
      midi = this.model.drumNote;
    this.handles.drum.shape.setAttribute('d', `M${labelLeft - 2} ${y}l8 ${-h}H${right - 5}q5 0 5 5V${y + h - 5}q0 5 -5 5H${labelLeft + 6}Z`);
    this.#write(
      'drum',
      (labelLeft + right) / 2 + 3,
      y,
      noteName(midi),
      right - labelLeft > 126 ? `${this.model.prediction.drum_note_hz.toFixed(0)} Hz, drum note` : 'drum note',
      midi,
      `${spokenNote(midi)}, ${this.model.prediction.drum_note_hz.toFixed(1)} hertz`
    );
  }
}
