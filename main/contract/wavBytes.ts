/** Sound as the bytes of a WAV file: 16-bit PCM, one channel, little endian (RIFF WAVE, format tag 1). */
export function wavBytes(samples: Int16Array, rateHz: number): Uint8Array {
  const bytes = new Uint8Array(44 + samples.length * 2);
  const view = new DataView(bytes.buffer);
  const text = (at: number, letters: string): void =>
    [...letters].forEach((letter, k) => view.setUint8(at + k, letter.charCodeAt(0)));
  text(0, "RIFF");
  view.setUint32(4, bytes.length - 8, true);
  text(8, "WAVEfmt ");
  view.setUint32(16, 16, true);
  view.setUint16(20, 1, true);
  view.setUint16(22, 1, true);
  view.setUint32(24, rateHz, true);
  view.setUint32(28, rateHz * 2, true);
  view.setUint16(32, 2, true);
  view.setUint16(34, 16, true);
  text(36, "data");
  view.setUint32(40, samples.length * 2, true);
  samples.forEach((value, k) => view.setInt16(44 + k * 2, value, true));
  return bytes;
}
