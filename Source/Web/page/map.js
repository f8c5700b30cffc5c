// The map: interval over batter note. Shading and contours say what each tuning gives; a touch tunes there and plays.

import { button, choice, colours, make } from './dom.js';
import { contoursOf, frameOf, highestInterval, lowestInterval, MapGrid } from './map-geometry.js';
import { Wishes } from './wishes.js';
import { intervalName, intervals, isNatural, midiOfHertz, noteName, spokenNote } from './notes.js';

const steps = [200, 100]; // cents between the tunings that are solved: a rough map first
const shadingSize = { columns: 180, rows: 120 };
const margin = { left: 36, right: 4, top: 4, bottom: 22 };
const { max, min, round } = Math;
const rounded = midi => round(100 * midi) / 100;

/** What the map depends on, the modes: not names, tunings, place, and what plays and hears the drum. */
const drumOf = ({ name, tunings, place, wires, hoop, stick, microphones, pattern, window, ...drum }) => drum;

export class MapView {
  /** @param strike      plays one stroke of the drum as it is, unless something plays
      @param playInTurn  plays a list of { document, label } one after the other */
  constructor(model, instrument, { strike, playInTurn }) {
    Object.assign(this, { model, instrument, strike, grid: null, drumOfGrid: '', figure: 'drumNote', wanted: null, toStrike: false, marks: [] });
    this.wishes = new Wishes(model, instrument, { hear: spot => this.#hear(spot), playInTurn, onFound: () => this.#found() });
    this.canvas = make('canvas', {
      class: 'map',
      tabindex: 0,
      role: 'slider',
      'aria-label': 'Map of tunings: batter note and interval',
      'aria-describedby': 'map-help',
      'aria-valuemin': 0,
      'aria-valuemax': 127
    });
    this.reading = make('p', { class: 'map-reading' });
    this.along = button('Keep the drum note', () => this.#setAlong(!this.isAlong), { 'aria-pressed': 'false' });
    this.status = make('p', { class: 'hint', role: 'status' });
    this.element = make(
      'div',
      { class: 'map-page' },
      make(
        'div',
        { class: 'row' },
        make(
          'label',
          { class: 'row' },
          'Shade by',
          choice(
            [
              ['drumNote', 'drum note'],
              ['ring', 'ring']
            ],
            'drumNote',
            figure => this.#shadeBy(figure)
          )
        ),
        this.along
      ),
      this.reading,
      this.canvas,
      this.status,
      make(
        'p',
        { class: 'hint', id: 'map-help' },
        'Click or touch a tuning to hear it; drag to hear those on the way. Arrow keys move by a semitone, with Shift by 10 cents; Enter strikes. With ' +
          '“Keep the drum note”, or the Alt key, you move along a contour: the interval changes, the drum note stays. Dashed: half of a head’s yield strength.'
      ),
      this.wishes.element
    );
    this.#listen();
    model.addEventListener('change', () => this.#changed());
    new ResizeObserver(() => this.draw()).observe(this.canvas);
  }

  /** The map is computed while it is seen. */
  setShown(isShown) {
    this.isShown = isShown;
    this.#changed();
  }

  get isComplete() {
    return this.grid !== null && this.grid === this.finest;
  }

  get spot() {
    return { batter: this.model.notes.batter, interval: this.model.interval };
  }

  #setAlong(isAlong) {
    this.isAlong = isAlong;
    this.along.setAttribute('aria-pressed', String(isAlong));
  }

  #shadeBy(figure) {
    this.figure = figure;
    this.draw();
  }

  #changed() {
    const { model } = this;
    if (model.prediction === null) return;
    if (this.toStrike && model.isSettled) {
      this.toStrike = false;
      if (!model.trouble) this.strike();
    }
    this.#advance();
    if (!this.isShown) return;
    this.canvas.hidden = this.along.disabled = !model.hasResonant;
    if (!model.hasResonant) {
      this.reading.textContent = 'The map needs a drum with two heads.';
      this.status.textContent = '';
      return;
    }
    const drum = JSON.stringify([drumOf(model.drum), model.a4]);
    if (drum !== this.drumOfGrid) this.#make(drum);
    this.#found();
    this.#markTunings();
    this.#read(this.pointed ?? this.spot);
    this.draw();
  }

  /** Solves the map column by column. Other requests go in between; a change of the drum ends it. */
  async #make(drum) {
    this.drumOfGrid = drum;
    this.grid = this.finest = this.picture = null;
    this.wishes.startHere();
    const { model } = this,
      document = model.document(),
      { a4 } = model;
    try {
      for (const step of steps) {
        const beyond = step / 50; // two steps in semitones: the corners around every tuning in view
        const reach = { lowest: lowestInterval - beyond, highest: highestInterval + beyond };
        let grid = null;
        for (let column = 0; column < (grid?.batter.length ?? 1); ++column) {
          // The first answer says which batter notes there are; those below the frame are left out.
          const answer = await this.instrument.mapColumn(document, column, step, reach);
          if (answer === null || drum !== this.drumOfGrid) return;
          if (grid === null) {
            grid = new MapGrid(answer, a4);
            this.frame = frameOf(answer, a4);
            column = max(0, grid.batter.findLastIndex(midi => midi < this.frame.lowestBatter) - 1);
          }
          grid.add(answer);
          if (step !== steps[0]) continue;
          this.grid = grid;
          this.picture = null;
          this.status.textContent = 'The map is being computed.';
          this.draw();
        }
        this.grid = grid;
        this.picture = null;
        if (step === steps.at(-1)) {
          this.finest = grid;
          this.#found();
        }
        this.status.textContent = this.isComplete ? '' : 'The map is being refined.';
        this.#read(this.pointed ?? this.spot);
        this.draw();
      }
    } catch (error) {
      if (drum === this.drumOfGrid) this.status.textContent = `There is no map of this drum: ${error.message}`;
    }
  }

  /** Looks for what is wished once the map is complete, and shows where the wishes are met. */
  #found() {
    const { lowestBatter, highestBatter } = this.frame ?? {};
    const frame = { ...shadingSize, lowest_batter: lowestBatter, highest_batter: highestBatter, lowest_interval: lowestInterval, highest_interval: highestInterval };
    this.wishes.follow(this.isComplete ? frame : null, steps.at(-1));
    if (this.picture?.found !== this.wishes.found) this.draw();
  }

  /** The file's tunings as points: their notes are those of their predictions. */
  async #markTunings() {
    const { model } = this,
      list = JSON.stringify([this.drumOfGrid, model.tunings]);
    if (list === this.marked) return;
    this.marked = list;
    this.marks = [];
    for (const tuning of model.tunings) {
      const prediction = await this.instrument.predict({ ...model.drum, tunings: [tuning] }).catch(() => null);
      if (list !== this.marked) return;
      if (prediction?.heads.resonant) this.marks.push({ label: tuning.name ?? '', spot: this.#spotOfHeads(prediction.heads), colour: 'quiet' });
      this.draw();
    }
  }

  #spotOfHeads({ batter, resonant }) {
    const [low, high] = [batter, resonant].map(head => midiOfHertz(head.tap_note_hz, this.model.a4));
    return { batter: low, interval: high - low };
  }

  // Tuning

  /** Tunes to a tuning from the list. */
  #hear(spot) {
    this.isNewGesture = true;
    this.#tune(spot);
  }

  /** Tunes to a spot as soon as the solver has done the one before. */
  #tune(spot) {
    const isPossible = this.grid.whyNot(spot) === '';
    this.pointed = isPossible ? null : spot; // why not stays to be read after the finger is lifted
    if (!isPossible) return this.#read(spot);
    if (this.isNewGesture) this.model.begin();
    this.isNewGesture = false;
    this.wanted = spot;
    this.#advance();
  }

  #advance() {
    if (!this.wanted || !this.model.isSettled) return;
    const { batter, interval } = this.wanted;
    this.wanted = null;
    this.toStrike = true;
    this.model.setNotes(rounded(batter), rounded(batter + interval));
  }

  /** The tuning on the contour through `from` with another batter note, or null. */
  #onContour(from, batter) {
    const here = this.grid?.at(from),
      interval = here ? this.grid.intervalFor(batter, here.drumNote) : null;
    return interval === null ? null : { batter, interval };
  }

  #listen() {
    const { canvas } = this;
    canvas.addEventListener('pointerdown', event => {
      if (event.button !== 0 || !this.grid || !this.#isInside(event)) return;
      event.preventDefault();
      canvas.focus({ preventScroll: true });
      canvas.setPointerCapture(event.pointerId);
      this.isNewGesture = true;
      this.held = this.spot;
      this.#follow(event);
    });
    canvas.addEventListener('pointermove', event => {
      if (!this.grid) return;
      if (this.held) return this.#follow(event);
      this.pointed = this.#isInside(event) ? this.#spotAt(event) : null;
      this.#read(this.pointed ?? this.spot);
    });
    for (const end of ['pointerup', 'pointercancel']) canvas.addEventListener(end, () => (this.held = null));
    canvas.addEventListener('pointerleave', event => {
      if (this.held || event.pointerType !== 'mouse') return;
      this.pointed = null;
      this.#read(this.spot);
    });
    canvas.addEventListener('keydown', event => {
      if (event.ctrlKey || event.metaKey || !this.grid) return;
      if (event.key === 'Enter') {
        event.preventDefault();
        return this.strike();
      }
      const size = event.shiftKey ? 0.1 : 1,
        across = { ArrowRight: size, ArrowLeft: -size }[event.key] ?? 0,
        up = { ArrowUp: size, ArrowDown: -size }[event.key] ?? 0;
      if (!across && !up) return;
      event.preventDefault();
      const { batter, interval } = this.wanted ?? this.spot;
      const spot = this.isAlong || event.altKey ? this.#onContour({ batter, interval }, batter + (across || up)) : { batter: batter + across, interval: interval + up };
      if (!spot) return (this.reading.textContent = 'No tuning further on has this drum note.');
      this.isNewGesture = true;
      this.#tune(this.#nearest(spot));
    });
  }

  #follow(event) {
    const spot = this.#spotAt(event);
    if (!this.isAlong && !event.altKey) return this.#tune(spot);
    const along = this.#onContour(this.held, spot.batter);
    if (along) this.#tune(along);
  }

  #nearest({ batter, interval }) {
    const { lowestBatter, highestBatter } = this.frame;
    return { batter: min(highestBatter, max(lowestBatter, batter)), interval: min(highestInterval, max(lowestInterval, interval)) };
  }

  #words({ batter, interval }) {
    return `Batter ${noteName(rounded(batter))}, resonant ${noteName(rounded(batter + interval))}: ${intervalName(rounded(interval))}`;
  }

  /** What a tuning gives, to read and for a screen reader. The present one's figures are those of its own solution. */
  #read(spot) {
    const { model } = this;
    if (!model.hasResonant) return;
    const isPresent = spot.batter === model.notes.batter && spot.interval === model.interval && model.isSettled;
    const figures = isPresent
      ? { drumNote: model.prediction.drum_note_hz, ring: model.prediction.drum_note_t60_s }
      : (this.grid?.at(spot) ?? null);
    const why = this.grid?.whyNot(spot);
    const note = figures && rounded(midiOfHertz(figures.drumNote, model.a4));
    this.reading.textContent =
      this.#words(spot) +
      (why ? `: ${why}.` : figures ? `. Drum note ${noteName(note)}, ${figures.drumNote.toFixed(1)} Hz; rings ${figures.ring.toFixed(2)} s, wires off.` : '.');
    if (!isPresent) return;
    this.canvas.setAttribute('aria-valuenow', spot.batter.toFixed(2));
    this.canvas.setAttribute(
      'aria-valuetext',
      `batter ${spokenNote(spot.batter)}, ${intervalName(rounded(spot.interval))}; drum note ${spokenNote(note)}, rings ${figures.ring.toFixed(2)} seconds`
    );
  }

  // Drawing

  /** The plot in pixels of the page. */
  get #plot() {
    const { clientWidth, clientHeight } = this.canvas;
    return { x: margin.left, y: margin.top, width: clientWidth - margin.left - margin.right, height: clientHeight - margin.top - margin.bottom };
  }

  #pointOf({ batter, interval }) {
    const plot = this.#plot,
      { lowestBatter, highestBatter } = this.frame;
    return [
      plot.x + (plot.width * (batter - lowestBatter)) / (highestBatter - lowestBatter),
      plot.y + (plot.height * (highestInterval - interval)) / (highestInterval - lowestInterval)
    ];
  }

  #spotOf(x, y) {
    const plot = this.#plot,
      { lowestBatter, highestBatter } = this.frame;
    return {
      batter: lowestBatter + ((highestBatter - lowestBatter) * (x - plot.x)) / plot.width,
      interval: highestInterval - ((highestInterval - lowestInterval) * (y - plot.y)) / plot.height
    };
  }

  #spotAt({ clientX, clientY }) {
    const box = this.canvas.getBoundingClientRect();
    return this.#nearest(this.#spotOf(clientX - box.left, clientY - box.top));
  }

  #isInside({ clientX, clientY }) {
    const box = this.canvas.getBoundingClientRect(),
      plot = this.#plot,
      x = clientX - box.left - plot.x,
      y = clientY - box.top - plot.y;
    return x >= 0 && x <= plot.width && y >= 0 && y <= plot.height;
  }

  /** Shading, contours and regions that cannot be had: made once for a grid, a figure and a theme. */
  #makePicture(colour) {
    const { grid, figure } = this,
      { found } = this.wishes,
      cells = this.#measure();
    return {
      shading: this.#shade(cells, found?.mask, colour),
      contours: contoursOf(grid, this.frame),
      regions: regionsOf(cells),
      found,
      key: `${figure} ${colour.sheet}`
    };
  }

  /** Row by row from the highest interval down: { spot, value: logarithm of the figure that shades, or NaN; why: it cannot be had }. */
  #measure() {
    const { columns, rows } = shadingSize,
      { grid, figure } = this,
      plot = this.#plot;
    return Array.from({ length: rows * columns }, (_, i) => {
      const column = i % columns,
        row = Math.floor(i / columns);
      const spot = this.#spotOf(plot.x + (plot.width * (column + 0.5)) / columns, plot.y + (plot.height * (row + 0.5)) / rows);
      const figures = grid.at(spot);
      return { spot, value: figures ? Math.log(figures[figure]) : NaN, why: grid.whyNot(spot) };
    });
  }

  /** A picture of the cells: stronger where the figure is higher, dimmed where the mask is 0. */
  #shade(cells, mask, colour) {
    const { columns, rows } = shadingSize,
      shading = new OffscreenCanvas(columns, rows),
      context = shading.getContext('2d'),
      image = context.createImageData(columns, rows);
    const sheet = partsOf(colour.sheet),
      drum = partsOf(colour.drum),
      grey = mixed(partsOf(colour.line), partsOf(colour.paper), 0.35);
    const values = cells.map(({ value }) => value).filter(value => !Number.isNaN(value)),
      least = values.reduce((a, b) => min(a, b), Infinity),
      most = values.reduce((a, b) => max(a, b), -Infinity);
    const colourOf = ({ value, why }, i) => {
      if (Number.isNaN(value)) return why ? grey : sheet;
      if (mask && !mask[i]) return mixed(sheet, grey, 0.25);
      return mixed(sheet, drum, 0.06 + 0.6 * (most > least ? (value - least) / (most - least) : 0.5));
    };
    cells.forEach((cell, i) => image.data.set([...colourOf(cell, i), 255], 4 * i));
    context.putImageData(image, 0, 0);
    return shading;
  }

  draw() {
    const { canvas, model } = this,
      { clientWidth, clientHeight } = canvas;
    if (!this.isShown || clientWidth === 0) return;
    const ratio = globalThis.devicePixelRatio || 1,
      colour = colours();
    canvas.width = clientWidth * ratio;
    canvas.height = clientHeight * ratio;
    const g = canvas.getContext('2d');
    g.scale(ratio, ratio);
    g.font = `${clientWidth < 480 ? 11 : 13}px "DejaVu Sans", Verdana, sans-serif`;
    g.textBaseline = 'middle';
    const plot = this.#plot;
    if (!this.grid) {
      g.fillStyle = colour.quiet;
      g.textAlign = 'center';
      return g.fillText('The map is being computed', clientWidth / 2, clientHeight / 2);
    }
    if (this.picture?.key !== `${this.figure} ${colour.sheet}` || this.picture.found !== this.wishes.found) this.picture = this.#makePicture(colour);
    g.imageSmoothingQuality = 'high';
    g.drawImage(this.picture.shading, plot.x, plot.y, plot.width, plot.height);
    g.save();
    g.beginPath();
    g.rect(plot.x, plot.y, plot.width, plot.height);
    g.clip();
    this.#drawHalves(g, colour);
    this.#drawContours(g, colour);
    this.#drawRegions(g, colour);
    g.restore();
    this.#drawAxes(g, colour);
    for (const mark of this.marks) this.#drawMark(g, colour, { ...mark, isBelow: true });
    for (const { letter, document, prediction } of model.kept) {
      if (JSON.stringify(drumOf(document)) !== JSON.stringify(drumOf(model.drum)) || !prediction.heads.resonant) continue;
      this.#drawMark(g, colour, { label: letter, spot: this.#spotOfHeads(prediction.heads), colour: 'batter' });
    }
    this.#drawHere(g, colour);
  }

  #drawContours(g, colour) {
    const semitone = this.#plot.width / (this.frame.highestBatter - this.frame.lowestBatter),
      labels = [],
      names = this.marks.map(({ label, spot }) => {
        const [x, y] = this.#pointOf(spot);
        return { left: x - 6, right: x + 8 + g.measureText(label).width, middle: y + 10 };
      }),
      isFree = ([x, y]) =>
        labels.every(([otherX, otherY]) => Math.hypot(otherX - x, otherY - y) >= 26) &&
        names.every(({ left, right, middle }) => x + 13 < left || x - 13 > right || Math.abs(y - middle) > 16);
    for (const { midi, points } of this.picture.contours) {
      g.strokeStyle = colour.ink;
      g.globalAlpha = isNatural(midi) ? 0.55 : 0.2;
      g.lineWidth = isNatural(midi) ? 1.2 : 0.8;
      g.beginPath();
      points.forEach((spot, i) => (i === 0 ? g.moveTo(...this.#pointOf(spot)) : g.lineTo(...this.#pointOf(spot))));
      g.stroke();
      if (!isNatural(midi) || (semitone < 14 && ![0, 5].includes(midi % 12))) continue;
      const at = [0.4, 0.55, 0.25].map(share => this.#pointOf(points[Math.floor(points.length * share)])).find(isFree);
      if (at) labels.push([...at, noteName(midi)]);
    }
    g.textAlign = 'center';
    for (const [x, y, name] of labels) {
      g.globalAlpha = 0.8;
      g.fillStyle = colour.sheet;
      g.fillRect(x - 13, y - 8, 26, 16);
      g.globalAlpha = 1;
      g.fillStyle = colour.ink;
      g.fillText(name, x, y);
    }
    g.globalAlpha = 1;
  }

  /** Where a head reaches half of its yield strength. */
  #drawHalves(g, colour) {
    const { grid } = this;
    g.strokeStyle = colour.caution;
    g.lineWidth = 1.5;
    g.setLineDash([5, 4]);
    g.beginPath();
    for (const interval of [lowestInterval, highestInterval])
      g[interval === lowestInterval ? 'moveTo' : 'lineTo'](...this.#pointOf({ batter: grid.batterHalf, interval }));
    for (const interval of [lowestInterval, highestInterval])
      g[interval === lowestInterval ? 'moveTo' : 'lineTo'](...this.#pointOf({ batter: grid.resonantHalf - interval, interval }));
    g.stroke();
    g.setLineDash([]);
  }

  #drawRegions(g, colour) {
    const plot = this.#plot;
    g.fillStyle = colour.quiet;
    g.textAlign = 'center';
    for (const region of this.picture.regions) {
      if (region.share < 0.01) continue;
      const [x, y] = this.#pointOf(region);
      // The widest setting that fits into the region; where none does, a touch there tells.
      for (const width of [200, 92, 50]) {
        const lines = wrapped(g, region.why, width),
          half = max(...lines.map(line => g.measureText(line).width)) / 2 + 3;
        const middle = min(plot.x + plot.width - half, max(plot.x + half, x));
        const top = min(plot.y + plot.height - 16 * lines.length, max(plot.y + 10, y - 8 * (lines.length - 1)));
        const isIn = (across, down) => this.grid.whyNot(this.#spotOf(across, down)) === region.why;
        const corners = [middle - half, middle + half].flatMap(across => [top - 8, top + 16 * lines.length - 8].map(down => [across, down]));
        if (!corners.every(corner => isIn(...corner))) continue;
        lines.forEach((line, i) => g.fillText(line, middle, top + 16 * i));
        break;
      }
    }
  }

  #drawAxes(g, colour) {
    const plot = this.#plot,
      { lowestBatter, highestBatter } = this.frame;
    g.fillStyle = colour.quiet;
    g.strokeStyle = colour.line;
    g.lineWidth = 1;
    g.strokeRect(plot.x, plot.y, plot.width, plot.height);
    const semitone = plot.width / (highestBatter - lowestBatter),
      every = semitone >= 30 ? 1 : semitone >= 16 ? 2 : semitone >= 8 ? 4 : 6;
    g.textAlign = 'center';
    for (let midi = Math.ceil(lowestBatter); midi <= highestBatter; ++midi)
      if (midi % every === 0) {
        const [x] = this.#pointOf({ batter: midi, interval: 0 });
        g.fillRect(x, plot.y + plot.height, 1, 4);
        if (x > plot.x + 12 && x < plot.x + plot.width - 12) g.fillText(noteName(midi), x, plot.y + plot.height + 13);
      }
    const isDense = plot.height / (highestInterval - lowestInterval) < 16;
    g.textAlign = 'right';
    for (let interval = lowestInterval; interval <= highestInterval; ++interval) {
      if (isDense && ![-5, 0, 4, 7, 12].includes(interval)) continue;
      const [, y] = this.#pointOf({ batter: lowestBatter, interval });
      g.fillRect(plot.x - 4, y - 0.5, 4, 1);
      g.fillText(
        (interval < 0 ? '−' : '') + intervals[Math.abs(interval)].short,
        plot.x - 6,
        min(plot.y + plot.height - 6, max(plot.y + 7, y))
      );
    }
  }

  /** A tuning with a name: of the file, or kept. */
  #drawMark(g, colour, { label, spot, colour: rim, isBelow = false }) {
    const [x, y] = this.#pointOf(spot);
    if (this.#spotIsOutside(spot)) return;
    g.fillStyle = colour.sheet;
    g.strokeStyle = colour[rim];
    g.lineWidth = 2;
    g.beginPath();
    g.arc(x, y, 5, 0, 7);
    g.fill();
    g.stroke();
    g.fillStyle = colour.ink;
    g.textAlign = 'left';
    g.fillText(label, x + 8, isBelow ? y + 10 : y - 8);
  }

  #drawHere(g, colour) {
    const spot = this.wanted ?? this.spot;
    if (this.#spotIsOutside(spot)) return;
    const [x, y] = this.#pointOf(spot);
    for (const [style, size] of [
      [colour.sheet, 5],
      [colour.ink, 2.2]
    ]) {
      g.strokeStyle = style;
      g.lineWidth = size;
      g.beginPath();
      g.arc(x, y, 8, 0, 7);
      for (const [dx, dy] of [
        [1, 0],
        [-1, 0],
        [0, 1],
        [0, -1]
      ]) {
        g.moveTo(x + 4 * dx, y + 4 * dy);
        g.lineTo(x + 13 * dx, y + 13 * dy);
      }
      g.stroke();
    }
  }

  #spotIsOutside(spot) {
    const { batter, interval } = this.#nearest(spot);
    return Math.abs(batter - spot.batter) > 1e-6 || Math.abs(interval - spot.interval) > 1e-6;
  }
}

/** Where tunings cannot be had, by the reason: { why, batter, interval: its middle, share: of all cells }. */
function regionsOf(cells) {
  const regions = new Map();
  for (const { spot, why } of cells)
    if (why) {
      const sum = regions.get(why) ?? { batter: 0, interval: 0, count: 0 };
      regions.set(why, { batter: sum.batter + spot.batter, interval: sum.interval + spot.interval, count: sum.count + 1 });
    }
  return [...regions].map(([why, { batter, interval, count }]) => ({ why, batter: batter / count, interval: interval / count, share: count / cells.length }));
}

/** [red, green, blue] of "#f4f1ea". */
const partsOf = colour => [1, 3, 5].map(at => parseInt(colour.slice(at, at + 2), 16));
const mixed = (from, to, share) => from.map((part, i) => part + share * (to[i] - part));

function wrapped(g, text, width) {
  const lines = [''];
  for (const word of text.split(' ')) {
    const longer = `${lines.at(-1)} ${word}`.trim();
    if (lines.at(-1) === '' || g.measureText(longer).width <= width) lines[lines.length - 1] = longer;
    else lines.push(word);
  }
  return lines;
}
