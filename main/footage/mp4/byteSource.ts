/** Random access to the bytes of a file, whoever holds them. */
export interface ByteSource {
  /** Length, bytes. */
  readonly size: number;
  /** The bytes from `offset`, at most `length` of them (fewer at the end of the source). Rejects when the source cannot be read. */
  readonly read: (offset: number, length: number) => Promise<Uint8Array>;
}

/** A source over bytes in memory. */
export function bytesSource(bytes: Uint8Array): ByteSource {
  return {
    size: bytes.length,
    read: (offset, length) => Promise.resolve(bytes.subarray(offset, Math.min(bytes.length, offset + length))),
  };
}
