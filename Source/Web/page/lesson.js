// A lesson that plays: each step is the live drum. The recordings beside the page stay for where the drum cannot play.

import { button, byId, make } from './dom.js';
import { say, warn } from './messages.js';

const firstStroke = { kind: 'tip', position: 0.25, angle: 0.6, speed: 3 };

export class Lesson {
  /** @param lesson  what `snarewright lesson` wrote: { name, notes, tempo_bpm, steps_per_beat, recordings, steps: [{ name, listen_for,
        notes, strokes, changes, gain_db, sound, document }] } */
  constructor(lesson, page) {
    Object.assign(this, { lesson, page, index: 0 });
    document.body.dataset.lesson = 'true';
    document.title = `${lesson.name}: Snarewright`;
    this.recording = new Audio();
    this.ear = page.ear;
    page.playBar.onPlaying = isPlaying => this.#drawPlay(isPlaying);
    this.status = make('p', { class: 'moved', role: 'status' });
    page.model.addEventListener('change', () => this.#tellMoved());
    addEventListener('hashchange', () => this.#fromAddress());
    document.addEventListener('keydown', event => {
      if (
        event.defaultPrevented ||
        event.ctrlKey ||
        event.altKey ||
        event.metaKey ||
        event.target.closest('input, select, textarea, dialog, .handle, canvas')
      )
        return;
      const run = { ArrowLeft: () => this.show(this.index - 1), ArrowRight: () => this.show(this.index + 1), p: () => this.play() }[event.key];
      if (run) {
        event.preventDefault();
        run();
      }
    });
  }

  async begin() {
    const step = this.#stepOfAddress();
    await this.show(step >= 0 ? step : 0);
  }

  #stepOfAddress() {
    const number = /^step-(\d+)$/.exec(location.hash.slice(1));
    return number && this.lesson.steps[number[1] - 1] ? number[1] - 1 : -1;
  }

  #fromAddress() {
    const step = this.#stepOfAddress();
    if (step >= 0 && step !== this.index) this.show(step);
  }

  get step() {
    return this.lesson.steps[this.index];
  }

  /** Shows a step: its drum, with the step before as the tuning that changes count from. */
  async show(index) {
    if (!this.lesson.steps[index]) return;
    this.stop();
    await this.ear.end();
    this.index = index;
    const { model, instrument } = this.page;
    try {
      model.kept = [];
      model.reference = null;
      if (index > 0) {
        const before = this.lesson.steps[index - 1];
        const prediction = await instrument.predict(before.document);
        if (prediction) model.kept = [{ letter: 'A', document: before.document, label: `step ${index}`, prediction, played: null }];
        model.reference = 'A';
      }
      await model.load(this.step.document, 0, { canUndo: false });
      this.page.volume.setOffset(this.step.gain_db);
      this.page.playBar.offer(
        { name: 'The strokes of the step', text: this.step.strokes, steps_per_beat: this.lesson.steps_per_beat },
        this.lesson.tempo_bpm
      );
      this.document = JSON.stringify(model.document());
    } catch (error) {
      warn('lesson', error);
    }
    this.#draw();
    history.replaceState(null, '', `${location.href.split('#')[0]}#step-${index + 1}`);
  }

  /** Plays the strokes of the step on the drum as it is now, or stops them. */
  play() {
    this.recording.pause();
    this.page.playBar.toggle();
    if (this.page.playBar.isPlaying) this.page.heads.show(firstStroke);
  }

  stop() {
    this.recording.pause();
    if (this.page.playBar.isPlaying) this.page.playBar.toggle();
  }

  #drawPlay(isPlaying) {
    if (!this.playButton) return;
    this.playButton.textContent = isPlaying ? 'Stop' : 'Play the step';
    this.playButton.setAttribute('aria-pressed', String(isPlaying));
  }

  #tellMoved() {
    if (this.ear.isOn || !this.document) return;
    const isMoved = JSON.stringify(this.page.model.document()) !== this.document;
    this.back.hidden = !isMoved;
    this.status.textContent = isMoved ? 'You have moved the drum away from the step.' : '';
  }

  #draw() {
    const { lesson, step, index } = this,
      count = lesson.steps.length;
    const details = (title, text) => (text ? make('details', {}, make('summary', {}, title), make('p', {}, text)) : '');
    this.playButton = button('Play the step', () => this.play(), { class: 'main', 'aria-keyshortcuts': 'P' });
    this.back = button('Back to the step', () => this.show(this.index), { hidden: true });
    const heading = make('h2', { tabindex: -1 }, `${index + 1}. ${step.name}`);
    byId('drum-choice').replaceChildren(
      make('strong', { class: 'lesson-name' }, lesson.name),
      make(
        'nav',
        { class: 'row', 'aria-label': 'Steps' },
        button('← Back', () => this.show(index - 1), { disabled: index === 0, 'aria-keyshortcuts': 'ArrowLeft' }),
        make('span', { role: 'status' }, `Step ${index + 1} of ${count}`),
        button('Next →', () => this.show(index + 1), { disabled: index === count - 1, 'aria-keyshortcuts': 'ArrowRight' })
      )
    );
    byId('lesson-panel').replaceChildren(
      make(
        'section',
        { class: 'lesson', 'aria-label': lesson.name },
        make(
          'div',
          { class: 'lesson-step' },
          heading,
          step.listen_for && make('p', { class: 'listen' }, make('strong', {}, 'Listen for: '), step.listen_for),
          make(
            'div',
            { class: 'row' },
            this.playButton,
            button('Recording', () => this.#playRecording()),
            button('Ask me by ear', () => this.#ask()),
            this.back,
            this.status
          )
        ),
        make(
          'div',
          { class: 'lesson-notes' },
          details(index === 0 ? 'This step' : 'What changed since the step before', step.changes.join(' ')),
          details('Teacher’s notes: this step', step.notes),
          details('Teacher’s notes: the lesson', lesson.notes),
          make(
            'p',
            { class: 'hint' },
            index === count - 1 && lesson.exercise ? make('a', { href: lesson.exercise }, 'Exercise: the steps shuffled') : '',
            index === count - 1 && lesson.exercise ? '. ' : '',
            make('a', { href: lesson.recordings }, 'All steps as recordings, and to print'),
            '. All steps are equally loud. Keys: ← → steps, P plays.'
          )
        )
      )
    );
    this.status.textContent = '';
    heading.focus({ preventScroll: true });
  }

  #ask() {
    this.stop();
    this.ear.start().catch(error => warn('ear', error));
  }

  async #playRecording() {
    this.stop();
    this.recording.src = this.step.sound;
    try {
      await this.recording.play();
      say('recording', '');
    } catch {
      say('recording', `The recording ${this.step.sound} is not beside this page: keep the lesson's folder together.`);
    }
  }
}
