// Strokes and patterns.

import { parseMidi } from 'midi-file';
import { button, choice, make } from './dom.js';
import { chooseFile } from './drum-files.js';
import { say, warn } from './messages.js';
import { notesOf, partOf, performanceOf } from './midi-part.js';

// Letters and places as in patterns (Score/PatternText).
export const strokes = [
  ['Centre', 'c', { kind: 'tip', position: 0 }],
  ['Off centre', 'o', { kind: 'tip', position: 0.25 }],
  ['Half way', 'h', { kind: 'tip', position: 0.5 }],
  ['Edge', 'e', { kind: 'tip', position: 0.9 }],
  ['Rimshot', 'r', { kind: 'rimshot', position: 0.25 }],
  ['Cross-stick', 'k', { kind: 'cross_stick', position: 0.5 }],
  ['Buzz', 'z', { kind: 'buzz', position: 0.25 }],
  ['Double', 'd', { kind: 'double', position: 0.25 }]
].map(([name, letter, stroke]) => ({ name, letter, stroke }));

const largestMidi = 16_000_000; // bytes, as the program's reader
const longestMeasured = 10; // s of a part by which tunings are brought to one loudness
const softest = 0.25,
  hardest = 10; // m/s
const speedOfSlider = share => softest * (hardest / softest) ** share; // equal steps are equal steps in level
const sliderOfSpeed = speed => Math.log(speed / softest) / Math.log(hardest / softest);

export class PlayBar {
  onPlaying = null; // called with true or false when a pattern begins or ends
  onTempo = null; // called with beats a minute when they change

  #whenEnded = null; // of a pattern that plays once

  /** @param player  { strike(stroke), start(pattern, tempo, repeat), stop(), setTempo(tempo), save(pattern, tempo), check(pattern), readNotes(notes) }
      @param ask  opens a field to type a value, as for Ladder */
  constructor(player, heads, patterns, ask, volume) {
    Object.assign(this, { player, heads, patterns, ask, pattern: patterns[0], tempo: 100, isPlaying: false, isBusy: false });
    this.speed = make('input', {
      type: 'range',
      min: 0,
      max: 1,
      step: 0.01,
      value: sliderOfSpeed(heads.speed),
      'aria-label': 'Stroke speed',
      oninput: () => this.#setSpeed()
    });
    this.speedText = make('output', { class: 'figure' });
    this.gesture = make('input', {
      type: 'checkbox',
      onchange: () => {
        heads.setByGesture(this.gesture.checked);
      }
    });
    this.play = button('Play pattern', () => this.toggle(), { class: 'main', 'aria-pressed': 'false' });
    this.tempoText = make('input', { type: 'number', min: 20, max: 400, value: this.tempo, inputmode: 'numeric', onchange: () => this.#setTempo() });
    this.edit = button('Edit pattern', () => this.#edit());
    this.open = button('Open a MIDI file …', () => this.#openMidi(), { title: 'A part for the snare drum; notes as in General MIDI, such as 38.' });
    this.save = button('Save as WAV', () => this.#save());
    this.strip = make('div', { class: 'steps', 'aria-hidden': 'true' });
    this.element = make(
      'div',
      { class: 'play-bar' },
      make(
        'div',
        { class: 'strokes', role: 'group', 'aria-label': 'Strokes' },
        ...strokes.map(({ name, stroke }, i) =>
          button(name, () => player.strike({ angle: 0.6, ...stroke, speed: heads.speed }), { 'aria-keyshortcuts': String(i + 1) })
        )
      ),
      make(
        'div',
        { class: 'row strength' },
        make('label', { class: 'slider' }, make('span', {}, 'Stroke speed'), this.speed, this.speedText),
        make('label', { class: 'check' }, this.gesture, 'Speed by flicking the head'),
        volume.element
      ),
      make('div', { class: 'row pattern' }, this.#drawChoice(), make('label', {}, 'Tempo ', this.tempoText, ' bpm'), this.play, this.edit, this.open, this.save),
      this.strip
    );
    this.#setSpeed();
    this.#drawStrip();
    document.addEventListener('keydown', event => {
      if (event.ctrlKey || event.altKey || event.metaKey || event.target.closest('input, select, textarea, dialog')) return;
      const stroke = strokes[Number(event.key) - 1];
      if (stroke) player.strike({ angle: 0.6, ...stroke.stroke, speed: heads.speed });
    });
  }

  #setSpeed() {
    this.heads.speed = speedOfSlider(Number(this.speed.value));
    this.speedText.textContent = `${this.heads.speed.toFixed(this.heads.speed < 1 ? 2 : 1)} m/s`;
    this.speed.setAttribute('aria-valuetext', `${this.heads.speed.toFixed(2)} metres per second`);
  }

  #setTempo() {
    this.tempo = Math.min(400, Math.max(20, Number(this.tempoText.value) || 100));
    this.tempoText.value = this.tempo;
    if (this.isPlaying) this.player.setTempo(this.tempo);
    this.onTempo?.(this.tempo);
  }

  /** The pattern, if it comes from a MIDI file; otherwise null. */
  get part() {
    return this.pattern.strokes ? this.pattern : null;
  }

  /** What tunings are brought to one loudness for: the pattern, or the beginning of the part. */
  get measured() {
    return performanceOf(this.pattern, this.tempo, longestMeasured);
  }

  #choose(index) {
    this.pattern = this.patterns[index];
    this.edit.disabled = this.part !== null;
    if (this.part) {
      this.tempoText.value = this.part.tempo;
      this.#setTempo();
    }
    this.#drawStrip();
    if (!this.isPlaying) return;
    this.setPlaying(true);
    this.player.start(this.pattern, this.tempo);
  }

  #drawChoice() {
    const select = make(
      'label',
      {},
      make('span', { class: 'hidden' }, 'Pattern'),
      choice(
        this.patterns.map(({ name }, i) => [String(i), name]),
        '0',
        i => this.#choose(Number(i))
      )
    );
    this.select?.replaceWith(select);
    return (this.select = select);
  }

  /** Puts a pattern before the others and chooses it, in place of one that was offered before. */
  offer(pattern, tempo) {
    this.patterns = [pattern, ...this.patterns.filter(other => other !== this.offered)];
    this.offered = pattern;
    this.#drawChoice();
    this.tempoText.value = tempo;
    this.#setTempo();
    this.#choose(0);
  }

  #edit() {
    this.ask('Pattern', this.pattern.text.trim(), async text => {
      const pattern = { ...this.pattern, name: 'Own pattern', text };
      try {
        await this.player.check(pattern);
      } catch (error) {
        return error.message;
      }
      this.offer(pattern, this.tempo);
      return '';
    });
  }

  async #openMidi() {
    try {
      const file = await chooseFile('.mid,.midi,audio/midi', largestMidi, 'MIDI file');
      if (file) await this.openMidi(file.name, new Uint8Array(await file.arrayBuffer()));
    } catch (error) {
      warn('midi', error);
    }
  }

  /** Offers what a Standard MIDI File plays. Rejects with a sentence if that is nothing. @param bytes  Uint8Array */
  async openMidi(name, bytes) {
    let read;
    try {
      read = notesOf(parseMidi(bytes));
    } catch {
      throw new Error(`${name} is not a MIDI file that can be read; needed: a Standard MIDI File, such as a sequencer exports.`);
    }
    const { strokes, remarks } = await this.player.readNotes(read.notes);
    const part = partOf(name.replace(/\.midi?$/i, ''), strokes, read.tempo);
    this.offer(part, part.tempo);
    say('midi', remarks.length > 0 ? `${name}: ${remarks.join('; ')}.` : '');
  }

  /** Plays the pattern or part once. Resolves when it ends, or is stopped. */
  playOnce() {
    this.setPlaying(true);
    return new Promise(resolve => {
      this.#whenEnded = resolve;
      this.player.start(this.pattern, this.tempo, false);
    });
  }

  /** Stops what plays. */
  end() {
    if (this.isPlaying) this.toggle();
  }

  toggle() {
    this.setPlaying(!this.isPlaying);
    if (this.isPlaying) this.player.start(this.pattern, this.tempo);
    else this.player.stop();
  }

  setPlaying(isPlaying) {
    this.isPlaying = isPlaying;
    this.play.textContent = isPlaying ? 'Stop' : 'Play pattern';
    this.play.setAttribute('aria-pressed', String(isPlaying));
    this.#whenEnded?.();
    this.#whenEnded = null;
    if (!isPlaying) this.showStep(-1);
    this.onPlaying?.(isPlaying);
  }

  async #save() {
    if (this.isBusy) return;
    this.isBusy = true;
    this.save.textContent = 'Calculating …';
    await this.player.save(this.pattern, this.tempo);
    this.save.textContent = 'Save as WAV';
    this.isBusy = false;
  }

  #drawStrip() {
    this.cells = [];
    this.strip.replaceChildren();
    if (this.part) return this.strip.append(make('span', { class: 'length' }, `${this.part.strokes.length} strokes in ${this.part.beats} beats`));
    for (const [token] of this.pattern.text.matchAll(/[a-z.-]\d?|\|/gi)) {
      if (token === '|') {
        this.strip.append(make('span', { class: 'bar-line' }));
        continue;
      }
      const cell = make('span', { class: token[0] === '.' ? 'rest' : 'step' });
      if (token[0] !== '.') cell.style.height = `${30 + 7 * Number(token[1] ?? 6)}%`;
      this.cells.push(cell);
      this.strip.append(cell);
    }
  }

  /** @param index  of the step that begins; -1 when a pattern that plays once has ended */
  showStep(index) {
    if (index < 0 && this.#whenEnded) this.setPlaying(false);
    this.cells.forEach((cell, i) => cell.classList.toggle('now', i === index));
  }
}
