/** A message over a pipe has its length before it, little-endian. */
export const HEAD_BYTES = 4;

/** The head of a message of so many bytes. */
export function headOf(bytes: number): Uint8Array {
  const head = new Uint8Array(HEAD_BYTES);
  new DataView(head.buffer).setUint32(0, bytes, true);
  return head;
}
