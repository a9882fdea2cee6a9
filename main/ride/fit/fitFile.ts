import { fitCrc } from "./fitCrc.ts";

const HEADER_BYTES = 14;
/** Protocol 2.0 and the profile whose fields are read; no reader of ours looks at them. */
const VERSIONS = [0x20, 0x5c, 0x08];

/** A sound FIT file in the making: messages go in, header, size and checksum come with `finish` (public FIT protocol text). */
export class FitFile {
  private bytes = new Uint8Array(4096);
  private length = HEADER_BYTES;

  /** True while no message is in it. */
  get isEmpty(): boolean {
    return this.length === HEADER_BYTES;
  }

  /** A definition of a local type: `rest` is all behind its header byte, without developer fields. */
  define(local: number, rest: Uint8Array): void {
    this.begin(0x40 | local);
    this.copy(rest, 0, rest.length);
  }

  /** The header byte of a message. */
  begin(header: number): void {
    this.reserve(1);
    this.bytes[this.length++] = header;
  }

  /** Takes `count` bytes of `source` from `from` on. */
  copy(source: Uint8Array, from: number, count: number): void {
    this.reserve(count);
    for (let i = 0; i < count; i++) this.bytes[this.length++] = source[from + i]!;
  }

  /** The whole file. */
  finish(): Uint8Array {
    this.reserve(2);
    const file = this.bytes.subarray(0, this.length + 2);
    const view = new DataView(file.buffer, file.byteOffset, file.byteLength);
    file.set([HEADER_BYTES, ...VERSIONS]);
    view.setUint32(4, this.length - HEADER_BYTES, true);
    file.set([0x2e, 0x46, 0x49, 0x54], 8);
    view.setUint16(this.length, fitCrc(file, 0, this.length), true);
    return file;
  }

  private reserve(count: number): void {
    if (this.length + count <= this.bytes.length) return;
    const wider = new Uint8Array(Math.max(2 * this.bytes.length, this.length + count));
    wider.set(this.bytes);
    this.bytes = wider;
  }
}
