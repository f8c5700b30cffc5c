// Small helpers to make elements.

const svgNamespace = 'http://www.w3.org/2000/svg';

function fill(element, attributes, children) {
  for (const [name, value] of Object.entries(attributes))
    if (name.startsWith('on')) element.addEventListener(name.slice(2), value);
    else if (value === true) element.setAttribute(name, '');
    else if (value !== false && value !== undefined && value !== null) element.setAttribute(name, value);
  element.append(...children.filter(child => child !== null && child !== undefined && child !== false));
  return element;
}

/** make('button', { type: 'button', onclick: … }, 'Play') */
export const make = (tag, attributes = {}, ...children) => fill(document.createElement(tag), attributes, children);

/** The same inside an <svg>. */
export const draw = (tag, attributes = {}, ...children) => fill(document.createElementNS(svgNamespace, tag), attributes, children);

/** Replaces what is in an element; what had the focus, or what takes its place, has it afterwards. */
export function redraw(element, ...children) {
  const stops = () => [...element.querySelectorAll('button, input, select, textarea, summary, a')];
  const focused = stops().indexOf(document.activeElement);
  element.replaceChildren(...children);
  if (focused < 0) return;
  const isOpen = stop => !stop.disabled;
  (stops().slice(focused).find(isOpen) ?? stops().find(isOpen))?.focus({ preventScroll: true });
}

export const byId = id => document.getElementById(id);

export const button = (label, onclick, attributes = {}) => make('button', { type: 'button', onclick, ...attributes }, label);

/** A <select> of [value, label] pairs. */
export function choice(pairs, chosen, onchange, attributes = {}) {
  const select = make(
    'select',
    { onchange: event => onchange(event.target.value), ...attributes },
    ...pairs.map(([value, label]) => make('option', { value, selected: value === chosen }, label))
  );
  return select;
}

/** How much larger than on a small screen drawings are, so that they grow with the text around them. */
export const drawingScale = () => Math.max(1, parseFloat(getComputedStyle(document.documentElement).fontSize) / 15.5);

export const wantsLessMotion = () => matchMedia('(prefers-reduced-motion: reduce)').matches;

/** Colours of the theme now, by name without the dashes. */
export function colours() {
  const style = getComputedStyle(document.documentElement);
  return new Proxy({}, { get: (_, name) => style.getPropertyValue(`--${name}`).trim() });
}
