import { Failure } from "../contract/failure.ts";
import { csvColumn, type CsvColumn } from "./csvColumns.ts";
import { decimal } from "./decimal.ts";
import { MOST_RECORDS, RecordTable, type ColumnName, type DecodedRide } from "./rideRecords.ts";
import { localOffsetMin } from "./localOffsetMin.ts";
import { asIsoTime } from "./asIsoTime.ts";
import { isoTime } from "./xml/isoTime.ts";
import { note, type Note } from "../contract/notice.ts";

/** The header stands within so many lines; before it exports put titles. */
const HEADER_WITHIN = 30;
/** More than any export has. */
const MOST_COLUMNS = 500;
/** Longer than any line of an export, characters: it is passed over. */
const LONGEST_LINE = 100_000;
/** A rider's speed in m/s stays below it over most of a ride; in km/h it does not. Our own bound; no source. */
const FASTEST_USUAL_MPS = 20;

const DATE_ONLY = /^\d{4}-\d{1,2}-\d{1,2}$/;
const CLOCK = /^(\d{1,3}):(\d{2})(?::(\d{2}(?:[.,]\d+)?))?$/;
/** Later than any date that a time can mean, ms since 1970 (the year 9999). */
const LAST_MS = 253402300799999;

interface Layout {
  readonly delimiter: string;
  /** Line of the header, from 0. */
  readonly line: number;
  readonly columns: readonly (CsvColumn | null)[];
}

/**
 * Reads a CSV text with a header line: columns are found by trade words and units. Times may be dates, seconds since 1970
 * or since the start, or h:mm:ss. Failure `ride-not-usable` without a header that names a time and one value.
 */
export function decodeCsv(text: string, fileName: string): DecodedRide {
  const layout = findLayout(text);
  if (!layout) {
    throw new Failure("csv-without-header", { fileName });
  }
  const warnings: Note[] = [];
  const { lines, openQuote, kept, leftLines } = shapeOf(text);
  if (lines > MOST_RECORDS + HEADER_WITHIN) throw new Failure("ride-too-many-records", { fileName });
  // A quotation mark left open would swallow all lines behind it.
  const quoted = !openQuote;
  // Only what is used of a row is kept: a cell that is text costs several times one that is a number.
  const values = layout.columns.map((c, i) =>
    c && c.column !== "time" && layout.columns.findIndex((d) => d?.column === c.column) === i ? c : null,
  );
  const timeCells: (string[] | null)[] = layout.columns.map((c) => (c?.column === "time" ? [] : null));
  const numbers: number[][] = values.map(() => []);
  let rows = 0;
  // A comma is a decimal mark only where something else parts the columns.
  const commaDecimal = layout.delimiter !== ",";
  const numberOf = (cell: string) => decimal(commaDecimal ? cell.replace(",", ".") : cell);
  // Titles put before a table often end their lines in another way than it does.
  for (const line of kept.split(/\r\n|\n|\r/).slice(layout.line + 1)) {
    if (line.trim() === "") continue;
    rows++;
    const cells = cellsOf(line, layout.delimiter, quoted);
    const cell = (i: number) => cells[i] ?? "";
    timeCells.forEach((column, i) => void column?.push(cell(i)));
    values.forEach((c, i) => c && void numbers[i].push(numberOf(cell(i))));
  }

  const times = bestTimes(rows, timeCells, layout.columns, numberOf);
  if (times.withoutZone) warnings.push(note("ride-times-without-zone", {}));

  const scales = values.map((c, i) => (c ? (c.scale ?? guessScale(c.column as ColumnName, numbers[i], warnings)) : 0));
  const table = new RecordTable(fileName);
  let untimed = 0;
  for (let r = 0; r < rows; r++) {
    const timeMs = times.ms[r];
    if (timeMs !== timeMs) {
      untimed++;
      continue;
    }
    const record: Partial<Record<ColumnName, number>> = {};
    values.forEach((c, i) => {
      if (c) record[c.column as ColumnName] = numbers[i][r] * scales[i] + c.shift;
    });
    table.add(timeMs, record);
  }
  if (table.count === 0) {
    throw new Failure("csv-without-times", { fileName });
  }
  if (untimed + leftLines > 0)
    warnings.push(note("ride-untimed-lines", { left: untimed + leftLines, lines: rows + leftLines }));
  return { table, utcOffsetMin: times.utcOffsetMin, pauses: [], laps: [], gradientWindowM: 150, warnings };
}

/**
 * How many lines hold something, whether one leaves a quotation mark open, and the text with each line that is too long
 * left empty, so that the lines keep their numbers: the parser counts letters, not cells, and a line of nothing but
 * separators would fill the memory.
 */
function shapeOf(text: string): { lines: number; openQuote: boolean; kept: string; leftLines: number } {
  const parts: string[] = [];
  let lines = 1;
  let openQuote = false;
  let odd = false;
  let began = 0;
  let keptTo = 0;
  for (let i = 0; i <= text.length; i++) {
    const c = i < text.length ? text.charCodeAt(i) : 10;
    if (c === 34) odd = !odd;
    if (c !== 10 && c !== 13) continue;
    if (i > began) lines++;
    if (i - began > LONGEST_LINE) {
      parts.push(text.slice(keptTo, began));
      keptTo = i;
    }
    began = i + 1;
    if (c === 13) continue;
    openQuote ||= odd;
    odd = false;
  }
  const kept = parts.length === 0 ? text : [...parts, text.slice(keptTo)].join("");
  return { lines, openQuote, kept, leftLines: parts.length };
}

/**
 * The cells of a line, without the spaces about them. Quotation marks hold a cell together, and two in it stand for one
 * (RFC 4180, 2.5 to 2.7); a mark elsewhere is a letter, and where marks mean nothing they are left out.
 */
function cellsOf(line: string, delimiter: string, quoted: boolean): string[] {
  if (!quoted || !line.includes('"'))
    return line.split(delimiter, MOST_COLUMNS).map((cell) => cell.replaceAll('"', "").trim());
  const cells: string[] = [];
  let at = 0;
  while (at <= line.length && cells.length < MOST_COLUMNS) {
    while (line[at] === " ") at++;
    let cell = "";
    if (line[at] === '"') {
      const from = at + 1;
      for (at = from; at < line.length && (line[at] !== '"' || line[at + 1] === '"'); at++) if (line[at] === '"') at++;
      cell = line.slice(from, at).replaceAll('""', '"');
      at++;
    }
    const next = line.indexOf(delimiter, at);
    const end = next < 0 ? line.length : next;
    if (cell === "") cell = line.slice(at, end);
    cells.push(cell.trim());
    at = end + 1;
  }
  return cells;
}

/** The separator and header line that name a time and at least one value, the most values winning. */
function findLayout(text: string): Layout | null {
  const lines = text.slice(0, 200_000).split(/\r\n|\n|\r/, HEADER_WITHIN);
  let best: Layout | null = null;
  let bestNamed = 1;
  for (const delimiter of [",", ";", "\t", "|"]) {
    lines.forEach((content, line) => {
      if (!content.includes(delimiter)) return;
      const cells = content.split(delimiter, MOST_COLUMNS).map((cell) => cell.trim().replace(/^"(.*)"$/, "$1"));
      const columns = cells.map(csvColumn);
      const named = new Set(columns.map((c) => c?.column).filter(Boolean));
      if (!named.has("time") || named.size <= bestNamed) return;
      bestNamed = named.size;
      best = { delimiter, line, columns };
    });
  }
  return best;
}

interface Times {
  readonly ms: readonly number[];
  readonly withoutZone: boolean;
  readonly utcOffsetMin: number | null;
}

/** The times of the column that tells most: a date and a clock in two columns are put together first. */
function bestTimes(
  rows: number,
  timeCells: readonly (readonly string[] | null)[],
  columns: readonly (CsvColumn | null)[],
  numberOf: (cell: string) => number,
): Times {
  const at = columns.flatMap((c, i) => (c?.column === "time" ? [i] : []));
  const candidates = at.map((i) => ({ cells: timeCells[i]!, scale: columns[i]!.scale ?? 1 }));
  const date = candidates.find(({ cells }) => DATE_ONLY.test(cells[0] ?? ""));
  const clock = candidates.find(({ cells }) => CLOCK.test(cells[0] ?? ""));
  if (date && clock)
    candidates.unshift({ cells: date.cells.map((d, r) => `${d}T${clock.cells[r].padStart(8, "0")}`), scale: 1 });
  let best: Times = { ms: new Array<number>(rows).fill(NaN), withoutZone: false, utcOffsetMin: null };
  let bestScore = 0;
  for (const { cells, scale } of candidates) {
    const times = readTimes(cells, scale, numberOf);
    const known = times.ms.filter((ms) => ms === ms);
    // A time with a date is worth more than one without; both less than one more second told apart.
    const score = new Set(known).size + ((known[0] ?? 0) > 9e11 ? 0.5 : 0);
    if (score > bestScore) [best, bestScore] = [times, score];
  }
  return best;
}

function readTimes(cells: readonly string[], scale: number, numberOf: (cell: string) => number): Times {
  let withoutZone = false;
  const offsets = new Set<number | null>();
  const ms = cells.map((cell) => {
    const plain = numberOf(cell);
    // Seconds or milliseconds since 1970 are told by their size: 1e9 s is 2001, 1e11 ms is 1973.
    if (Math.abs(plain) > LAST_MS) return NaN;
    if (plain > 1e11) return plain;
    if (plain === plain) return Math.round(plain * (plain > 9e8 ? 1 : scale) * 1000);
    const clock = CLOCK.exec(cell);
    if (clock) {
      const [, a, b, c] = clock;
      const seconds =
        c === undefined ? Number(a) * 60 + Number(b) : Number(a) * 3600 + Number(b) * 60 + Number(c.replace(",", "."));
      return Math.round(seconds * 1000);
    }
    const time = isoTime(asIsoTime(cell));
    if (!time) return NaN;
    if (time.offsetMin === null) withoutZone = true;
    offsets.add(time.offsetMin);
    return time.ms;
  });
  const [only] = offsets;
  return { ms, withoutZone, utcOffsetMin: offsets.size === 1 && only ? localOffsetMin(only) : null };
}

/** Scale of a speed or distance whose header names no unit, from what a rider can do; said in the warnings. */
function guessScale(column: ColumnName, values: readonly number[], warnings: Note[]): number {
  const numbers = values.filter((v) => v === v);
  if (column === "speedMps") {
    const sorted = [...numbers].sort((a, b) => a - b);
    const high = sorted[Math.floor(sorted.length * 0.9)] ?? 0;
    const isKmh = high > FASTEST_USUAL_MPS;
    warnings.push(note("csv-guessed-unit", { column: "speed", unit: isKmh ? "km/h" : "m/s" }));
    return isKmh ? 1 / 3.6 : 1;
  }
  const last = numbers[numbers.length - 1] ?? 0;
  const first = numbers[0] ?? 0;
  // A ride of less than 1 m per record in the mean is a count of kilometres.
  const isKm = last - first < numbers.length;
  warnings.push(note("csv-guessed-unit", { column: "distance", unit: isKm ? "km" : "m" }));
  return isKm ? 1000 : 1;
}
