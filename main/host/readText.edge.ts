import { openToRead } from "./openToRead.edge.ts";

/** Larger than any file that a person or this program writes by words, bytes: what is read at once can't be broken off. */
const MOST_BYTES = 16 * 1024 * 1024;

/** What is named like a file of words and is none: a pipe, a device, or far too large. */
export class NoTextFile extends Error {
  readonly why: "no ordinary file" | "too large";
  constructor(why: NoTextFile["why"]) {
    super(why);
    this.why = why;
  }
}

/**
 * A text of a small file. It never waits for a pipe that nobody writes to, nor reads without end.
 * @throws NoTextFile, or what the disk says
 */
export async function readText(path: string, mostBytes = MOST_BYTES): Promise<string> {
  const file = await openToRead(path);
  try {
    const stat = await file.stat();
    // A folder is said by the read itself, as the disk says it.
    if (!stat.isFile() && !stat.isDirectory()) throw new NoTextFile("no ordinary file");
    if (stat.size > mostBytes) throw new NoTextFile("too large");
    return await file.readFile("utf8");
  } finally {
    await file.close();
  }
}
