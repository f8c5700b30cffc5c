// What a sound is made of: its spectrum, and how its level falls. No page.

/** Fourier transform in place, radix 2. @param real, imaginary  Float64Array of the same length, a power of two */
function transform(real, imaginary) {
  const n = real.length;
  for (let i = 1, j = 0; i < n; ++i) {
    let bit = n >> 1;
    for (; j & bit; bit >>= 1) j ^= bit;
    j ^= bit;
    if (i < j) {
      [real[i], real[j]] = [real[j], real[i]];
      [imaginary[i], imaginary[j]] = [imaginary[j], imaginary[i]];
    }
  }
  for (let size = 2; size <= n; size *= 2)
    for (let start = 0; start < n; start += size)
      for (let k = 0; k < size / 2; ++k) {
        const angle = (-2 * Math.PI * k) / size,
          c = Math.cos(angle),
          s = Math.sin(angle),
          low = start + k,
          high = low + size / 2;
        const re = c * real[high] - s * imaginary[high],
          im = c * imaginary[high] + s * real[high];
        real[high] = real[low] - re;
        imaginary[high] = imaginary[low] - im;
        real[low] += re;
        imaginary[low] += im;
      }
}

const decibels = (power, reference) => (power > 0 && reference > 0 ? 10 * Math.log10(power / reference) : -Infinity);

/** Level of the strongest part around each of `points` frequencies, evenly spaced in pitch from `lowest` to `highest` Hz, below the strongest of
    all: [{ hertz, decibels }], each at the frequency where it was found. Of the first 0.34 s, faded out at their end.
    @param samples  one channel */
export function spectrumOf(samples, rate, { lowest = 60, highest = 10000, points = 300 } = {}) {
  const size = 16384,
    real = new Float64Array(size),
    imaginary = new Float64Array(size);
  for (let i = 0; i < size; ++i) real[i] = (samples[i] ?? 0) * 0.5 * (1 + Math.cos((Math.PI * i) / size));
  transform(real, imaginary);
  const power = i => real[i] ** 2 + imaginary[i] ** 2;
  const edges = Array.from({ length: points + 1 }, (_, i) => lowest * (highest / lowest) ** (i / points));
  const strongest = edges.slice(1).map((to, i) => {
    let best = Math.round((edges[i] * size) / rate);
    for (let bin = best; bin * rate <= to * size; ++bin) if (power(bin) > power(best)) best = bin;
    return { hertz: (best * rate) / size, power: power(best) };
  });
  const most = Math.max(...strongest.map(one => one.power));
  return strongest.map(({ hertz, power: own }) => ({ hertz, decibels: decibels(own, most) }));
}

/** Level over time in steps of 5 ms, below the loudest of them: [{ seconds, decibels }]. */
export function decayOf(samples, rate) {
  const step = Math.round(0.005 * rate),
    powers = [];
  for (let at = 0; at + step <= samples.length; at += step) {
    let sum = 0;
    for (let i = at; i < at + step; ++i) sum += samples[i] ** 2;
    powers.push(sum);
  }
  const most = Math.max(...powers);
  return powers.map((power, i) => ({ seconds: ((i + 0.5) * step) / rate, decibels: decibels(power, most) }));
}
