// What is handed over is read as a stranger would: its bytes, its metadata, and by a reading program (tesseract) its
// pixels. Each input field holds a word of its own that must not come out.
import { execFileSync } from "node:child_process";
import { mkdirSync, mkdtempSync, readFileSync, readdirSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { basename, extname, join } from "node:path";
import { inflateSync } from "node:zlib";
import { afterAll, beforeAll, expect, test } from "vitest";
import type { Card } from "../../main/contract/card.ts";
import type { DebriefDocument } from "../../main/contract/debrief.ts";
import { newAthlete } from "../../main/debrief/athlete.ts";
import { saveAthlete } from "../../main/debrief/athleteStore.edge.ts";
import { makeDemo } from "../../main/demo/makeDemo.edge.ts";
import { printerInUse } from "../../main/host/toolsInUse.edge.ts";
import { hostWith, type Host } from "../../main/journey/host.ts";
import { prepareDebrief } from "../../main/journey/preparedDebrief.ts";
import { openDebrief } from "../../main/journey/openDebrief.ts";
import { renderJourney, type RenderRequest } from "../../main/journey/renderedFilm.ts";
import { distanceM } from "../../main/maths/geodesy.ts";
import { isOnPath } from "../../main/setup/tools.mjs";
import { filmClock } from "../../overlay/instant/filmClock.ts";
import { FitBytes, STRING, U16, U32 } from "../support/fitBytes.ts";
import { testTools } from "../support/tools.ts";

const needed = (process.env.FOLLOWCAR_REQUIRE ?? "").split(",").includes("tesseract");
const there = isOnPath("tesseract");
if (!there && needed) throw new Error("FOLLOWCAR_REQUIRE names tesseract, and none was found");

const context = { signal: new AbortController().signal, report: () => undefined };
const tools = testTools();

/** Serial numbers, as FIT keeps them: 32 bits. */
const COMPUTER = 3_141_592_653;
const SENSOR = 2_718_281_828;

/** Of who, when and where: in no lesson. Each stands where its key says. */
const PERSON = {
  "athlete, given name": "Xanthippe",
  "athlete, family name": "Quillfeather",
  "plan, event": "Vexholm",
  "athlete, event": "Grandorvia",
  "plan, title": "Quombe",
  "ride's file": "zkridefile",
  "clip's file": "zkclip",
  "comment's file": "zkspoken",
  "athlete, how the target was found": "zkfound",
  "athlete, meter": "zkmeter",
  "athlete, source of an earlier target": "zkearlier",
  "plan, illness": "zkillness",
  "plan, medicine": "zkmedicine",
  "athlete, consent": "zkconsent",
  "athlete, meter of the trainer": "zktrainer",
  "athlete, day of the lesson's consent": "zkconsentday",
  "plan, heat": "zkheat",
  "plan, sleep": "zksleep",
  "ride, rider's name": "zkfitrider",
  "ride, name of the workout": "zkworkout",
  "ride, name of the sport": "zksportname",
};
/** Of the machine and the camera: in no output at all. */
const MACHINE = {
  "folder of the machine": "zkmachine",
  "clip's title": "zktitle",
  "clip's artist": "zkartist",
  "clip's comment": "zkremark",
  "camera's serial number": "ZQ77412X",
  "clip's place": "+46.5123",
  "comment's title": "zkwavtitle",
  "clip's maker": "zkmaker",
  "clip's model": "zkmodel",
  "clip's date": "zkdatetag",
  "clip's track": "zktrackname",
  "serial number of the bike computer": String(COMPUTER),
  "serial number of the bike computer, in base 16": COMPUTER.toString(16),
  "serial number of a sensor": String(SENSOR),
  "name of a sensor": "zksensor",
  "name of the bike computer": "zkcomputer",
};
/** The demo's ride is of 12 April 2026, a Sunday; what is given in the fields has days of its own. */
const DAYS = /\b12(th|\.)? ?(of )?April|April 12|2026-04-12|12\.0?4\.(20)?26|Sunday|2027-06-13|13 June|June 13/i;

let root = "";
let folder = "";
let host: Host;
let home = { latDeg: 0, lonDeg: 0, radiusM: 800 };
let written: { athlete: readonly string[]; lesson: readonly string[] };

const rendering = (more: Partial<RenderRequest>): RenderRequest => ({
  debriefPath: folder,
  settings: {},
  outPath: null,
  trustPaths: false,
  handOver: true,
  seen: true,
  consent: null,
  ...more,
});

beforeAll(async () => {
  root = mkdtempSync(join(tmpdir(), "followcar-zkmachine-"));
  process.env.FOLLOWCAR_CACHE = join(root, "cache");
  process.env.FOLLOWCAR_STATE = join(root, "state");
  host = hostWith({ tools, printPage: printerInUse() });
  const demo = await makeDemo(join(root, "demo"), tools, context, { small: true });
  const ride = join(root, "demo", "zkridefile Quillfeather.fit");
  writeFileSync(ride, named(readFileSync(demo.ridePath)));
  const clips = demo.clipPaths.map((path, index) => {
    const out = join(root, "demo", `zkclip${index + 1} Quillfeather.mp4`);
    const tags = { title: "zktitle", artist: "zkartist", comment: "zkremark", location: "+46.5123+007.5123/" };
    const metadata = Object.entries({
      ...tags,
      ...{ serial: "ZQ77412X", make: "zkmaker", model: "zkmodel", "com.maker.serial": "ZQ77412X", date: "zkdatetag" },
    });
    execFileSync(tools.ffmpeg, [
      ...[
        "-v",
        "error",
        "-i",
        path,
        "-vf",
        "scale=1280:720",
        "-c:v",
        "libx264",
        "-preset",
        "ultrafast",
        "-c:a",
        "copy",
      ],
      ...metadata.flatMap(([name, value]) => ["-metadata", `${name}=${value}`]),
      ...["-metadata:s:v", "handler_name=zktrackname", "-metadata:s:a", "handler_name=zktrackname"],
      ...["-map_metadata", "0", "-movflags", "use_metadata_tags", out],
    ]);
    return out;
  });
  const plan = JSON.parse(readFileSync(demo.planPath, "utf8")) as object;
  const planPath = join(root, "demo", "plan.json");
  writeFileSync(
    planPath,
    JSON.stringify({
      ...plan,
      title: "Quombe loop",
      rider: "Xanthippe Quillfeather",
      event: { name: "Vexholm stage", duration: "5:00:00", date: "2027-06-13" },
      note: {
        feel: "Quillfeather felt light at Quombe",
        kit: "Quillfeather's wheels",
        heat: "zkheat on 12 April",
        foodAndDrink: "Quillfeather drank at Quombe",
        sleep: "zksleep",
      },
    }),
  );
  const athleteDir = join(root, "athlete");
  const { latDeg, lonDeg } = demo.truth.records;
  home = { latDeg: latDeg[0]!, lonDeg: lonDeg[0]!, radiusM: 800 };
  const athlete = newAthlete("Xanthippe Quillfeather");
  const target = { foundHow: "zkfound", foundMeter: "zkmeter", meter: "zkmeter", foundDate: "2027-06-13" };
  const earlier = [{ date: "2027-06-13", targetW: 150, toleranceW: null, source: "zkearlier", meter: "zkmeter" }];
  await saveAthlete(athleteDir, {
    ...athlete,
    homeZone: home,
    events: [{ name: "Grandorvia", dateText: "13 June", durationS: 18_000 }],
    road: { ...athlete.road, ...target, earlier },
    trainer: { ...athlete.trainer, meter: "zktrainer", foundHow: "zkfound" },
    lessonConsent: { given: true, dateText: "zkconsentday" },
  });
  const prepared = await prepareDebrief(
    {
      paths: [ride, ...clips],
      anchors: [demo.clipPaths.reduce((anchor, before, k) => anchor.replace(before, clips[k]!), demo.anchor)],
      deviceDelayS: 0,
      show: null,
      acceptUnsure: true,
      plan: { planPath, targetW: null, toleranceW: null, setting: null },
      outDir: null,
      lengthS: 30,
      preset: "draft",
      forWhom: "athlete",
      asPercent: false,
      language: "en",
      athleteDir,
      consent: null,
    },
    host,
    context,
    false,
  );
  ({ folder } = prepared);
  mkdirSync(join(folder, "comments"));
  execFileSync(tools.ffmpeg, [
    ...["-v", "error", "-f", "lavfi", "-i", "sine=400:r=48000:d=1.5,volume=0.1"],
    ...["-metadata", "title=zkwavtitle", join(folder, "comments", "zkspoken.wav")],
  ]);
  const path = join(folder, "debrief.json");
  const document = JSON.parse(readFileSync(path, "utf8")) as DebriefDocument;
  const moment = prepared.standing.judged.reading.moments[0]!;
  const said = (what: string): string => `Quillfeather at Quombe on 12 April: ${what}`;
  const [off] = prepared.standing.judged.reading.breaks;
  const changed: DebriefDocument = {
    ...document,
    // Told after the film was set: an ill rider's own film would show nothing but cards.
    plan: {
      ...document.plan,
      note: { ...document.plan.note, illness: "zkillness of Quillfeather", medicine: "zkmedicine" },
    },
    overrides: [
      { what: "break", startS: off!.startS, endS: off!.endS, set: { coach: said("a cause") }, reason: said("why") },
      { what: "first", set: moment.startS, reason: said("a first") },
    ],
    ownMoments: [{ ...moment, reason: said("a place"), setBy: "coach", coachOnly: false }],
    choices: [
      {
        ...{ kind: moment.kind, startS: moment.startS, endS: moment.endS, keep: true, span: null },
        name: said("a moment"),
        note: said("a note"),
      },
    ],
    words: {
      ...document.words,
      held: said("held"),
      change: said("change"),
      next: said("next"),
      notes: said("notes"),
      questions: [said("one"), said("two")],
    },
    film: {
      ...document.film!,
      items: document.film!.items.map((item, index) =>
        item.type === "shot"
          ? {
              ...item,
              captions: [{ startS: 0, endS: 3, text: said("press on") }],
              riderName: "Xanthippe",
              why: said("a why"),
              drawings: [
                { shape: "text", points: [{ x: 0.3, y: 0.4 }], text: said("look"), startS: 0, endS: 3 },
                ...item.drawings,
              ],
              commentPath: "comments/zkspoken.wav",
            }
          : { ...item, why: said("a why"), card: withWords(item.card, index, said) },
      ),
    },
  };
  writeFileSync(path, JSON.stringify(changed));
  const athletes = await renderJourney(rendering({ settings: { playingPage: true } }), host, context);
  const lesson = await renderJourney(
    rendering({ settings: { forWhom: "lesson", playingPage: true }, consent: "zkconsent, on 13 June" }),
    host,
    context,
  );
  written = { athlete: athletes.written, lesson: lesson.written };
}, 900_000);

afterAll(() => {
  delete process.env.FOLLOWCAR_CACHE;
  delete process.env.FOLLOWCAR_STATE;
  rmSync(root, { recursive: true, force: true });
});

/**
 * A ride's file with all that a recorder tells of itself, its sensors and its owner (FIT profile,
 * public: file_id 0, user_profile 3, sport 12, device_info 23, workout 26).
 */
function named(bytes: Uint8Array): Uint8Array {
  const body = Uint8Array.from(bytes).slice(14, -2);
  // The first definition, of five fields, and one byte of header before the values: the fourth is the serial number.
  const at = 6 + 5 * 3 + 1 + 5;
  expect(body[0]! & 0x4f).toBe(0x40 | (body[0]! & 0xf));
  expect([...body.slice(3, 6)]).toEqual([0, 0, 5]);
  new DataView(body.buffer).setUint32(at, COMPUTER, true);
  const serial = 0x8c;
  const file = new FitBytes();
  for (const byte of body) file.raw(byte);
  return file
    .define(11, 23, [
      [253, 4, U32],
      [3, 4, serial],
      [2, 2, U16],
      [27, 16, STRING],
    ])
    .data(11, [0, COMPUTER, 1, "zkcomputer"])
    .data(11, [0, SENSOR, 1, "zksensor"])
    .define(12, 3, [[0, 20, STRING]])
    .data(12, ["zkfitrider"])
    .define(13, 12, [[3, 16, STRING]])
    .data(13, ["zksportname"])
    .define(14, 26, [[8, 16, STRING]])
    .data(14, ["zkworkout"])
    .finish();
}

/** A card with the coach's words in every field that holds words. */
function withWords(card: Card, index: number, said: (what: string) => string): Card {
  switch (card.kind) {
    case "title":
      return { ...card, title: `${card.title} ${index}`, lines: [said("a line")] };
    case "plan":
      return { ...card, title: said("a plan"), rows: [...card.rows, { label: said("a row"), value: said("a value") }] };
    case "note":
      return { ...card, title: said("a note"), lines: [...card.lines, said("a line")] };
    case "closing":
      return { ...card, title: said("an end"), lines: [...card.lines, said("a line")] };
    default:
      return { ...card, title: said("a card") };
  }
}

/** A file's bytes as letters, with what is packed in it: pictures in a page by `data:`, streams of a PDF. */
function lettersOf(path: string): string {
  const bytes = readFileSync(path);
  const plain = bytes.toString("latin1") + bytes.toString("utf8") + bytes.toString("utf16le");
  const packed = [...bytes.toString("latin1").matchAll(/\nstream\r?\n([\s\S]*?)\r?\nendstream/g)].map(([, stream]) => {
    try {
      return inflateSync(Buffer.from(stream!, "latin1")).toString("latin1");
    } catch {
      return "";
    }
  });
  return [plain, ...packed, ...picturesIn(path).map((one) => one.toString("latin1"))].join("\n");
}

/** Pictures in a page. */
function picturesIn(path: string): Buffer[] {
  if (extname(path) !== ".html") return [];
  return [...readFileSync(path, "utf8").matchAll(/data:image\/(?:png|jpeg);base64,([A-Za-z0-9+/=]+)/g)].map(
    ([, base64]) => Buffer.from(base64!, "base64"),
  );
}

/** All that ffprobe tells of a film beside its pictures. */
function metadataOf(path: string): string {
  if (extname(path) !== ".mp4") return "";
  const args = ["-v", "error", "-show_format", "-show_streams", "-show_chapters", "-of", "json", path];
  // Its own first line names the file that was asked for.
  return execFileSync(tools.ffprobe, args, { encoding: "utf8" }).replace(/"filename": .*/, "");
}

function leaks(paths: readonly string[], secrets: Readonly<Record<string, string>>): string[] {
  return paths.flatMap((path) => {
    const letters = (lettersOf(path) + metadataOf(path)).toLowerCase();
    return Object.entries(secrets).flatMap(([field, secret]) =>
      [secret, encodeURIComponent(secret), Buffer.from(secret).toString("base64").slice(0, 10)].some((form) =>
        letters.includes(form.toLowerCase()),
      )
        ? [`${basename(path)}: ${field}`]
        : [],
    );
  });
}

const text = (path: string): string =>
  readFileSync(path, "utf8").replaceAll(/data:[a-z/+0-9-]+;base64,[A-Za-z0-9+/=]+/g, "");
const isText = (path: string): boolean => /\.(html|txt|json|csv|vtt|otio|ffmetadata)$/.test(path);

test("outputs of both forms are there, among them films with shots, pages and data", async () => {
  for (const forWhom of ["athlete", "lesson"] as const) {
    const { standing } = await openDebrief(folder, host, false, { forWhom });
    expect(standing.film.items.filter(({ type }) => type === "shot").length, forWhom).toBeGreaterThan(0);
  }
  const both = ["film.mp4", "debrief.html", "playing.html", "message.txt", "captions.vtt", "chapters.txt"];
  const names = (paths: readonly string[]): string[] => paths.map((path) => basename(path));
  expect(names(written.lesson)).toEqual(expect.arrayContaining(both));
  expect(names(written.athlete)).toEqual(expect.arrayContaining([...both, "moments.json", "coach.html"]));
});

test("nothing of machine and camera is in any of them", () => {
  expect(leaks([...written.athlete, ...written.lesson], MACHINE)).toEqual([]);
});

test("nothing of who, when and where is in a lesson, in bytes and metadata", () => {
  // What is looked for is found where it may stand.
  expect(leaks(written.athlete, PERSON).length).toBeGreaterThan(3);
  expect(leaks(written.lesson, PERSON)).toEqual([]);
  for (const path of written.lesson) {
    if (isText(path)) expect(DAYS.exec(text(path))?.[0], basename(path)).toBeUndefined();
    expect(DAYS.exec(metadataOf(path))?.[0], basename(path)).toBeUndefined();
    expect(basename(path)).not.toMatch(/zk|quill|2026/i);
  }
});

test("no position in the hidden home stands in any of them; in a lesson none of the ride at all", () => {
  for (const path of [...written.athlete, ...written.lesson].filter(isText)) {
    const numbers = [...text(path).matchAll(/-?\d{1,3}\.\d{3,}/g)].map(([number]) => Number(number));
    for (const [index, latDeg] of numbers.entries()) {
      if (Math.abs(latDeg - home.latDeg) > 0.5) continue;
      for (const lonDeg of numbers.slice(Math.max(0, index - 2), index + 3)) {
        if (Math.abs(lonDeg - home.lonDeg) > 0.5 || lonDeg === latDeg) continue;
        expect(written.lesson, `${basename(path)} holds a place`).not.toContain(path);
        expect(distanceM(latDeg, lonDeg, home.latDeg, home.lonDeg), basename(path)).toBeGreaterThan(home.radiusM);
      }
    }
  }
});

/** What a reading program finds in a picture, letters only. */
function seen(picture: Buffer): string {
  const path = join(root, "seen.png");
  // Twice the size: its letters should be 20 px or more high.
  execFileSync(tools.ffmpeg, ["-v", "error", "-y", "-i", "-", "-vf", "scale=2*iw:-1:flags=lanczos", path], {
    input: picture,
  });
  return execFileSync("tesseract", [path, "-", "--psm", "11"], {
    encoding: "utf8",
    stdio: ["ignore", "pipe", "ignore"],
  });
}

/** The middle frame of each of a film's parts. */
async function framesOf(film: string, forWhom: "athlete" | "lesson"): Promise<Buffer[]> {
  const { standing } = await openDebrief(folder, host, false, { forWhom });
  return filmClock(standing.film).spans.map(({ startFrame, frames }) =>
    execFileSync(
      tools.ffmpeg,
      [
        ...["-v", "error", "-i", film, "-vf", `select=eq(n\\,${startFrame + Math.floor(frames / 2)})`],
        ...["-frames:v", "1", "-f", "image2pipe", "-c:v", "png", "-"],
      ],
      { maxBuffer: 1 << 26 },
    ),
  );
}

/** Pages of a PDF as pictures: their letters stand in it by number, not by code. */
const pagesThere = isOnPath("pdftoppm") && printerInUse() !== null;
function pagesOf(pdf: string): Buffer[] {
  if (!isOnPath("pdftoppm")) return [];
  const folder = mkdtempSync(join(root, "pages-"));
  execFileSync("pdftoppm", ["-png", "-r", "110", pdf, join(folder, "page")]);
  return readdirSync(folder)
    .sort()
    .map((name) => readFileSync(join(folder, name)));
}

/** Pieces of the words, so that one letter misread hides none. */
const PIECES = [
  "xanth",
  "thipp",
  "quill",
  "feath",
  "ather",
  "quomb",
  "vexho",
  "grando",
  "dorvia",
  "april",
  "12.04",
  "sunday",
];

test.skipIf(!there)(
  "nor in its pixels: film, stills and the pictures in its pages, read by a program",
  { timeout: 900_000 },
  async () => {
    const read = async (form: "athlete" | "lesson"): Promise<string> => {
      const film = written[form].find((path) => basename(path) === "film.mp4")!;
      const stills = written[form].filter((path) => extname(path) === ".png").slice(0, 6);
      const page = written[form].find((path) => basename(path) === "debrief.html")!;
      const pdf = written[form].find((path) => extname(path) === ".pdf");
      if (pagesThere) expect(pdf).toBeDefined();
      const pictures = [
        ...(pdf === undefined ? [] : pagesOf(pdf)),
        ...(await framesOf(film, form)),
        ...stills.map((path) => readFileSync(path)),
        ...picturesIn(page),
      ];
      expect(pictures.length).toBeGreaterThanOrEqual(3);
      return pictures.map(seen).join("\n").toLowerCase();
    };
    // The same eyes find the name where it stands.
    const athletes = await read("athlete");
    expect(PIECES.filter((piece) => athletes.includes(piece)).length).toBeGreaterThan(2);
    const lesson = await read("lesson");
    expect(lesson.replace(/\s/g, "").length).toBeGreaterThan(40);
    expect(PIECES.filter((piece) => lesson.includes(piece))).toEqual([]);
  },
);
