// Strokes and patterns.

import { button, choice, make } from './dom.js';

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

const softest = 0.25,
  hardest = 10; // m/s
const speedOfSlider = share => softest * (hardest / softest) ** share; // equal steps are equal steps in level
const sliderOfSpeed = speed => Math.log(speed / softest) / Math.log(hardest / softest);

export class PlayBar {
  onPlaying = null; // called with true or false when a pattern begins or ends
  onTempo = null; // called with beats a minute when they change

  /** @param player  { strike(stroke), start(pattern, tempo), stop(), setTempo(tempo), save(pattern, tempo) }
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
      make('div', { class: 'row pattern' }, this.#drawChoice(), make('label', {}, 'Tempo ', this.tempoText, ' bpm'), this.play, this.edit, this.save),
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

  #choose(index) {
    this.pattern = this.patterns[index];
    this.#drawStrip();
    if (this.isPlaying) this.player.start(this.pattern, this.tempo);
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
    this.ask('Pattern', this.pattern.text.trim(), text => {
      const wrong = /[^ocherkzd.|1-9\s]/i.exec(text);
      if (wrong || !/[ochrkzde]/i.test(text))
        return `${wrong ? `"${wrong[0]}" is no stroke` : 'There is no stroke'}: o off centre, c centre, h half way, e edge, r rimshot, k cross-stick, z buzz, d double, s sweep and w straight sweep with a brush, - a step more of it, . rest; a digit 1 to 9 says how hard.`;
      this.offer({ ...this.pattern, name: 'Own pattern', text }, this.tempo);
      return '';
    });
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
    for (const [token] of this.pattern.text.matchAll(/[a-z.]\d?|\|/gi)) {
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

  showStep(index) {
    this.cells.forEach((cell, i) => cell.classList.toggle('now', i === index));
  }
}
