// The one dialog of the page: lists, and a field to type a value.

import { button, byId, make } from './dom.js';

/** Opens the dialog; returns a function that closes it. */
export function openDialog(title, ...content) {
  const dialog = byId('dialog');
  const close = () => dialog.close();
  dialog.replaceChildren(
    make('div', { class: 'dialog-head' }, make('h2', { id: 'dialog-title' }, title), button('Close', close, { class: 'quiet' })),
    ...content
  );
  dialog.onclick = event => {
    if (event.target === dialog) close();
  };
  if (!dialog.open) dialog.showModal();
  return close;
}

/** Asks for a value. `accept` returns "" or a sentence about what cannot be read, or a promise of one. */
export function ask(title, value, accept) {
  const field = make('input', { id: 'typed', value, autocomplete: 'off', 'aria-describedby': 'typed-error', spellcheck: 'false' });
  const error = make('p', { id: 'typed-error', role: 'alert', class: 'error' });
  const form = make(
    'form',
    {
      onsubmit: async event => {
        event.preventDefault();
        const sentence = await accept(field.value);
        if (sentence) error.textContent = sentence;
        else close();
      }
    },
    make('label', { for: 'typed' }, title),
    field,
    error,
    make('div', { class: 'row' }, make('button', { class: 'main' }, 'Set'))
  );
  const close = openDialog(title, form);
  field.select();
}
