/** Random access to the bytes of a file, whoever holds them. */
export interface ByteSource {
  /** Length, bytes. */
  readonly size: number;
  /** The bytes from `offset`, at most `length` of them (fewer at the end of the source). Rejects when the source cannot be read. */
  readonly read: (offset: number, length: number) => Promise<Uint8Array>;
}
