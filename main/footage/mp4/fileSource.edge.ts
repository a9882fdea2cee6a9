import { openToRead } from "../../host/openToRead.edge.ts";
import type { ByteSource } from "./byteSource.ts";

/** A byte source over an open file, counting what it read; `close` it when done. */
export interface FileSource extends ByteSource {
  /** Bytes read so far. */
  readonly bytesRead: () => number;
  readonly close: () => Promise<void>;
}

/** Opens a file for random access. Rejects with Node's error when it cannot be opened; with `ENOTFILE` where it is a pipe or a device. */
export async function fileSource(path: string): Promise<FileSource> {
  const handle = await openToRead(path);
  try {
    const stat = await handle.stat();
    if (!stat.isFile())
      throw Object.assign(new Error("not a regular file"), { code: stat.isDirectory() ? "EISDIR" : "ENOTFILE" });
    let total = 0;
    return {
      size: stat.size,
      read: async (offset, length) => {
        const wanted = Math.max(0, Math.min(length, stat.size - offset));
        const buffer = new Uint8Array(wanted);
        let got = 0;
        while (got < wanted) {
          const { bytesRead } = await handle.read(buffer, got, wanted - got, offset + got);
          if (bytesRead === 0) break;
          got += bytesRead;
        }
        total += got;
        return buffer.subarray(0, got);
      },
      bytesRead: () => total,
      close: () => handle.close(),
    };
  } catch (error) {
    await handle.close();
    throw error;
  }
}
