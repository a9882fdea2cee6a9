// A process that does nothing but parse one ride file with the library for it: argv is the path and the format.
import { readFileSync } from "node:fs";
import { parseAlone } from "./parseAlone.ts";

parseAlone(new Uint8Array(readFileSync(process.argv[2]!)), process.argv[3]!);
