// The lugs around a head, each a slider: dragged up, or with keys, the head sounds higher beside it.

import { drawingScale, make } from './dom.js';
import { withSign } from './notes.js';

export const most = 200; // cents from the head's note, as in the window
const even = 3; // cents: a drag that comes so near to 0 ends there
const centsPerPixel = 1;

export class Lugs {
  /** @param side    "batter" or "resonant"
      @param onMoved called with the lug, from 0, while it moves, and with true at the end of the move */
  constructor(model, side, onMoved) {
    Object.assign(this, { model, side, onMoved, handles: [] });
    this.element = make('div', {
      class: 'lugs',
      role: 'group',
      'aria-label': `Lugs of the ${side} head: the left and right arrows choose one, up and down tune it, Delete makes it even`
    });
  }

  /** Cents of each lug over the head's note. */
  get cents() {
    const count = this.model.prediction.drum.lugs;
    return this.model.lugs[this.side] ?? Array(count).fill(0);
  }

  /** Puts the handles around a head of this middle and radius, in pixels of the drawing. */
  place(middle, radius) {
    const { cents } = this,
      zoom = drawingScale();
    if (this.handles.length !== cents.length) {
      this.handles = cents.map((_, lug) => this.#make(lug));
      this.element.replaceChildren(...this.handles);
    }
    this.handles.forEach((handle, lug) => {
      const angle = (2 * Math.PI * lug) / cents.length;
      handle.style.left = `${zoom * (middle + radius * Math.cos(angle))}px`;
      handle.style.top = `${zoom * (middle + radius * Math.sin(angle))}px`;
      handle.setAttribute('aria-valuenow', cents[lug].toFixed(1));
      handle.setAttribute('aria-valuetext', cents[lug] === 0 ? 'even' : `${withSign(cents[lug], 1)} cents`);
      handle.title = `${this.side} lug ${lug + 1}: ${cents[lug] === 0 ? 'even' : `${withSign(cents[lug], 1)} cents`}`;
    });
  }

  #make(lug) {
    const handle = make('span', {
      class: 'lug',
      role: 'slider',
      tabindex: lug === 0 ? 0 : -1,
      'aria-orientation': 'vertical',
      'aria-label': `${this.side} lug ${lug + 1}`,
      'aria-valuemin': -most,
      'aria-valuemax': most,
      'aria-valuenow': 0
    });
    let grabbed = null;
    handle.addEventListener('pointerdown', event => {
      if (event.button !== 0) return;
      event.preventDefault();
      this.#focus(lug);
      handle.setPointerCapture(event.pointerId);
      grabbed = { y: event.clientY, cents: this.cents[lug] };
      this.model.begin();
    });
    handle.addEventListener('pointermove', event => {
      if (!grabbed) return;
      const cents = grabbed.cents + centsPerPixel * (grabbed.y - event.clientY);
      this.#set(lug, Math.abs(cents) < even && !event.altKey ? 0 : cents, false);
    });
    for (const end of ['pointerup', 'pointercancel'])
      handle.addEventListener(end, () => {
        if (grabbed) this.onMoved(lug, true);
        grabbed = null;
      });
    handle.addEventListener('dblclick', () => this.#step(lug, -this.cents[lug]));
    handle.addEventListener('keydown', event => {
      const { cents } = this,
        by = event.shiftKey ? 1 : 5;
      const turn = { ArrowUp: by, ArrowDown: -by, PageUp: 20, PageDown: -20, Delete: -cents[lug] }[event.key],
        to = { ArrowRight: lug + 1, ArrowLeft: lug - 1, Home: 0, End: -1 }[event.key];
      if (turn === undefined && to === undefined) return;
      event.preventDefault();
      event.stopPropagation();
      if (turn !== undefined) this.#step(lug, turn);
      else this.#focus((to + cents.length) % cents.length);
    });
    return handle;
  }

  #focus(lug) {
    this.handles.forEach((handle, other) => handle.setAttribute('tabindex', other === lug ? 0 : -1));
    this.handles[lug].focus({ preventScroll: true });
  }

  #step(lug, by) {
    this.model.begin();
    this.#set(lug, this.cents[lug] + by, true);
  }

  #set(lug, value, isLast) {
    const cents = [...this.cents];
    cents[lug] = Math.round(10 * Math.min(most, Math.max(-most, value))) / 10;
    this.model.setLugs(this.side, cents.some(other => other !== 0) ? cents : null);
    this.onMoved(lug, isLast);
  }
}
