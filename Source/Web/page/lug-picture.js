// A head with its lugs, as it lies before the one who turns: the batter from above, the resonant head with the drum turned over.

import { draw } from './dom.js';

/** Where a lug is, rad clockwise from the right. Turned over, the resonant head's lugs count counterclockwise. */
export const lugAngle = (lug, lugs, side) => ((2 * Math.PI * (lug - 1)) / lugs) * (side === 'resonant' ? -1 : 1);

export const viewOf = side => (side === 'resonant' ? 'turned over' : 'from above');

/** @param stateOf  "next", "done" or "" of a lug, counted from 1
    @param textOf  what stands beside a lug, if anything does */
export function lugPicture(side, lugs, label, stateOf, textOf = null) {
  const radius = textOf ? 84 : 74;
  const size = 2 * (radius + (textOf ? 66 : 36));
  const svg = draw(
    'svg',
    { viewBox: `0 0 ${size} ${size}`, class: textOf ? 'rod-picture large' : 'rod-picture', role: 'img', 'aria-label': label },
    draw('circle', { cx: size / 2, cy: size / 2, r: radius, class: `rim ${side}` }),
    draw('text', { x: size / 2, y: size / 2 + 5, class: 'middle' }, viewOf(side))
  );
  for (let lug = 1; lug <= lugs; ++lug) {
    const angle = lugAngle(lug, lugs, side);
    const at = r => ({ x: size / 2 + r * Math.cos(angle), y: size / 2 + r * Math.sin(angle) });
    const { x, y } = at(radius + 18);
    const state = stateOf(lug);
    svg.append(
      draw('circle', { cx: x, cy: y, r: 15, class: `lug ${state}` }),
      draw('text', { x, y: y + 6, class: `lug-text ${state}` }, String(lug))
    );
    const text = textOf?.(lug);
    if (text) svg.append(draw('text', { x: at(radius + 48).x, y: at(radius + 48).y + 5, class: 'heard-text' }, text));
  }
  return svg;
}
