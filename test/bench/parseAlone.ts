import { parse } from "csv-parse/sync";
import FitParser from "fit-file-parser";
import { SaxesParser } from "saxes";

/** The libraries alone on the same bytes: the time that reading is held against. */
export function parseAlone(bytes: Uint8Array, format: string): void {
  if (format === "fit")
    new FitParser({ force: true, mode: "list" }).parse(bytes as Buffer<ArrayBuffer>, () => undefined);
  else if (format === "csv")
    parse(new TextDecoder().decode(bytes), { relax_column_count: true, skip_empty_lines: true });
  else {
    const parser = new SaxesParser({ xmlns: false });
    parser.on("error", () => undefined);
    // Without listeners it skips what it would hand on, which is no parsing.
    for (const event of ["opentag", "text", "closetag"] as const) parser.on(event, () => undefined);
    parser.write(new TextDecoder().decode(bytes)).close();
  }
}
