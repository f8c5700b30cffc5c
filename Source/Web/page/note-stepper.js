// A note that a person heard: typed, or stepped to by semitones and cents. Large, for a phone at the stand.

import { button, make } from './dom.js';
import { noteName, readNote, spokenNote } from './notes.js';

/** @param set  called with the MIDI number @param get  gives it, or null @param start  where stepping begins */
export function noteStepper(label, get, set, start, a4) {
  const field = make('input', { class: 'note', autocomplete: 'off', spellcheck: 'false', placeholder: 'note', 'aria-label': label });
  const error = make('p', { class: 'error', role: 'alert' });
  const show = () => {
    field.value = get() === null ? '' : noteName(get());
    error.textContent = '';
  };
  field.addEventListener('change', () => {
    if (field.value.trim() === '') return set(null);
    const midi = readNote(field.value, a4);
    if (Number.isNaN(midi)) error.textContent = `"${field.value}" is not a note: type one such as F3, G#3 -12, or 174.6 Hz.`;
    else set(midi);
  });
  const step = (name, by, text) =>
    button(
      text,
      () => {
        const from = get();
        set(from === null ? start() : by === 1 || by === -1 ? Math.round(from) + by : Math.round(100 * (from + by)) / 100);
        show();
      },
      { 'aria-label': `${label}: ${text}, ${name}` }
    );
  show();
  return make(
    'div',
    { class: 'stepper' },
    make(
      'div',
      { class: 'stepper-row', role: 'group', 'aria-label': label },
      step('a semitone down', -1, '−1'),
      step('10 cents down', -0.1, '−10 c'),
      field,
      step('10 cents up', 0.1, '+10 c'),
      step('a semitone up', 1, '+1')
    ),
    error,
    make('span', { class: 'hidden', role: 'status' }, get() === null ? '' : spokenNote(get()))
  );
}
