// What is handed over is read as a stranger would: its bytes, its metadata, and by a reading program (tesseract) its
// pixels. Each input field holds a word of its own that must not come out.
import { execFileSync } from "node:child_process";
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { basename, extname, join } from "node:path";
import { inflateSync } from "node:zlib";
import { afterAll, beforeAll, expect, test } from "vitest";
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
import { testTools } from "../support/tools.ts";

const needed = (process.env.FOLLOWCAR_REQUIRE ?? "").split(",").includes("tesseract");
const there = isOnPath("tesseract");
if (!there && needed) throw new Error("FOLLOWCAR_REQUIRE names tesseract, and none was found");

const context = { signal: new AbortController().signal, report: () => undefined };
const tools = testTools();

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
  writeFileSync(ride, readFileSync(demo.ridePath));
  const clips = demo.clipPaths.map((path, index) => {
    const out = join(root, "demo", `zkclip${index + 1} Quillfeather.mp4`);
    const tags = { title: "zktitle", artist: "zkartist", comment: "zkremark", location: "+46.5123+007.5123/" };
    const metadata = Object.entries({ ...tags, serial: "ZQ77412X", make: "zkartist", model: "ZQ77412X" });
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
        illness: "zkillness of Quillfeather",
        medicine: "zkmedicine",
        kit: "Quillfeather's wheels",
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
  const changed: DebriefDocument = {
    ...document,
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
              commentPath: "comments/zkspoken.wav",
            }
          : item.card.kind === "title"
            ? { ...item, card: { ...item.card, title: `${item.card.title} ${index}`, lines: [said("a line")] } }
            : item,
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

test("outputs of both forms are there, among them films, pages and data", () => {
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
      const pictures = [
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
