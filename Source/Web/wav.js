/** Sound as a WAV file with 24 bits. @param {Float32Array} samples  channels interleaved, full scale 1; beyond it they are clipped */
export function wavOf(samples, rate, channels) {
  const header = 44, width = 3;
  const view = new DataView(new ArrayBuffer(header + width * samples.length));
  const text = (at, letters) => [...letters].forEach((letter, i) => view.setUint8(at + i, letter.charCodeAt(0)));
  text(0, "RIFF");
  view.setUint32(4, header - 8 + width * samples.length, true);
  text(8, "WAVEfmt ");
  view.setUint32(16, 16, true);
  view.setUint16(20, 1, true); // integer samples
  view.setUint16(22, channels, true);
  view.setUint32(24, rate, true);
  view.setUint32(28, rate * channels * width, true);
  view.setUint16(32, channels * width, true);
  view.setUint16(34, 8 * width, true);
  text(36, "data");
  view.setUint32(40, width * samples.length, true);
  samples.forEach((sample, i) => {
    const value = Math.max(-0x800000, Math.min(0x7fffff, Math.round(sample * 0x7fffff)));
    view.setUint16(header + width * i, value & 0xffff, true);
    view.setUint8(header + width * i + 2, (value >> 16) & 0xff);
  });
  return new Blob([view], { type: "audio/wav" });
}
