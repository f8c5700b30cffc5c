// Lengths of a drum, whatever unit their keys end in.

const inchesPer = { in: 1, mm: 1 / 25.4, cm: 1 / 2.54, m: 1 / 0.0254 };

/** inches({ depth_mm: 127 }, 'depth') is 5; at most two decimals, for reading. */
export function inches(drum, name) {
  for (const [unit, per] of Object.entries(inchesPer))
    if (drum[`${name}_${unit}`] !== undefined) return Math.round(100 * per * drum[`${name}_${unit}`]) / 100;
  return NaN;
}

/** Keys that set a length in inches and remove its former value in any unit. */
export const setInches = (name, value) => ({
  ...Object.fromEntries(Object.keys(inchesPer).map(unit => [`${name}_${unit}`, undefined])),
  [`${name}_in`]: value
});
