// Starts the page: the instrument, what was kept from the last visit, a drum from the link, and the views.

import { Instrument } from '../instrument.js';
import { AtTheDrum } from './at-the-drum.js';
import { Blind } from './blind.js';
import { button, byId, make } from './dom.js';
import { ask } from './dialog.js';
import { download, DrumFiles, fileNameOf } from './drum-files.js';
import { EarTest } from './ear-test.js';
import { Heads } from './heads.js';
import { KeptBar } from './kept-bar.js';
import { Ladder } from './ladder.js';
import { Lesson } from './lesson.js';
import { InTurn } from './in-turn.js';
import { inches } from './lengths.js';
import { decodeLink, isLink } from './link.js';
import { LoudnessMatch } from './loudness-match.js';
import { say, warn } from './messages.js';
import { MapView } from './map.js';
import { longestPart, performanceOf } from './midi-part.js';
import { Model } from './model.js';
import { intervalName, midiOfHertz, noteName } from './notes.js';
import { PlayBar } from './play-bar.js';
import { Results } from './results.js';
import { SetUp } from './set-up.js';
import { SoundView } from './sound-view.js';
import { restore, store } from './storage.js';
import { Sweep } from './sweep.js';
import { Volume } from './volume.js';

const firstDrum = 'maple-14x5';
const startSoftly = 'Start at low volume: a drum’s attack is far louder than its average.';
const usualStroke = { kind: 'tip', position: 0.25, angle: 0.6 };
const lessonText = byId('lesson').textContent.trim();
const lessonDocument = lessonText ? JSON.parse(lessonText) : null;

function setTheme(theme) {
  document.documentElement.dataset.theme = theme;
  byId('theme').textContent = theme === 'dark' ? 'Light' : 'Dark';
}

const darkBySystem = () => (matchMedia('(prefers-color-scheme: dark)').matches ? 'dark' : 'light');

class Page {
  constructor(instrument, presets) {
    this.instrument = instrument;
    this.presets = presets;
    this.kept = lessonDocument ? null : restore();
    this.model = new Model(instrument);
    this.files = new DrumFiles(this.model, instrument, presets);
    const player = {
      strike: stroke => this.strike(stroke),
      start: (pattern, tempo, repeat = true) => instrument.playPattern(pattern, { tempo, repeat }).catch(error => warn('pattern', error)),
      check: pattern => instrument.readPattern(pattern, this.model.document()),
      readNotes: notes => instrument.readNotes(this.model.document(), notes),
      stop: () => instrument.stop(),
      setTempo: tempo => instrument.setTempo(tempo),
      save: (pattern, tempo) => this.#saveSound(pattern, tempo)
    };
    this.heads = new Heads(
      this.model,
      stroke => this.strike({ kind: 'tip', ...stroke }),
      () => this.#strikeWhenSolved()
    );
    this.ladder = new Ladder(this.model, ask, () => this.#strikeWhenSolved());
    this.ear = new EarTest(this.model, () => this.strike({ ...usualStroke, speed: this.heads.speed }));
    this.setUp = new SetUp(this.model, presets, instrument);
    this.volume = new Volume(instrument);
    this.playBar = new PlayBar(player, this.heads, presets.patterns, ask, this.volume);
    this.playBar.onTempo = tempo => this.model.setTempo(tempo);
    this.match = new LoudnessMatch(this.model, instrument, this.volume);
    this.inTurn = new InTurn(this.model, this.playBar, this.match, this.volume);
    this.blind = new Blind(this.model, this.match, this.volume, {
      play: () => (this.playBar.part ? this.playBar.playOnce() : this.#strikeUnlessPlaying()),
      measured: () => (this.playBar.part ? this.playBar.measured : undefined),
      plan: () => this.show('at-the-drum')
    });
    this.atTheDrum = new AtTheDrum(this.model, instrument, presets, this.kept?.work);
    this.map = new MapView(this.model, instrument, {
      strike: () => this.#strikeUnlessPlaying(),
      playInTurn: tunings => this.inTurn.play(tunings)
    });
    this.#build();
    this.#listen();
  }

  strike(stroke) {
    this.instrument.strike(stroke);
    this.heads.show(stroke);
  }

  #strikeUnlessPlaying() {
    if (!this.playBar.isPlaying) this.strike({ ...usualStroke, ...this.heads.place, speed: this.heads.speed });
  }

  /** After a change: a stroke of the new tuning. */
  #strikeWhenSolved() {
    if (this.model.isSettled) this.#strikeUnlessPlaying();
    else this.model.addEventListener('change', () => this.#strikeWhenSolved(), { once: true });
  }

  #build() {
    const keptBar = new KeptBar(this.model, item => this.#hear(item));
    byId('left').append(this.heads.element, this.setUp.element);
    byId('ladder').append(this.ladder.element);
    byId('results').append(new Results(this.model).element);
    byId('play').append(this.playBar.element);
    byId('stage').before(this.ear.element, this.blind.element, this.inTurn.element);
    byId('kept').append(keptBar.element);
    if (!lessonDocument)
      byId('kept').append(
        this.blind.start,
        this.inTurn.start,
        this.match.element,
        new Sweep(this.model, () => this.strike({ ...usualStroke, speed: this.heads.speed })).element,
        button('Question by ear', () => this.ear.start().catch(error => warn('ear', error)), { class: 'ask' })
      );
    this.sound = new SoundView(this.model, this.instrument);
    byId('sound').append(this.sound.element);
    byId('map').append(this.map.element);
    byId('work').append(this.atTheDrum.element);
    this.drumName = button('', () => this.files.choose(), { class: 'drum-name', 'aria-haspopup': 'dialog' });
    byId('drum-choice').append(this.drumName);
    this.pageButtons = [['play', 'Play'], ['set-up', 'Set up'], ...(lessonDocument
        ? []
        : [
            ['map', 'Map'],
            ['at-the-drum', 'At the drum']
          ])
    ].map(([page, label]) => {
      const element = button(label, () => this.show(page), { 'data-page': page });
      byId('pages').append(element);
      return element;
    });
    this.undoButton = button('Undo', () => this.model.undo(), { 'aria-keyshortcuts': 'Control+Z' });
    this.redoButton = button('Redo', () => this.model.redo(), { 'aria-keyshortcuts': 'Control+Y' });
    byId('tools').append(
      this.undoButton,
      this.redoButton,
      button('Link', () => this.files.shareLink().catch(error => warn('link', error))),
      button('Dark', () => this.#switchTheme(), { id: 'theme' })
    );
    byId('cautions').append(make('h2', {}, 'Cautions'), make('ul', {}, ...[...this.presets.cautions, startSoftly].map(text => make('li', {}, text))));
    setTheme(restore()?.theme ?? darkBySystem());
    this.show('play');
  }

  #listen() {
    const { model, instrument } = this;
    model.addEventListener('change', () => this.#render());
    instrument.addEventListener('waiting', ({ detail }) =>
      say('sound', `${detail.message} Tap it once or press a key; a drag does not count.`, {
        canClose: false,
        action: { label: 'Turn the sound on', run: () => instrument.wake() }
      })
    );
    instrument.addEventListener('running', () => say('sound', ''));
    instrument.addEventListener('slow', ({ detail }) => say('slow', detail.message));
    instrument.addEventListener('failed', ({ detail }) => say('failed', detail.message, { isWarning: true }));
    instrument.addEventListener('step', ({ detail }) => this.playBar.showStep(detail.index));
    addEventListener('keydown', event => {
      if ((event.ctrlKey || event.metaKey) && !event.target.closest('input, textarea')) {
        if (event.key === 'z' && !event.shiftKey) model.undo();
        else if (event.key === 'y' || (event.key === 'z' && event.shiftKey)) model.redo();
        else return;
        event.preventDefault();
      }
    });
    addEventListener('hashchange', () => this.#openLink());
    matchMedia('(prefers-color-scheme: dark)').addEventListener('change', () => {
      if (!restore()?.theme) this.#applyTheme(darkBySystem());
    });
  }

  #switchTheme() {
    const theme = document.documentElement.dataset.theme === 'dark' ? 'light' : 'dark';
    store({ theme });
    this.#applyTheme(theme);
  }

  #applyTheme(theme) {
    setTheme(theme);
    this.heads.draw();
    this.map.draw();
    this.sound.draw();
  }

  /** Opens what the page begins with: the link, a lesson, the last visit, or a preset. */
  async begin() {
    const first = () => this.model.load(this.presets.drums.find(({ name }) => name === firstDrum).document);
    if (lessonDocument) {
      this.lesson = new Lesson(lessonDocument, this);
      return this.lesson.begin();
    }
    try {
      if (this.kept?.document) await this.model.load(this.kept.document);
      else await first();
    } catch (error) {
      warn('file', new Error(`The drum of your last visit cannot be opened: ${error.message}`));
      await first();
    }
    for (const { letter, document, label } of this.kept?.kept ?? []) {
      const answer = await this.instrument.predict(document).catch(() => null);
      if (answer) this.model.kept.push({ letter, document, label, prediction: answer, played: null });
    }
    this.model.reference = this.model.kept[0]?.letter ?? null;
    await this.#openLink();
    this.model.dispatchEvent(new Event('change'));
  }

  async #openLink() {
    const text = location.hash.slice(1);
    if (text === 'at-the-drum' || text === 'set-up' || text === 'map' || text === 'play') return this.show(text);
    if (!isLink(text)) {
      if (text && !lessonDocument) say('link', 'The part of the address behind # is not a drum link. Your drum has not changed.', { isWarning: true });
      return;
    }
    try {
      await this.files.open(await decodeLink(text));
    } catch (error) {
      warn('link', error);
    }
    history.replaceState(null, '', location.href.split('#')[0]);
  }

  show(page) {
    this.page = page;
    document.body.dataset.page = page;
    for (const element of this.pageButtons) {
      if (element.dataset.page === page) element.setAttribute('aria-current', 'page');
      else element.removeAttribute('aria-current');
    }
    const isWork = page === 'at-the-drum';
    byId('work').hidden = !isWork;
    byId('map').hidden = page !== 'map';
    byId('sound').hidden = page !== 'play';
    for (const id of ['play', 'kept']) byId(id).hidden = isWork;
    byId('stage').hidden = isWork || page === 'map';
    this.setUp.element.hidden = page !== 'set-up';
    this.heads.element.hidden = page === 'set-up';
    this.setUp.render();
    this.map.setShown(page === 'map');
    this.atTheDrum.setShown(isWork);
  }

  /** Loads a kept tuning and plays a stroke of it. */
  async #hear(item) {
    if (await this.files.open(item.document, 0, { keepsTunings: item.document.name === this.model.drum.name })) {
      if (!this.playBar.isPlaying) this.strike({ ...usualStroke, speed: this.heads.speed });
    }
  }

  async #saveSound(pattern, tempo) {
    try {
      const { wav, loudness_lufs: loudness } = await this.instrument.render(this.model.document(), performanceOf(pattern, tempo));
      const isCut = (60 * pattern.beats) / tempo > longestPart;
      download(`${fileNameOf(this.model.drum.name)}-${fileNameOf(pattern.name)}-${tempo}.wav`, wav);
      say(
        'wav',
        `Saved${isCut ? ` the first ${longestPart} s` : ''}${Number.isFinite(loudness) ? `, ${loudness.toFixed(1)} LUFS` : ''}. A drum's peak is far above its average: turn the volume down before you play it.`
      );
    } catch (error) {
      warn('wav', error);
    }
  }

  #render() {
    const { model } = this,
      { prediction } = model;
    if (prediction === null) return;
    const { drum } = prediction,
      name = model.drum.name || 'Drum';
    this.drumName.textContent = `${name} ▾`;
    const strong = text => make('strong', {}, text);
    byId('statement').replaceChildren(
      `${inches(drum, 'diameter')} × ${inches(drum, 'depth')} in, ${drum.shell.material}, ${drum.lugs} lugs. Batter `,
      make('strong', { class: 'batter' }, noteName(model.notes.batter)),
      ...(model.hasResonant
        ? [', resonant ', make('strong', { class: 'resonant' }, noteName(model.notes.resonant)), ': ', strong(intervalName(model.interval))]
        : []),
      '. Drum note ',
      make('strong', { class: 'drum' }, noteName(midiOfHertz(prediction.drum_note_hz, model.a4))),
      '.'
    );
    this.undoButton.disabled = !model.canUndo;
    this.redoButton.disabled = !model.canRedo;
    say('trouble', model.trouble, { isWarning: true });
    this.#store();
  }

  #store() {
    if (lessonDocument) return;
    clearTimeout(this.storing);
    this.storing = setTimeout(() => {
      const { model } = this;
      const isKept = store({
        document: model.fileDocument(),
        kept: model.kept.map(({ letter, document, label }) => ({ letter, document, label })),
        work: this.atTheDrum.state()
      });
      if (!isKept) say('storage', 'This browser does not keep anything for this page: save the drum file before you close it.');
    }, 300);
  }
}

async function start() {
  try {
    if (!globalThis.WebAssembly || !globalThis.DecompressionStream) throw new Error('this browser is too old. Open the page in a current one.');
    const instrument = await Instrument.open();
    const page = new Page(instrument, await instrument.presets());
    globalThis.snarewrightPage = page; // for tests
    await page.begin();
    document.body.dataset.ready = 'true';
  } catch (error) {
    say('start', `The drum could not be started: ${error.message}`, {
      isWarning: true,
      action: lessonDocument && {
        label: 'Open the recordings',
        run: () => {
          location.href = lessonDocument.recordings;
        }
      }
    });
  }
}

start();
