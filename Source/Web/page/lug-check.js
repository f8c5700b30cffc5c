// The lug check: tap beside each lug in turn; the phone's microphone hears the notes, or a person types them.

import { button, make, redraw } from './dom.js';
import { lugPicture } from './lug-picture.js';
import { say } from './messages.js';
import { midiOfHertz, noteName, withSign } from './notes.js';

export class LugCheck {
  fits = { batter: null, resonant: null };

  /** @param actions  { use(side, fit), apply(side, fit) } */
  constructor(model, instrument, actions) {
    Object.assign(this, {
      model,
      instrument,
      actions,
      side: 'batter',
      isListening: false,
      isTyping: false,
      isAnalysing: false,
      state: null,
      trouble: '',
      typed: []
    });
    this.element = make('section', { class: 'card lug-check', 'aria-label': 'Lug check' });
    instrument.addEventListener('listening', ({ detail }) => this.#take(detail));
  }

  async #start() {
    this.trouble = '';
    this.isTyping = false;
    try {
      await this.instrument.startLugCheck(this.model.document(), this.side);
      this.state = { next: 1, heard: [], remark: '', is_silent: false };
      await this.instrument.startMicrophone();
      this.isListening = true;
    } catch (error) {
      this.trouble = error.message;
    }
    this.render();
  }

  stop() {
    if (!this.isListening) return;
    this.instrument.stopMicrophone();
    this.isListening = false;
    this.render();
  }

  #take(state) {
    if (!this.isListening) return;
    this.state = { ...state, remark: state.remark || this.state.remark };
    if (state.next === null) this.#analyse();
    else this.render();
  }

  async #analyse() {
    this.stop();
    await this.#fit(() => this.instrument.fitLugCheck(new Date().toISOString().slice(0, 10)));
  }

  async #fit(ask) {
    const side = this.side;
    this.isAnalysing = true;
    this.fits[side] = null;
    this.render();
    try {
      this.fits[side] = await ask();
      this.trouble = '';
    } catch (error) {
      this.trouble = error.message;
    }
    this.isAnalysing = false;
    this.render();
  }

  render() {
    const { model, side } = this,
      sides = model.hasResonant ? ['batter', 'resonant'] : ['batter'];
    const pick = make(
      'div',
      { class: 'row', role: 'group', 'aria-label': 'Head' },
      ...sides.map(name =>
        button(
          name,
          () => {
            this.stop();
            this.side = name;
            this.state = null;
            this.typed = [];
            this.render();
          },
          { 'aria-pressed': String(name === side) }
        )
      )
    );
    const other = side === 'batter' ? 'resonant' : 'batter';
    const lugs = model.prediction.drum.lugs;
    const content = [];
    if (this.isAnalysing) content.push(make('p', { class: 'turn', role: 'status' }, 'Analysing the head …'));
    else if (this.isListening) {
      const { next, heard, remark, is_refusal: isRefusal, is_silent: isSilent } = this.state;
      content.push(
        make('p', { class: 'turn', role: 'status' }, next === null ? 'All lugs heard.' : `Tap beside lug ${next}`),
        make(
          'p',
          { class: isRefusal ? 'caution' : '' },
          isSilent
            ? 'The microphone gives nothing but silence: check that it is on and allowed.'
            : remark || '25 mm from the edge, once; let it ring for a second.'
        ),
        make('div', { class: 'rods-row' }, this.#picture(lugs, heard, next)),
        make(
          'div',
          { class: 'row' },
          button('Delete last tap', async () => this.#take(await this.instrument.deleteLastTap()), { disabled: heard.length === 0 }),
          button('Analyse', () => this.#analyse(), { disabled: heard.length === 0 }),
          button('Stop', () => this.stop())
        )
      );
    } else {
      content.push(
        make(
          'p',
          {},
          `Wires off. Hold the ${other} head still with a cloth. Mark one lug as lug 1 and count clockwise seen from above${side === 'resonant' ? ' (counterclockwise with the drum turned over)' : ''}. ` +
            'Hold the phone a hand’s breadth over the lug you tap; turn the drum, not the phone. Nothing is recorded or sent.'
        ),
        make(
          'div',
          { class: 'row' },
          button('Start with the microphone', () => this.#start(), { class: 'main' }),
          button(
            'Type the tap notes',
            () => {
              this.isTyping = !this.isTyping;
              this.render();
            },
            { 'aria-expanded': String(this.isTyping) }
          )
        )
      );
      if (this.isTyping) content.push(this.#typing(lugs));
    }
    if (this.trouble) content.push(make('p', { class: 'message warning', role: 'alert' }, this.trouble));
    const fit = this.fits[side];
    if (fit && !this.isListening) content.push(this.#result(fit));
    redraw(this.element, make('h2', {}, 'Lug check'), pick, ...content);
  }

  #typing(lugs) {
    const fields = Array.from({ length: lugs }, (_, i) =>
      make(
        'label',
        { class: 'field' },
        make('span', {}, `lug ${i + 1}`),
        make('input', {
          value: this.typed[i] ?? '',
          placeholder: 'G#3 -12',
          autocomplete: 'off',
          spellcheck: 'false',
          onchange: event => {
            this.typed[i] = event.target.value;
          }
        })
      )
    );
    return make(
      'div',
      { class: 'typing' },
      make('p', { class: 'hint' }, 'One note for the head, or one for each lug.'),
      ...fields,
      button(
        'Analyse',
        () => {
          const notes = Array.from({ length: lugs }, (_, i) => (this.typed[i] ?? '').trim()).filter(Boolean);
          if (notes.length !== 1 && notes.length !== lugs)
            return say('lug-check', `Type one note, or one for each of the ${lugs} lugs: there are ${notes.length}.`);
          this.#fit(() => this.instrument.fitTapNotes(this.model.document(), this.side, notes, new Date().toISOString().slice(0, 10)));
        },
        { class: 'main' }
      )
    );
  }

  #result(fit) {
    const list = make('ul', {}, ...fit.findings.map(({ text, severity }) => make('li', { class: severity }, text)));
    if (!fit.is_possible) return make('div', {}, make('h3', {}, 'The taps do not match the head'), list);
    const note = midiOfHertz(fit.tap_note_hz.value, this.model.a4),
      doubt = 1200 * Math.log2(1 + fit.tap_note_hz.error / fit.tap_note_hz.value);
    return make(
      'div',
      { class: 'lug-result' },
      make('p', { class: 'turn', role: 'status' }, fit.answer),
      make('p', { class: 'turn' }, `${fit.head} ${noteName(note)} ± ${Math.max(1, doubt).toFixed(0)} c`),
      make(
        'p',
        {},
        `${fit.tension_n_per_m.value.toFixed(0)} ± ${fit.tension_n_per_m.error.toFixed(0)} N/m, for the head weight you entered.`
      ),
      make(
        'div',
        { class: 'rods-row' },
        this.#picture(
          fit.lugs_cents.length,
          fit.lugs_cents.map(({ value, error }, i) => ({ lug: i + 1, text: withSign(value), isOff: fit.lugs_to_turn.lugs.includes(i + 1), error })),
          null
        )
      ),
      make('p', { class: 'hint' }, `${fit.lugs_to_turn.reason} Cents of each lug over the head’s note.`),
      list,
      make(
        'div',
        { class: 'row' },
        button('Plan from this', () => this.actions.use(fit.head, fit), { class: 'main' }),
        button('Apply to drum', () => this.actions.apply(fit.head, fit))
      )
    );
  }

  /** Lugs around the head with what was heard at each. */
  #picture(lugs, heard, next) {
    const at = lug => heard.find(item => item.lug === lug);
    const textOf = lug => at(lug) && (at(lug).text ?? noteName(midiOfHertz(at(lug).tap_note_hz, this.model.a4)));
    const label = heard.map(({ lug }) => `lug ${lug} ${textOf(lug)}`).join(', ') || 'no taps yet';
    return lugPicture(this.side, lugs, label, lug => (lug === next || at(lug)?.isOff ? 'next' : at(lug) ? 'done' : ''), textOf);
  }
}
