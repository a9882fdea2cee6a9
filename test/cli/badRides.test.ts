// A coach's files as they come: what `read` says of each kind of bad data, word for word in both languages, what its JSON
// holds, its exit code, and that no number of the reading is one that is none.
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it, vi } from "vitest";
import { LANGUAGES, type Language } from "../../main/contract/languageAndUnits.ts";
import { followcar } from "../../main/cli/followcar.ts";
import { readJourney, readJson, readLines, RIDES_HERE } from "../../main/journey/judge.ts";
import { FitBytes, RECORD_FIELDS, START, ENUM, U32, recordValues } from "../support/fitBytes.ts";
import type { ProgramRun } from "../support/runProgram.ts";
import { gpxText, isoAt, range, trkpt } from "../support/trackText.ts";
import { seeded } from "../ride/mutate.ts";

/** An hour and a half, a value a second, with the small unrest of real sensors. */
const N = 5400;
const random = seeded(26);
interface Row {
  powerW: number | null;
  heart: number | null;
  cadence: number;
  speed: number;
  altitude: number;
}
const sound: readonly Row[] = range(N).map((k) => ({
  powerW: Math.round(170 + 30 * (random() - 0.5)),
  heart: Math.round(138 + 3 * Math.sin(k / 90)),
  cadence: Math.round(88 + 5 * Math.sin(k / 37) + 3 * (random() - 0.5)),
  speed: Number((8.5 + Math.sin(k / 50)).toFixed(2)),
  altitude: Number((640 + 2 * Math.sin(k / 400)).toFixed(1)),
}));

/** A CSV file of the sound ride with some seconds changed. */
function csv(fromS: number, toS: number, change: (row: Row, s: number) => Partial<Row>): string {
  const lines = sound.map((row, s) => {
    const one = s >= fromS && s < toS ? { ...row, ...change(row, s) } : row;
    const cells = [one.powerW, one.heart, one.cadence, one.speed, one.altitude].map((value) => value ?? "");
    return [isoAt(s), ...cells].join(",");
  });
  return `time,power,heart rate,cadence,speed (m/s),altitude (m)\n${lines.join("\n")}\n`;
}

/** Way of the FIT rides, m: their speed changes, so that equal ways take unequal times. */
const wayM = range(3000).map((s) => 8 * s + 600 * (1 - Math.cos(s / 300)));

/** A FIT file of so many records, with what else stands in it. */
function fit(
  records: number,
  more: (file: FitBytes) => void = () => undefined,
  at = (s: number) => START + s,
): Uint8Array {
  const file = new FitBytes().define(0, 20, RECORD_FIELDS);
  for (let s = 0; s < records; s++) {
    const [, ...values] = recordValues(s);
    values[3] = 138 + Math.round(3 * Math.sin(s / 90));
    values[5] = Math.round(100 * wayM[s]!);
    values[6] = Math.round(1000 * (8 + 2 * Math.sin(s / 300)));
    file.data(0, [at(s), ...values]);
  }
  more(file);
  return file.finish();
}
/** Laps pressed by hand, as the file says, that end at these seconds. */
const laps = (ends: readonly number[]) => (file: FitBytes) => {
  file.define(1, 19, [
    [253, 4, U32],
    [2, 4, U32],
    [24, 1, ENUM],
  ]);
  ends.forEach((endS, index) => file.data(1, [START + endS, START + (ends[index - 1] ?? 0), 0]));
};
const sessions = (sports: readonly number[]) => (file: FitBytes) => {
  file.define(2, 18, [
    [253, 4, U32],
    [2, 4, U32],
    [5, 1, ENUM],
  ]);
  sports.forEach((sport, index) => file.data(2, [START + 900 * (index + 1), START + 900 * index, sport]));
};

interface Kind {
  readonly kind: string;
  readonly file: string;
  readonly bytes: string | Uint8Array;
  readonly said: Readonly<Record<Language, readonly string[]>>;
  /** Exit code of a refusal: its sentence and its remedy are what is said. */
  readonly code?: number;
}

const damaged = (): Uint8Array => {
  const bytes = fit(1800);
  bytes.fill(0xee, 20_000, 20_060);
  return bytes;
};

const KINDS: readonly Kind[] = [
  {
    kind: "power that ends early",
    file: "ends.csv",
    bytes: csv(4000, N, () => ({ powerW: null })),
    said: { en: ["Power is missing from 1:06:40 to 1:30:00."], de: ["Leistung fehlt von 1:06:40 bis 1:30:00."] },
  },
  {
    kind: "power frozen on one value",
    file: "frozen.csv",
    bytes: csv(2000, 2600, () => ({ powerW: 183 })),
    said: {
      en: [
        "Power stood still at one value from 0:33:20 to 0:43:20 while cadence and speed changed: it is left out there.",
      ],
      de: [
        "Die Leistung blieb von 0:33:20 bis 0:43:20 auf einem Wert stehen, während Trittfrequenz und Tempo sich änderten; sie zählt dort nicht.",
      ],
    },
  },
  {
    kind: "no power with the cranks turning",
    file: "zero.csv",
    bytes: csv(1800, 2400, () => ({ powerW: 0 })),
    said: {
      en: ["Power stayed at 0 with the pedals turning from 0:30:00 to 0:40:00: the meter gave no data there."],
      de: [
        "Die Leistung blieb von 0:30:00 bis 0:40:00 auf 0, obwohl die Kurbel sich drehte: Dort gibt es keine Messung.",
      ],
    },
  },
  ...[255, 0, 1].map((bpm) => ({
    kind: `a heart rate of ${bpm} held`,
    file: `heart-${bpm}.csv`,
    bytes: csv(2000, 4000, () => ({ heart: bpm })),
    said: {
      en: ["The heart rate sensor had no pulse from 0:33:20 to 1:06:40: what it gave there is left out."],
      de: ["Der Pulssensor fand von 0:33:20 bis 1:06:40 keinen Puls; was er dort lieferte, zählt nicht."],
    },
  })),
  {
    kind: "heart rate that counts pedal turns, 4 s late and a beat off",
    file: "locked.csv",
    bytes: csv(1000, 4000, (_, s) => ({ heart: sound[s - 4]!.cadence + Math.round((random() - 0.5) * 2.99) })),
    said: {
      en: [
        "2 seconds of heart rate jumped as no heart does and are left out.",
        "Heart rate followed the cadence from 0:16:40 to 1:06:40 and is left out there: the sensor may have counted pedal turns.",
      ],
      de: [
        "Der Puls sprang 2 Sekunden lang, wie kein Herz es tut; das ist weggelassen.",
        "Der Puls folgte von 0:16:40 bis 1:06:40 der Trittfrequenz und zählt dort nicht: Der Sensor hat wohl Kurbelumdrehungen gezählt.",
      ],
    },
  },
  {
    kind: "heart rate frozen",
    file: "heart-frozen.csv",
    bytes: csv(1000, 2000, () => ({ heart: 141 })),
    said: {
      en: ["Heart rate stood still from 0:16:40 to 0:33:20 and is left out there."],
      de: ["Der Puls blieb von 0:16:40 bis 0:33:20 auf einem Wert stehen und zählt dort nicht."],
    },
  },
  {
    kind: "an altitude that begins impossible",
    file: "altitude.csv",
    bytes: csv(0, 60, (_, s) => ({ altitude: s < 40 ? -500 : 12 })),
    said: {
      en: ["Altitude begins with values that no road has; before 0:01:00 it is left out."],
      de: ["Die Höhe beginnt mit Werten, die es auf keiner Straße gibt; vor 0:01:00 zählt sie nicht."],
    },
  },
  {
    kind: "damaged bytes",
    file: "damaged.fit",
    bytes: damaged(),
    said: {
      en: [
        "50 bytes of the file are damaged; the whole records around them are read.",
        "The times in the file jump: the longest piece is read; left out: 1 record from 9 January 2117, 16:13:18 UTC.",
      ],
      de: [
        "50 Bytes der Datei sind beschädigt; gelesen werden die heilen Einträge darum herum.",
        "Die Zeiten in der Datei springen. Gelesen wird das längste Stück; weggelassen: 1 Eintrag ab 9. Januar 2117, 16:13:18 UTC.",
      ],
    },
  },
  {
    kind: "a clock that jumps",
    file: "jump.fit",
    bytes: fit(2400, undefined, (s) => START + s + (s >= 1800 ? 40 * 86_400 : 0)),
    said: {
      en: [
        "The times in the file jump: the longest piece is read; left out: 600 records from 26 June 2026, 08:30:00 UTC.",
      ],
      de: [
        "Die Zeiten in der Datei springen. Gelesen wird das längste Stück; weggelassen: 600 Einträge ab 26. Juni 2026, 08:30:00 UTC.",
      ],
    },
  },
  {
    kind: "several sports",
    file: "sports.fit",
    bytes: fit(1800, sessions([2, 1])),
    said: {
      en: ["The file holds 2 sessions (cycling, running); only what was ridden is read."],
      de: ["Die Datei enthält 2 Abschnitte (Radfahren, Laufen); gelesen wird nur, was gefahren wurde."],
    },
  },
  {
    kind: "several sessions of one sport",
    file: "sessions.fit",
    bytes: fit(1800, sessions([2, 2])),
    said: {
      en: ["The file holds 2 sessions (cycling, cycling); all are read as one ride."],
      de: ["Die Datei enthält 2 Abschnitte (Radfahren, Radfahren); alle werden als eine Fahrt gelesen."],
    },
  },
  {
    kind: "a recording that is nearly all holes",
    file: "holes.fit",
    bytes: fit(300, undefined, (s) => START + s + (s >= 290 ? 3400 : 0)),
    said: {
      en: [
        "Only 4 min 59 s of the 1 h 2 min from the first to the last record are recorded; the rest is pauses and holes.",
      ],
      de: [
        "Nur 4 min 59 s von 1 h 2 min zwischen dem ersten und dem letzten Eintrag sind aufgezeichnet; der Rest sind Pausen und Lücken.",
      ],
    },
  },
  {
    kind: "laps by time",
    file: "laps-time.fit",
    bytes: fit(2710, laps([600, 1200, 1800, 2400, 2709])),
    said: {
      en: [
        "The 5 laps are, but for the last, all of one duration: they are taken as automatic, not as pressed by hand.",
      ],
      de: [
        "Die 5 Runden sind, bis auf die letzte, alle gleich lang: Sie gelten als automatisch gesetzt, nicht als von Hand gedrückt.",
      ],
    },
  },
  {
    kind: "laps by distance",
    file: "laps-distance.fit",
    bytes: fit(
      2710,
      laps([5000, 10_000, 15_000, 20_000, 22_000].map((metres) => wayM.findIndex((far) => far >= metres))),
    ),
    said: {
      en: [
        "The 5 laps are, but for the last, all of one distance: they are taken as automatic, not as pressed by hand.",
      ],
      de: [
        "Die 5 Runden sind, bis auf die letzte, alle gleich weit: Sie gelten als automatisch gesetzt, nicht als von Hand gedrückt.",
      ],
    },
  },
  {
    kind: "no usable clock",
    file: "stands.gpx",
    bytes: gpxText(range(100).map((s) => trkpt(s).replace(isoAt(s), isoAt(0)))),
    said: {
      en: [
        "All records of stands.gpx have one and the same time: there is no clock in it to read the ride by.",
        "Export the ride with its times, for example as FIT.",
      ],
      de: [
        "Alle Einträge in stands.gpx haben ein und dieselbe Zeit: Ohne Uhr lässt sich die Fahrt nicht lesen.",
        "Die Fahrt mit ihren Zeiten exportieren, zum Beispiel als FIT.",
      ],
    },
    code: 3,
  },
  {
    kind: "0 s",
    file: "zero-s.fit",
    bytes: fit(1),
    said: {
      en: [
        "zero-s.fit holds one record only: there is no ride in it.",
        "Choose the file of a whole ride, or export it again.",
      ],
      de: [
        "zero-s.fit enthält nur einen einzigen Eintrag, also keine Fahrt.",
        "Die Datei einer ganzen Fahrt wählen oder die Fahrt neu exportieren.",
      ],
    },
    code: 3,
  },
];

let folder = "";
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "followcar-bad-rides-"));
  for (const { file, bytes } of KINDS) writeFileSync(join(folder, file), bytes);
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const MIND: Readonly<Record<Language, string>> = { en: "Mind: ", de: "Zu beachten: " };

// Rides are read in this process, not apart: seventeen programs would take minutes to start.
vi.mock("../../main/journey/host.ts", () => ({ hostHere: () => ({ rides: RIDES_HERE }) }));

/** What the command line prints, run in this process. */
async function commandLine(args: readonly string[]): Promise<ProgramRun> {
  const kept = { stdout: "", stderr: "" };
  const spies = (["stdout", "stderr"] as const).map((stream) =>
    vi.spyOn(process[stream], "write").mockImplementation((text) => {
      kept[stream] += String(text);
      return true;
    }),
  );
  try {
    return { code: await followcar(args), ...kept };
  } finally {
    for (const spy of spies) spy.mockRestore();
  }
}

const CHOICES = { planPath: null, targetW: 170, toleranceW: 12, setting: "trainer" } as const;

/** Paths of the numbers in some value that are none; columns, in which NaN is no data, are left out. */
function noNumbers(value: unknown, path = ""): string[] {
  if (typeof value === "number") return Number.isFinite(value) ? [] : [path];
  if (value === null || typeof value !== "object" || ArrayBuffer.isView(value)) return [];
  return Object.entries(value).flatMap(([key, inner]) => noNumbers(inner, `${path}.${key}`));
}

describe.each(KINDS.filter(({ code }) => code === undefined))("$kind", ({ file, said }) => {
  it("is said in the same words by the lines and the JSON of both languages, and no number is none", async () => {
    const outcome = await readJourney(join(folder, file), CHOICES);
    for (const language of LANGUAGES) {
      const lines = readLines(outcome, language);
      const minded = lines
        .filter((line) => line.startsWith(MIND[language]))
        .map((line) => line.slice(MIND[language].length));
      expect(minded.slice(0, said[language].length)).toEqual(said[language]);
      // What else is said is of the reading, not of the file.
      expect(minded.length).toBe(said[language].length + outcome.reading.warnings.length);
      expect(readJson(outcome, language).warnings).toEqual(minded);
      expect(lines.filter((line) => /NaN|Infinity|undefined|null/.test(line))).toEqual([]);
    }
    expect(noNumbers(outcome.reading)).toEqual([]);
    expect(noNumbers(outcome.summary)).toEqual([]);
    expect(noNumbers(outcome.facts)).toEqual([]);
  });

  it("is printed by the command line, which is done with it", async () => {
    const run = await commandLine([
      "read",
      join(folder, file),
      "--target",
      "170",
      "--setting",
      "trainer",
      "--language",
      "de",
    ]);
    expect(run.code, run.stderr).toBe(0);
    for (const sentence of said.de) expect(run.stdout.split("\n")).toContain(`${MIND.de}${sentence}`);
  });
});

describe.each(KINDS.filter(({ code }) => code !== undefined))("$kind", ({ file, said, code }) => {
  it("is refused with the reason and a remedy, in both languages, in the JSON too, and by its exit code", async () => {
    for (const language of LANGUAGES) {
      const run = await commandLine(["read", join(folder, file), "--json", "--language", language]);
      const [sentence, remedy] = said[language];
      expect(run.code).toBe(code);
      expect(run.stderr).toBe(`followcar: ${sentence}\n           ${remedy}\n`);
      expect(JSON.parse(run.stdout)).toMatchObject({ failure: { code: "ride-not-usable", sentence, remedy } });
    }
  });
});

it("finds a number that is none wherever it stands", () => {
  expect(noNumbers({ a: [1, { b: NaN }], c: Infinity, d: new Float64Array([NaN]), e: null })).toEqual([".a.1.b", ".c"]);
});
