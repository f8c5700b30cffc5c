// Asks by ear about the drum on the page: names and figures are hidden until the answer is given.

import { button, make, redraw } from './dom.js';
import { makeQuestion, solution } from './ear-question.js';
import { warn } from './messages.js';

export class EarTest {
  /** @param play  plays what is to be heard of the drum on the page */
  constructor(model, play, random = Math.random) {
    Object.assign(this, { model, play, random, asked: 0, right: 0, isOn: false });
    this.element = make('section', { class: 'card ear', 'aria-label': 'Question by ear', hidden: true });
  }

  async start() {
    this.first ??= { document: this.model.document(), kept: this.model.kept, reference: this.model.reference };
    this.isOn = true;
    this.given = [];
    this.element.hidden = false;
    document.body.dataset.figures = 'hidden';
    document.body.dataset.ear = 'on';
    // A head may not reach every note: then another question.
    for (let attempt = 0; attempt < 6; ++attempt) {
      this.question = makeQuestion(this.model.hasResonant, this.random);
      await this.#load(this.first.document);
      const { batter, resonant } = this.model.notes;
      this.after = { batter: batter + this.question.batter, resonant: resonant === null ? null : resonant + this.question.resonant };
      try {
        await this.#hear(true);
        await this.#hear(false);
        break;
      } catch (error) {
        if (attempt === 5) {
          this.end();
          return warn('ear', error);
        }
      }
    }
    this.#draw('Listen to both sounds, as often as you like, then answer.');
    this.element.querySelector('button')?.focus();
  }

  /** Tunes the drum to the sound before or after. */
  async #hear(isAfter) {
    const { document } = this.first;
    if (!isAfter) return this.#load(document);
    const tuning = { batter: {}, ...(this.after.resonant === null ? {} : { resonant: {} }) };
    for (const side of Object.keys(tuning)) tuning[side] = { tap_note_hz: this.model.a4 * 2 ** ((this.after[side] - 69) / 12) };
    return this.#load({ ...document, tunings: [{ ...document.tunings[0], interval: undefined, ...tuning }] });
  }

  #load(document) {
    return this.model.load(document, 0, { canUndo: false, keepsTunings: true });
  }

  #draw(words, isAnswered = false) {
    const hear = isAfter => async () => {
      await this.#hear(isAfter);
      this.play();
    };
    const fields = this.question.questions.map(({ text, answers, right }, q) =>
      make(
        'fieldset',
        {},
        make('legend', {}, text),
        make(
          'div',
          { class: 'answers' },
          ...answers.map((answer, i) =>
            make(
              'label',
              { class: isAnswered && i === right ? 'answer right' : 'answer' },
              make('input', {
                type: 'radio',
                name: `ear-${q}`,
                disabled: isAnswered,
                checked: this.given[q] === i,
                onchange: () => {
                  this.given[q] = i;
                }
              }),
              answer
            )
          )
        )
      )
    );
    redraw(
      this.element,
      make('h2', {}, 'Question by ear'),
      make(
        'div',
        { class: 'row' },
        button('Play the first sound', hear(false), { class: 'main' }),
        button('Play the second sound', hear(true), { class: 'main' })
      ),
      ...fields,
      make('p', { role: 'status', class: isAnswered ? 'turn' : '' }, words),
      make(
        'div',
        { class: 'row' },
        isAnswered ? button('Next question', () => this.start(), { class: 'main' }) : button('Answer', () => this.#answer()),
        button('End', () => this.end()),
        this.asked > 0 ? make('span', {}, `${this.right} of ${this.asked} right`) : ''
      )
    );
  }

  async #answer() {
    const { questions } = this.question;
    if (this.given.filter(value => value !== undefined).length < questions.length) return this.#draw('Answer every question first.');
    const isRight = questions.every(({ right }, q) => this.given[q] === right);
    this.asked += 1;
    this.right += isRight ? 1 : 0;
    // The answer stands on the ladder: the first sound dashed, the second filled.
    await this.#hear(false);
    this.model.kept = [];
    this.model.keep('A');
    this.model.reference = 'A';
    await this.#hear(true);
    delete document.body.dataset.figures;
    this.#draw(`${isRight ? 'Right.' : 'No.'} ${solution(this.question)}`, true);
  }

  async end() {
    if (!this.isOn) return;
    this.isOn = false;
    this.element.hidden = true;
    delete document.body.dataset.figures;
    delete document.body.dataset.ear;
    const { document: start, kept, reference } = this.first;
    this.first = null;
    Object.assign(this.model, { kept, reference });
    await this.#load(start).catch(error => warn('ear', error));
  }
}
