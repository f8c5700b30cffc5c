// At the drum: the target of each head in large type, what is heard now, the rods pass by pass with a done mark, the lug check, the
// sheet. Kept in the browser between visits.

import { button, make, redraw } from './dom.js';
import { chooseFile, download, fileNameOf, parseDrumFile } from './drum-files.js';
import { LugCheck } from './lug-check.js';
import { lugPicture, viewOf } from './lug-picture.js';
import { say, warn } from './messages.js';
import { hertzOfMidi, intervalName, midiOfHertz, noteName } from './notes.js';
import { noteStepper } from './note-stepper.js';
import { printSheet } from './sheet.js';
import { isEven, passName, sides, turningLugs, Work } from './work.js';

const vague = 100; // cents: an expected note that is less certain is hardly one

export class AtTheDrum {
  constructor(model, instrument, presets, kept) {
    Object.assign(this, { model, instrument, presets, work: new Work(kept), plan: null, planTrouble: '', isShown: false, heard: {} });
    this.lugCheck = new LugCheck(model, instrument, {
      use: (side, fit) => this.#useMeasurement(side, fit),
      apply: (side, fit) => this.#applyMeasurement(side, fit)
    });
    this.target = make('section', { class: 'card targets', 'aria-label': 'Target' });
    this.now = make('section', { class: 'card', 'aria-label': 'What you hear now' });
    this.plans = make('section', { class: 'card plans', 'aria-label': 'Plan for the rods', 'aria-live': 'polite' });
    this.element = make('div', { class: 'work' }, this.target, this.now, this.plans, this.lugCheck.element, this.#fileBar());
    model.addEventListener('change', () => {
      if (this.isShown) this.#refresh();
    });
  }

  state() {
    return this.work.state();
  }

  setShown(isShown) {
    this.isShown = isShown;
    this.#keepScreenOn(isShown);
    if (isShown) this.#refresh();
    else this.lugCheck.stop();
  }

  /** Hands are on the drum: the screen stays on, where the browser can do that. */
  async #keepScreenOn(isWanted) {
    await this.lock?.release();
    this.lock = isWanted ? await navigator.wakeLock?.request('screen').catch(() => null) : null;
  }

  #keep() {
    this.model.dispatchEvent(new Event('change'));
  }

  #refresh() {
    const { model } = this;
    if (model.prediction === null) return;
    const signature = JSON.stringify([model.document(), this.work.now, this.work.observed]);
    if (signature === this.signature) return;
    this.signature = signature;
    this.#drawTarget();
    this.#drawNow();
    this.#makePlan();
    this.lugCheck.render();
  }

  #drawTarget() {
    const { model } = this;
    const tile = (side, midi) =>
      make(
        'div',
        { class: `target ${side}` },
        make('span', { class: 'what' }, `${side} tap note`),
        make('strong', {}, noteName(midi)),
        make('span', {}, `${hertzOfMidi(midi, model.a4).toFixed(1)} Hz`)
      );
    redraw(
      this.target,
      make('h2', {}, 'Target'),
      make('div', { class: 'tiles' }, tile('batter', model.notes.batter), model.hasResonant ? tile('resonant', model.notes.resonant) : ''),
      make('p', {}, 'Tap once, 25 mm from the edge beside a lug. Hold the other head still with a cloth; wires off.'),
      make(
        'p',
        { class: 'hint' },
        `${model.hasResonant ? `Interval: ${intervalName(model.interval)}. ` : ''}Drum note ${noteName(model.drumNote)}.`
      )
    );
  }

  #drawNow() {
    const { model, work } = this;
    const of = side =>
      make(
        'div',
        { class: 'now' },
        make('h3', { class: side }, side),
        noteStepper(
          `${side} tap note now`,
          () => work.now[side],
          midi => {
            work.hear(side, midi);
            this.#keep();
          },
          () => Math.round(model.notes[side]),
          model.a4
        ),
        work.measured[side] ? make('p', { class: 'hint' }, 'From the lug check, with the differences between lugs.') : ''
      );
    redraw(
      this.now,
      make('h2', {}, 'What you hear now'),
      ...sides.filter(side => side === 'batter' || model.hasResonant).map(of),
      make('p', { class: 'hint' }, 'Steps: 1 semitone or 10 cents (c). A head without a note is left as it is.'),
      make(
        'label',
        { class: 'field' },
        make('span', {}, 'Lug 1 is at'),
        make('input', {
          value: work.lugOne,
          placeholder: 'the strainer',
          autocomplete: 'off',
          onchange: event => {
            work.lugOne = event.target.value;
            this.#keep();
          }
        })
      )
    );
  }

  async #makePlan() {
    const request = this.work.request(this.model.hasResonant);
    if (request === null) {
      this.plan = null;
      this.planTrouble = '';
      return this.#drawPlan();
    }
    try {
      const plan = await this.instrument.plan(this.model.document(), request);
      if (plan === null) return;
      this.plan = plan;
      this.planTrouble = '';
    } catch (error) {
      this.plan = null;
      this.planTrouble = error.message;
    }
    this.#drawPlan();
  }

  #drawPlan() {
    const title = make('h2', {}, 'Plan for the rods');
    if (this.plan === null)
      return redraw(this.plans, title, make('p', {}, this.planTrouble || 'Enter the notes that you hear now to get a plan for the rods.'));
    let isOpen = true; // the first head with a pass that is not done
    const heads = this.plan.heads.map((head, i) => {
      const passes = head.passes.map((_, index) => passName(head, index));
      const next = head.passes.findIndex((pass, index) => !this.#isDone(pass, passes[index]));
      const isNow = isOpen && next >= 0;
      if (isNow) isOpen = false;
      return this.#drawHead(head, i, isNow ? next : -1);
    });
    redraw(this.plans, title, ...heads, make('ul', { class: 'caution' }, ...this.plan.cautions.map(text => make('li', {}, text))));
  }

  #isDone(pass, name) {
    return turningLugs(pass).every(lug => this.work.doneLugs(name).includes(lug));
  }

  #note(hertz) {
    return noteName(midiOfHertz(hertz, this.model.a4));
  }

  #drawHead(head, place, now) {
    const element = make(
      'div',
      { class: 'plan-head' },
      make('h3', { class: head.head }, `${place + 1}. ${head.head}: ${this.#note(head.from_hz)} to ${this.#note(head.to_hz)}`)
    );
    for (const caution of head.cautions) element.append(make('p', { class: 'caution' }, caution.text));
    if (head.passes.length === 0) element.append(make('p', {}, 'No rod needs 1/16 turn or more: fine-tune by ear.'));
    head.passes.forEach((pass, index) => element.append(this.#drawPass(head, pass, index, now)));
    if (head.turns_left !== 0) element.append(make('p', {}, 'Then enter what you hear: the plan goes on from there.'));
    if (head.is_calibrated === false && head.passes.length > 1)
      element.append(
        make(
          'p',
          { class: 'hint' },
          'Until you enter what the test turn did, later passes are for a typical drum; yours may need half or twice as much.'
        )
      );
    return element;
  }

  #drawPass(head, pass, index, now) {
    const name = passName(head, index),
      isDone = this.#isDone(pass, name),
      isNow = index === now;
    const isTest = head.has_test_turn && index === 0;
    const title = isTest ? 'Test turn' : `Pass ${index + (head.has_test_turn ? 0 : 1)}`;
    const lugs = turningLugs(pass),
      done = this.work.doneLugs(name),
      nextLug = lugs.find(lug => !done.includes(lug));
    const words = isEven(pass) ? `every rod ${pass.turns_text[0]}` : 'each rod as marked';
    if (!isNow)
      return make(
        'p',
        { class: isDone ? 'pass done' : 'pass' },
        `${isDone ? '✓ ' : ''}${title}: ${words}, then about ${this.#note(pass.tap_note_hz)}`
      );
    const chips = lugs.map(lug =>
      button(
        '',
        () => {
          this.work.toggle(name, lug);
          this.#drawPlan();
          this.#keep();
        },
        {
          class: lug === nextLug ? 'rod next' : 'rod',
          'aria-pressed': String(done.includes(lug)),
          'aria-label': `Rod ${lug}, ${pass.turns_text[lug - 1]}, ${done.includes(lug) ? 'done' : 'not done'}`
        }
      )
    );
    chips.forEach((chip, i) =>
      chip.append(
        make('strong', {}, done.includes(lugs[i]) ? `✓ ${lugs[i]}` : String(lugs[i])),
        isEven(pass) ? '' : make('small', {}, pass.turns_text[lugs[i] - 1])
      )
    );
    const doubt = pass.tap_note_error_cents;
    return make(
      'div',
      { class: 'pass now', 'data-pass': title },
      make('p', { class: 'turn' }, `${title}: ${words}`),
      make(
        'div',
        { class: 'rods-row' },
        lugPicture(head.head, pass.turns.length, `${head.head} head ${viewOf(head.head)}: next rod ${nextLug ?? 'none'}`, lug =>
          lug === nextLug ? 'next' : done.includes(lug) ? 'done' : ''
        ),
        make('div', { class: 'rods', role: 'group', 'aria-label': 'Rods in tightening order' }, ...chips)
      ),
      button('All rods done', () => {
        this.work.finish(name, lugs);
        this.#drawPlan();
        this.#keep();
      }),
      make(
        'p',
        {},
        doubt > vague
          ? `Then tap. A typical drum gives about ${this.#note(pass.tap_note_hz)}; yours may differ by a semitone or more. Stop if you hear ${this.#note(head.to_hz)}.`
          : `Then tap: about ${this.#note(pass.tap_note_hz)}, ± ${doubt.toFixed(0)} c. Stop if you hear ${this.#note(head.to_hz)}.`
      ),
      isEven(pass) ? this.#heardAfter(head, pass) : make('p', {}, `Then enter above what you hear on the ${head.head} now.`)
    );
  }

  /** What was heard after a turn of every rod goes back into the plan. */
  #heardAfter(head, pass) {
    const side = head.head,
      key = `${side} ${this.work.observed.length}`;
    return make(
      'div',
      { class: 'heard' },
      make('h4', {}, 'What do you hear after it?'),
      noteStepper(
        `${side} after this turn`,
        () => this.heard[key] ?? null,
        midi => {
          this.heard[key] = midi;
        },
        () => Math.round(midiOfHertz(pass.tap_note_hz, this.model.a4)),
        this.model.a4
      ),
      button(
        'Plan from there',
        () => {
          if (this.heard[key] === undefined || this.heard[key] === null)
            return say('heard', 'Type the note that you hear after the turn, or step to it with the buttons beside it.');
          say('heard', '');
          this.work.observe(side, pass.turns[0], this.heard[key]);
          this.#keep();
        },
        { class: 'main' }
      )
    );
  }

  #useMeasurement(side, fit) {
    this.work.measure(side, fit, midiOfHertz(fit.tap_note_hz.value, this.model.a4));
    this.#keep();
    this.plans.scrollIntoView({ block: 'start' });
  }

  #applyMeasurement(side, fit) {
    this.model.begin();
    this.model.setLugs(
      side,
      fit.lugs_cents.map(({ value }) => value)
    );
    this.model.setNote(side, midiOfHertz(fit.tap_note_hz.value, this.model.a4));
    say('applied', `The drum on the page now has the measured ${side} head: go to Play to hear it. Undo brings the target back.`);
  }

  #fileBar() {
    const name = () => fileNameOf(this.model.drum.name);
    return make(
      'section',
      { class: 'card', 'aria-label': 'Sheet and files' },
      make('h2', {}, 'Sheet and files'),
      make(
        'div',
        { class: 'row' },
        button('Print the sheet', () => printSheet(this.model, this.plan, this.work, this.presets.cautions), { class: 'main' }),
        button('Save drum file', () => download(`${name()}.json`, JSON.stringify(this.model.fileDocument(), null, 2) + '\n')),
        button('Save measurement', () => this.#saveMeasurement(name())),
        button('Save plan', () => {
          if (this.plan) download(`${name()}-plan.json`, JSON.stringify(this.plan, null, 2) + '\n');
          else say('files', 'There is no plan yet: enter what you hear now.');
        }),
        button('Open drum or measurement …', () => this.#openFile())
      ),
      make('p', { class: 'hint' }, 'These are the files of the program (plan, fit, sheet). What you enter here stays in this browser.')
    );
  }

  #saveMeasurement(name) {
    const heads = sides.map(side => this.work.measured[side] ?? this.lugCheck.fits[side]).filter(Boolean);
    if (heads.length === 0) return say('files', 'There is no measurement yet: do a lug check first.');
    for (const fit of heads) download(`${name}-${fit.head}-fit.json`, JSON.stringify(fit, null, 2) + '\n');
  }

  async #openFile() {
    try {
      const text = await (await chooseFile())?.text();
      if (text === undefined) return;
      let document = null;
      try {
        document = JSON.parse(text);
      } catch {
        /* parseDrumFile() says it */
      }
      const fits = document?.heads ?? (document?.taps_used !== undefined ? [document] : null);
      if (!Array.isArray(fits)) {
        const drum = parseDrumFile(text);
        await this.instrument.normalise(drum);
        return await this.model.load(drum);
      }
      for (const fit of fits) {
        if (!fit.is_possible || !sides.includes(fit.head) || !Number.isFinite(fit.tap_note_hz?.value))
          throw new Error('This measurement has no result for a head. Nothing has changed.');
        this.work.measure(fit.head, fit, midiOfHertz(fit.tap_note_hz.value, this.model.a4));
      }
      this.#keep();
    } catch (error) {
      warn('files', error);
    }
  }
}
