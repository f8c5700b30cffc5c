// Spectrum and decay of a stroke of the drum as it is, as the page plays it.

import { colours, make } from './dom.js';
import { oneStroke } from './loudness-match.js';
import { grouped } from './notes.js';
import { decayOf, spectrumOf } from './sound-figures.js';

const floor = -60; // dB
const [lowest, highest] = [60, 10000]; // Hz
const margin = { left: 34, right: 8, top: 6, bottom: 20 };

export class SoundView {
  constructor(model, instrument) {
    Object.assign(this, { model, instrument, shown: null });
    const canvas = label => make('canvas', { class: 'sound', role: 'img', 'aria-label': label });
    this.spectrum = canvas('Spectrum of a stroke');
    this.decay = canvas('Decay of a stroke');
    const figure = (title, picture) => make('figure', {}, make('figcaption', { class: 'caption' }, title), picture);
    this.element = make(
      'details',
      { class: 'sounds', ontoggle: () => this.#follow() },
      make('summary', {}, 'Spectrum and decay'),
      figure('Spectrum of a stroke, off centre: level below the strongest part; ticks are the modes', this.spectrum),
      figure('Decay of the same stroke: level below the loudest', this.decay)
    );
    model.addEventListener('change', () => this.#follow());
    new ResizeObserver(() => this.draw()).observe(this.element);
  }

  /** A new drum is played through once its figures are known, which says that a drag rests. */
  async #follow() {
    const { played, drum } = this.model,
      wanted = drum.place ? this.model.inPlace : played;
    if (!this.element.open || !wanted || wanted === this.asked) return;
    this.asked = wanted;
    const report = await this.instrument.sound(this.model.document(), oneStroke).catch(() => null); // the model tells what is wrong with a drum
    if (!report || wanted !== this.asked) return;
    const left = report.samples.filter((_, i) => i % report.channels === 0);
    this.shown = { spectrum: spectrumOf(left, report.rate, { lowest, highest }), decay: decayOf(left, report.rate), modes: this.model.prediction.modes };
    this.#describe();
    this.draw();
  }

  #describe() {
    const { spectrum, decay } = this.shown,
      strongest = spectrum.find(({ decibels }) => decibels === 0),
      below = decay.findLast(({ decibels }) => decibels > -30);
    this.spectrum.setAttribute('aria-label', `Spectrum of a stroke: strongest at ${grouped(strongest.hertz)} Hz.`);
    this.decay.setAttribute('aria-label', `Decay of a stroke: last within 30 dB of its loudest after ${below.seconds.toFixed(2)} s.`);
  }

  draw() {
    if (!this.shown) return;
    const { spectrum, decay, modes } = this.shown;
    this.#plot(
      this.spectrum,
      spectrum.map(({ hertz, decibels }) => [Math.log(hertz / lowest) / Math.log(highest / lowest), decibels]),
      [100, 200, 500, 1000, 2000, 5000].map(hertz => [Math.log(hertz / lowest) / Math.log(highest / lowest), hertz < 1000 ? String(hertz) : `${hertz / 1000} k`]),
      modes.filter(({ is_air_mode: isAir }) => !isAir).map(({ frequency_hz: hertz }) => Math.log(hertz / lowest) / Math.log(highest / lowest))
    );
    this.#plot(
      this.decay,
      decay.map(({ seconds, decibels }) => [seconds / oneStroke.seconds, decibels]),
      [0.3, 0.6, 0.9].map(seconds => [seconds / oneStroke.seconds, `${seconds} s`]),
      []
    );
  }

  /** A line of [share of the width, dB], with marks of the axis and ticks. */
  #plot(canvas, line, marks, ticks) {
    const { clientWidth, clientHeight } = canvas,
      ratio = globalThis.devicePixelRatio || 1,
      colour = colours();
    if (clientWidth === 0) return;
    canvas.width = clientWidth * ratio;
    canvas.height = clientHeight * ratio;
    const g = canvas.getContext('2d'),
      width = clientWidth - margin.left - margin.right,
      height = clientHeight - margin.top - margin.bottom;
    const x = share => margin.left + share * width,
      y = decibels => margin.top + (height * Math.max(floor, decibels)) / floor;
    g.scale(ratio, ratio);
    g.font = '12px "DejaVu Sans", Verdana, sans-serif';
    g.textBaseline = 'middle';
    g.strokeStyle = colour.line;
    g.fillStyle = colour.quiet;
    const grid = (fromX, fromY, toX, toY) => {
      g.beginPath();
      g.moveTo(fromX, fromY);
      g.lineTo(toX, toY);
      g.stroke();
    };
    g.textAlign = 'right';
    for (let decibels = 0; decibels >= floor; decibels -= 20) {
      grid(x(0), y(decibels), x(1), y(decibels));
      g.fillText(decibels === 0 ? '0 dB' : `−${-decibels}`, margin.left - 3, Math.max(8, y(decibels)));
    }
    g.textAlign = 'center';
    for (const [share, text] of marks) {
      grid(x(share), margin.top, x(share), margin.top + height);
      g.fillText(text, x(share), clientHeight - 8);
    }
    g.strokeStyle = colour.drum;
    for (const share of ticks.filter(at => at >= 0 && at <= 1)) grid(x(share), margin.top + height, x(share), margin.top + height - 7);
    g.strokeStyle = colour.ink;
    g.lineWidth = 1.5;
    g.lineJoin = 'round';
    g.beginPath();
    line.forEach(([share, decibels], i) => g[i === 0 ? 'moveTo' : 'lineTo'](x(share), y(decibels)));
    g.stroke();
  }
}
