// The heads: both from above and the drum cut through, moving as they do after a stroke, slowed down. The batter head is struck
// by touching it.

import { colours, drawingScale, make, wantsLessMotion } from './dom.js';
import { inches } from './lengths.js';
import { Lugs } from './lugs.js';
import { CutShape, frameTime, Motion, PlanShape } from './motion.js';
import { grouped } from './notes.js';

const pictureSize = 72;
const shownFor = 7; // s in which the first 60 ms are seen
const gestureWindow = 90; // ms at the end of a flick that count
const tapDistance = 25, // mm from the edge to where a head is tapped beside a lug
  restOfDrag = 150; // ms without a move
const softest = 0.25,
  hardest = 10; // m/s

/** Strength of a flick: a tap that does not move is a light stroke. */
export function speedOfGesture(pixelsPerMillisecond) {
  return Math.min(hardest, Math.max(softest, 0.8 * (1 + 4 * pixelsPerMillisecond) ** 1.2));
}

export class Heads {
  /** @param strike  called with { position, angle, speed } when the head is touched
      @param onTuned  called when a lug that was moved rests, to play a stroke at `place` */
  constructor(model, strike, onTuned) {
    Object.assign(this, {
      model,
      onStrike: strike,
      onTuned,
      speed: 3,
      isByGesture: false,
      place: { position: 0.25, angle: 0.6 },
      motion: null,
      frame: 0,
      picture: null
    });
    this.section = make('canvas', {
      class: 'section',
      role: 'img',
      'aria-label': 'Cross-section of the drum: both heads as they move after a stroke'
    });
    this.batter = make('canvas', {
      class: 'head',
      tabindex: 0,
      role: 'button',
      'aria-label': 'Batter head from above. Press Enter to strike it; arrow keys move the place.'
    });
    this.resonant = make('canvas', { class: 'head', role: 'img', 'aria-label': 'Resonant head from above' });
    this.caption = make('p', { class: 'caption' });
    this.lugs = Object.fromEntries(['batter', 'resonant'].map(side => [side, new Lugs(model, side, (lug, isLast) => this.#lugMoved(side, lug, isLast))]));
    const figure = side =>
      make('figure', { class: side }, make('figcaption', {}, side), make('div', { class: 'head-frame' }, this[side], this.lugs[side].element));
    this.element = make(
      'div',
      { class: 'heads' },
      make('div', { class: 'section-frame' }, this.caption, this.section),
      figure('batter'),
      figure('resonant')
    );
    this.#listen();
    const observer = new ResizeObserver(() => this.draw());
    for (const canvas of [this.section, this.batter, this.resonant]) observer.observe(canvas);
    model.addEventListener('change', () => this.#refresh());
    this.#sayHow();
  }

  /** Whether the speed of a stroke is that of a flick, or the slider's. */
  setByGesture(isByGesture) {
    this.isByGesture = isByGesture;
    this.#sayHow();
  }

  #sayHow() {
    this.#say(`${this.isByGesture ? 'Flick the batter head: the faster, the harder.' : 'Touch the batter head to strike it.'} Drag a lug up to tune it higher.`);
  }

  #say(text) {
    if (this.caption.textContent !== text) this.caption.textContent = text;
  }

  #listen() {
    const { batter } = this;
    const placeOf = event => {
      const box = batter.getBoundingClientRect(),
        zoom = drawingScale(),
        radius = zoom * this.#circle(box.width / zoom).radius;
      const x = event.clientX - box.left - box.width / 2,
        y = event.clientY - box.top - box.height / 2;
      const r = Math.hypot(x, y) / radius;
      return r > 1.12 ? null : { position: Math.min(0.98, r), angle: Math.atan2(y, x) };
    };
    let path = [];
    batter.addEventListener('pointerdown', event => {
      const place = placeOf(event);
      if (event.button !== 0 || place === null) return;
      this.place = place;
      if (!this.isByGesture) {
        const factor = event.shiftKey ? 3 : event.altKey ? 1 / 3 : 1;
        return this.#strike(Math.min(hardest, this.speed * factor));
      }
      batter.setPointerCapture(event.pointerId);
      path = [event];
      this.draw();
    });
    batter.addEventListener('pointermove', event => {
      if (path.length > 0) path.push(event);
    });
    batter.addEventListener('pointerup', event => {
      if (path.length === 0) return;
      const late = path.filter(point => event.timeStamp - point.timeStamp < gestureWindow),
        first = late.length > 1 ? late[0] : (path.at(-2) ?? path[0]);
      const time = Math.max(1, event.timeStamp - first.timeStamp);
      this.#strike(speedOfGesture(Math.hypot(event.clientX - first.clientX, event.clientY - first.clientY) / time));
      path = [];
    });
    batter.addEventListener('pointercancel', () => {
      path = [];
    });
    batter.addEventListener('keydown', event => {
      const x = this.place.position * Math.cos(this.place.angle),
        y = this.place.position * Math.sin(this.place.angle);
      const by = { ArrowLeft: [-0.05, 0], ArrowRight: [0.05, 0], ArrowUp: [0, -0.05], ArrowDown: [0, 0.05] }[event.key];
      if (by) {
        event.preventDefault();
        this.place = { position: Math.min(0.98, Math.hypot(x + by[0], y + by[1])), angle: Math.atan2(y + by[1], x + by[0]) };
        this.draw();
      } else if (event.key === 'Enter' || event.key === ' ') {
        event.preventDefault();
        this.#strike(this.speed);
      }
    });
  }

  /** The stroke that follows lands where one taps to hear the lug. */
  #lugMoved(side, lug, isLast) {
    const { drum } = this.model.prediction;
    if (side === 'batter') this.place = { position: 1 - tapDistance / (12.7 * inches(drum, 'diameter')), angle: (2 * Math.PI * lug) / drum.lugs };
    clearTimeout(this.resting);
    this.resting = setTimeout(this.onTuned, isLast ? 0 : restOfDrag);
  }

  #strike(speed) {
    this.onStrike({ ...this.place, speed });
  }

  #refresh() {
    if (this.model.shapes !== this.shapes) {
      this.shapes = this.model.shapes;
      this.motion = null;
      if (this.shapes) {
        this.plan = new PlanShape(this.shapes, pictureSize);
        this.alongWires = new CutShape(this.shapes, 0);
        if (this.waiting) this.show(this.waiting);
      }
    }
    this.draw();
  }

  /** Shows the motion after a stroke. */
  show(stroke) {
    this.place = { position: stroke.position, angle: stroke.angle };
    this.waiting = this.shapes ? null : stroke;
    if (!this.shapes) return this.draw();
    const contactTime = (this.model.played?.contact_time_ms ?? 5) / 1000;
    this.motion = new Motion(this.shapes, { ...this.place, contactTime });
    this.alongStroke = new CutShape(this.shapes, this.place.angle);
    this.peak = Math.max(this.motion.peaks(this.alongStroke).batter, this.motion.peaks(this.alongWires).resonant);
    this.started = performance.now();
    if (wantsLessMotion()) {
      this.frame = Math.round(0.006 / frameTime);
      this.#say('Both heads 6 ms after the stroke.');
      this.draw();
    } else if (!this.running) {
      this.running = true;
      requestAnimationFrame(() => this.#animate());
    }
  }

  #animate() {
    const share = (performance.now() - this.started) / 1000 / shownFor;
    if (!this.motion || share >= 1) {
      this.running = false;
      this.motion = null;
      this.#sayHow();
      return this.draw();
    }
    // Slow at first, when most happens.
    this.frame = Math.round(this.motion.count * share ** 1.7);
    this.#say(`${(1000 * this.frame * frameTime).toFixed(0)} ms after the stroke, slowed down`);
    this.draw();
    requestAnimationFrame(() => this.#animate());
  }

  #context(canvas) {
    const pixels = Math.min(2, devicePixelRatio || 1),
      zoom = drawingScale();
    const across = Math.round(canvas.clientWidth * pixels),
      down = Math.round(canvas.clientHeight * pixels);
    if (canvas.width !== across || canvas.height !== down) Object.assign(canvas, { width: across, height: down });
    const width = canvas.clientWidth / zoom,
      height = canvas.clientHeight / zoom;
    const context = canvas.getContext('2d');
    context.setTransform(pixels * zoom, 0, 0, pixels * zoom, 0, 0);
    context.clearRect(0, 0, width, height);
    context.font = `${width < 200 ? 13 : 15}px ${getComputedStyle(document.body).fontFamily}`;
    return { context, width, height };
  }

  #circle(size) {
    return { middle: size / 2, radius: size / 2 - (size < 220 ? 24 : 32) };
  }

  draw() {
    const { prediction } = this.model;
    if (prediction === null) return;
    const colour = colours();
    const field = this.motion ? this.motion.field(this.frame) : null;
    this.#drawSection(colour, field, prediction);
    this.#drawHead('batter', colour, field?.batter, prediction.drum);
    if (this.model.hasResonant) this.#drawHead('resonant', colour, field?.resonant, prediction.drum);
    this.resonant.closest('figure').hidden = !this.model.hasResonant;
  }

  #drawHead(side, colour, field, drum) {
    const { context: c, width } = this.#context(this[side]);
    if (width === 0) return;
    const { middle, radius } = this.#circle(width),
      isBatter = side === 'batter';
    c.fillStyle = colour.sheet;
    c.beginPath();
    c.arc(middle, middle, radius, 0, 2 * Math.PI);
    c.fill();
    if (field) this.#paintField(c, field, middle, radius, colour);
    if (!isBatter) this.#drawWires(c, middle, radius, colour);
    c.lineWidth = 6;
    c.strokeStyle = colour.line;
    c.beginPath();
    c.arc(middle, middle, radius + 4, 0, 2 * Math.PI);
    c.stroke();
    c.lineWidth = 2.5;
    c.strokeStyle = colour[side];
    c.beginPath();
    c.arc(middle, middle, radius, 0, 2 * Math.PI);
    c.stroke();
    c.textAlign = 'center';
    c.textBaseline = 'middle';
    for (let lug = 0; lug < drum.lugs; ++lug) {
      const angle = (2 * Math.PI * lug) / drum.lugs,
        at = r => [middle + r * Math.cos(angle), middle + r * Math.sin(angle)];
      const [x, y] = at(radius + 13);
      const cents = this.model.lugs[side]?.[lug] ?? 0;
      c.fillStyle = cents === 0 ? colour.quiet : colour[side];
      c.save();
      c.translate(x, y);
      c.rotate(angle);
      c.fillRect(-4, -4, 8, 8);
      c.restore();
      // How far off it is: a bar up or down from the lug.
      const bar = Math.max(-9, Math.min(9, cents / 8));
      c.fillRect(x - 1.5, bar > 0 ? y - 4 - bar : y + 4, 3, Math.abs(bar));
      c.fillStyle = lug === 0 ? colour.ink : colour.quiet;
      if (radius > 55 || lug === 0) c.fillText(String(lug + 1), ...at(radius - 13));
    }
    this.lugs[side].place(middle, radius + 13);
    if (!isBatter) return;
    const x = middle + radius * this.place.position * Math.cos(this.place.angle),
      y = middle + radius * this.place.position * Math.sin(this.place.angle);
    c.strokeStyle = colour.ink;
    c.lineWidth = 2;
    c.beginPath();
    c.arc(x, y, 6, 0, 2 * Math.PI);
    c.stroke();
    c.fillStyle = colour.ink;
    c.beginPath();
    c.arc(x, y, 2, 0, 2 * Math.PI);
    c.fill();
  }

  /** Upward in the batter's colour, downward in the resonant head's, as in the window. */
  #paintField(c, field, middle, radius, colour) {
    const values = this.plan.displacement(field);
    this.picture ??= Object.assign(document.createElement('canvas'), { width: pictureSize, height: pictureSize });
    const context = this.picture.getContext('2d'),
      image = context.createImageData(pictureSize, pictureSize);
    const up = rgbOf(colour.batter),
      down = rgbOf(colour.resonant);
    for (let p = 0; p < values.length; ++p) {
      const share = Math.max(-1, Math.min(1, values[p] / this.peak)),
        to = share > 0 ? up : down;
      image.data.set(to, 4 * p);
      image.data[4 * p + 3] = 217 * Math.min(1, 1.6 * Math.abs(share));
    }
    context.putImageData(image, 0, 0);
    c.save();
    c.beginPath();
    c.arc(middle, middle, radius, 0, 2 * Math.PI);
    c.clip();
    c.imageSmoothingEnabled = true;
    c.drawImage(this.picture, middle - radius, middle - radius, 2 * radius, 2 * radius);
    c.restore();
  }

  #drawWires(c, middle, radius, colour) {
    const strands = 10;
    c.strokeStyle = this.model.drum.wires?.strainer === 'off' ? colour.line : colour.quiet;
    c.lineWidth = 1;
    for (let i = 0; i < strands; ++i) {
      const y = middle + (i - (strands - 1) / 2) * radius * 0.024;
      c.beginPath();
      c.moveTo(middle - 0.74 * radius, y);
      c.lineTo(middle + 0.74 * radius, y);
      c.stroke();
    }
  }

  #drawSection(colour, field, prediction) {
    const { context: c, width, height } = this.#context(this.section);
    if (width === 0) return;
    const { drum, heads } = prediction;
    const line = 18,
      proportion = inches(drum, 'depth') / inches(drum, 'diameter');
    let across = width - 60,
      deep = across * proportion;
    const swing = Math.min(26, Math.max(5, 0.13 * height)),
      most = height - 2 * (swing + line + 4);
    if (deep > most) {
      deep = Math.max(20, most);
      across = Math.max(60, deep / proportion);
    }
    const reach = Math.min(swing, 0.42 * deep),
      left = (width - across) / 2,
      top = (height - deep) / 2,
      bottom = top + deep;
    c.fillStyle = colour.soft;
    c.fillRect(left, top, across, deep);
    c.fillStyle = colour.quiet;
    for (const x of [left - 5, left + across]) c.fillRect(x, top + 3, 5, deep - 6);
    for (const x of [left - 14, left + across + 8]) {
      c.fillRect(x, top - 7, 6, 17);
      if (this.model.hasResonant) c.fillRect(x, bottom - 10, 6, 17);
    }
    const head = (side, y, cut) => {
      const values = field ? cut.displacement(field[side]) : new Float32Array(81);
      c.beginPath();
      values.forEach((value, i) => {
        const x = left + (across * i) / (values.length - 1),
          at = y - reach * Math.max(-1, Math.min(1, value / (this.peak ?? 1)));
        if (i === 0) c.moveTo(x, at);
        else c.lineTo(x, at);
      });
      c.strokeStyle = colour[side];
      c.lineWidth = side === 'batter' ? 3 : 2;
      c.stroke();
      c.lineTo(left + across, y);
      c.lineTo(left, y);
      c.globalAlpha = 0.18;
      c.fillStyle = colour[side];
      c.fill();
      c.globalAlpha = 1;
    };
    if (this.model.hasResonant) {
      head('resonant', bottom, this.alongWires);
      c.setLineDash([2, 2]);
      c.strokeStyle = colour.ink;
      c.lineWidth = 2;
      const below = bottom + (this.model.drum.wires?.strainer === 'off' ? 13 : 5);
      c.beginPath();
      c.moveTo(left + 0.07 * across, below);
      c.lineTo(left + 0.93 * across, below);
      c.stroke();
      c.setLineDash([]);
    }
    head('batter', top, this.alongStroke ?? this.alongWires);
    c.textBaseline = 'middle';
    c.textAlign = 'left';
    const write = (text, y, fill, isBold) => {
      c.font = `${isBold ? 'bold ' : ''}15px ${getComputedStyle(document.body).fontFamily}`;
      c.fillStyle = fill;
      c.fillText(text, left + 8, y);
    };
    write(`batter  ${grouped(heads.batter.tension_n_per_m)} N/m`, top - reach - line / 2 - 2, colour.batter, true);
    if (deep > 2 * reach + line)
      write(`${inches(drum, 'diameter')} × ${inches(drum, 'depth')} in, ${drum.shell.material}`, top + deep / 2, colour.quiet, false);
    if (heads.resonant)
      write(`resonant  ${grouped(heads.resonant.tension_n_per_m)} N/m`, bottom + Math.max(reach, 16) + line / 2 + 2, colour.resonant, true);
  }
}

/** [r, g, b] of "#rrggbb". */
function rgbOf(hex) {
  return [1, 3, 5].map(at => parseInt(hex.slice(at, at + 2), 16));
}
