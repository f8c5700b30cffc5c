// Drums in and out: presets, the drum file, the link. All of them are the program's drum file.

import { button, make } from './dom.js';
import { openDialog } from './dialog.js';
import { encodeLink } from './link.js';
import { say, warn } from './messages.js';

const longestFile = 1_000_000; // bytes, as the program's reader

/** Lets the browser save a file. */
export function download(name, content, type = 'application/json') {
  const url = URL.createObjectURL(content instanceof Blob ? content : new Blob([content], { type }));
  make('a', { href: url, download: name }).click();
  setTimeout(() => URL.revokeObjectURL(url), 10_000);
}

/** A name for a file from a drum's name: "maple-14-x-5". */
export const fileNameOf = name =>
  (name || 'drum')
    .toLowerCase()
    .replace(/[^a-z0-9.]+/g, '-')
    .replace(/^-|-$/g, '') || 'drum';

/** Asks for a file; resolves with it, or null. Throws a sentence if it is too large.
    @param types  of files, as an <input> takes them
    @param kind   what it should be, for the sentence */
export function chooseFile(types = '.json,application/json', mostBytes = longestFile, kind = 'drum file') {
  return new Promise((resolve, reject) => {
    const field = make('input', {
      type: 'file',
      accept: types,
      onchange: () => {
        const file = field.files[0];
        if (file?.size > mostBytes) reject(new Error(`${file.name} is too large for a ${kind}: ${file.size} bytes; allowed: up to ${mostBytes}.`));
        else resolve(file ?? null);
      },
      oncancel: () => resolve(null)
    });
    field.click();
  });
}

/** A document from its text, or an error that says why it is not a drum file that the page reads. */
export function parseDrumFile(text) {
  try {
    return requireDrumFile(JSON.parse(text));
  } catch (error) {
    throw error instanceof SyntaxError ? new Error('This is not a drum file: it is not JSON. Your drum has not changed.') : error;
  }
}

const versionsRead = [1, 2]; // 2 added microphones, pattern and window, which the page keeps as they are

/** The same document, if it says that it is a drum file of a version that the page reads. */
function requireDrumFile(document) {
  if (document?.format !== 'snarewright-drum')
    throw new Error(
      `This is not a drum file: its "format" is ${JSON.stringify(document?.format) ?? 'missing'}; needed: "snarewright-drum". Your drum has not changed.`
    );
  if (!versionsRead.includes(document.version))
    throw new Error(
      `This drum is of file version ${JSON.stringify(document.version)}; this page reads version ${versionsRead.join(' or ')}. Open it with the program that made it, or a newer page. Your drum has not changed.`
    );
  return document;
}

export class DrumFiles {
  constructor(model, instrument, presets) {
    Object.assign(this, { model, instrument, presets });
  }

  /** Opens a document; tells what is wrong with it and changes nothing if it cannot be used. */
  async open(document, which = 0, options = {}) {
    try {
      await this.instrument.normalise(requireDrumFile(document));
      await this.model.load(document, which, options);
      say('file', '');
      return true;
    } catch (error) {
      warn('file', error);
      return false;
    }
  }

  async openFile() {
    try {
      const file = await chooseFile();
      if (file) await this.open(parseDrumFile(await file.text()));
    } catch (error) {
      warn('file', error);
    }
  }

  saveFile() {
    const { drum } = this.model;
    download(`${fileNameOf(drum.name)}.json`, JSON.stringify(this.model.fileDocument(), null, 2) + '\n');
  }

  /** A link to this drum and tuning. It is shown as well: a page from a file may not be allowed to write to the clipboard. */
  async shareLink() {
    const address = `${location.href.split('#')[0]}#${await encodeLink(this.model.document())}`;
    const field = make('textarea', { readonly: true, rows: 5, 'aria-label': 'Link to this drum and tuning' }, address);
    const told = make('p', { role: 'status' });
    openDialog(
      'Link to this drum and tuning',
      make('p', {}, 'The whole drum is in the link. It opens in any copy of this page: replace what stands before the # by where that copy is.'),
      field,
      make(
        'div',
        { class: 'row' },
        button(
          'Copy',
          async () => {
            field.select();
            try {
              await navigator.clipboard.writeText(address);
              told.textContent = 'Copied.';
            } catch {
              told.textContent = 'This browser does not let the page copy: the link is selected, copy it by hand.';
            }
          },
          { class: 'main' }
        )
      ),
      told
    );
    field.select();
  }

  choose() {
    const { model } = this,
      list = make('div', { class: 'drum-list' });
    const named = (label, value, set) =>
      make(
        'label',
        { class: 'field' },
        make('span', {}, label),
        make('input', { value, autocomplete: 'off', onchange: event => set(event.target.value.trim()) })
      );
    const close = openDialog(
      'Drums and tunings',
      make(
        'div',
        { class: 'row' },
        button('Open a drum file …', () => {
          close();
          this.openFile();
        }),
        button('Save drum file', () => {
          close();
          this.saveFile();
        })
      ),
      named('Name of this drum', model.drum.name ?? '', name => model.rename(name, model.tuningName)),
      named('Name of this tuning', model.tuningName, name => model.rename(model.drum.name ?? '', name)),
      list
    );
    const offer = (title, document) =>
      list.append(
        make(
          'section',
          {},
          make('h3', {}, title),
          make(
            'div',
            { class: 'row' },
            ...(document.tunings ?? []).map((tuning, i) =>
              button(tuning.name ?? `Tuning ${i + 1}`, () => {
                close();
                this.open(document, i);
              })
            )
          )
        )
      );
    const isPreset = this.presets.drums.some(({ document }) => document.name === model.drum.name);
    if (!isPreset && model.tunings.length > 0)
      offer(`${model.drum.name || 'This drum'}, the file that you opened`, { ...model.drum, tunings: model.tunings });
    for (const { document } of this.presets.drums) offer(document.name, document);
  }
}
