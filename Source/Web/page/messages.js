// Sentences for the user above the page, one for each matter; each can be closed.

import { button, byId, make } from './dom.js';

const shown = new Map(); // matter → element

/** Shows a sentence, in place of the former one about the same matter; an empty one takes it away.
    @param action  { label, run }, a button beside it, if any
    @param canClose  false for what ends by itself */
export function say(matter, sentence, { isWarning = false, action = null, canClose = true } = {}) {
  const former = shown.get(matter);
  if (former?.dataset.sentence === sentence) return;
  former?.remove();
  shown.delete(matter);
  if (!sentence) return;
  const close = () => say(matter, '');
  const element = make(
    'p',
    { class: isWarning ? 'message warning' : 'message', 'data-sentence': sentence },
    make('span', {}, sentence),
    action &&
      button(action.label, () => {
        close();
        action.run();
      }),
    canClose && button('Close', close, { class: 'quiet', 'aria-label': `Close: ${sentence}` })
  );
  shown.set(matter, element);
  byId('messages').append(element);
}

export function warn(matter, error) {
  say(matter, error.message ?? String(error), { isWarning: true });
}
