// Covered means covered in all that is handed over: film, the pages' pictures, stills and lesson of a debrief whose shots
// hide their whole picture hold nothing of the footage.
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { basename, extname, join } from "node:path";
import { createCanvas, loadImage } from "@napi-rs/canvas";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { DebriefDocument } from "../../main/contract/debrief.ts";
import type { Cover } from "../../main/contract/framing.ts";
import { makeDemo } from "../../main/demo/makeDemo.edge.ts";
import { prepareDebrief } from "../../main/journey/preparedDebrief.ts";
import { renderJourney } from "../../main/journey/renderedFilm.ts";
import { debriefRequest } from "../support/debriefRequest.ts";
import { testHost, testTools } from "../support/tools.ts";
import { runProgram } from "../support/video.ts";

const context = { signal: new AbortController().signal, report: () => undefined };
const WHOLE: Cover = { kind: "solid", keys: [{ atMediaS: 0, x: 0, y: 0, width: 1, height: 1 }] };
/** A person sees a picture of the road where this share of it is sky, grass or trees. */
const SEEN_SHARE = 0.02;

let root = "";
let folder = "";
beforeAll(async () => {
  root = mkdtempSync(join(tmpdir(), "followcar-covered-"));
  process.env.FOLLOWCAR_CACHE = join(root, "cache");
  const demo = await makeDemo(join(root, "demo"), testTools(), context, { small: true });
  const request = debriefRequest({
    paths: [demo.ridePath, ...demo.clipPaths],
    anchors: [demo.anchor],
    plan: { planPath: demo.planPath, targetW: null, toleranceW: null, setting: null },
    outDir: join(root, "debrief"),
    lengthS: 40,
    language: "en",
  });
  ({ folder } = await prepareDebrief(request, testHost(), context, false));
}, 300_000);
afterAll(() => {
  delete process.env.FOLLOWCAR_CACHE;
  rmSync(root, { recursive: true, force: true });
});

/** The share of a picture that has a colour of its own: sky and land have one, black, words, cards and charts have not. */
async function colouredShare(picture: Buffer): Promise<number> {
  const image = await loadImage(picture);
  const [width, height] = [160, 90];
  const canvas = createCanvas(width, height).getContext("2d");
  canvas.drawImage(image, 0, 0, width, height);
  const { data } = canvas.getImageData(0, 0, width, height);
  let coloured = 0;
  for (let k = 0; k < data.length; k += 4) {
    const [red, green, blue] = [data[k]!, data[k + 1]!, data[k + 2]!];
    const most = Math.max(red, green, blue);
    if (most > 70 && (most - Math.min(red, green, blue)) / most > 0.22 && red < most) coloured++;
  }
  return coloured / (width * height);
}

/** Every picture of what was written: one a second of a film, those that lie in pages, and files. */
async function picturesOf(path: string): Promise<Buffer[]> {
  if (extname(path) === ".png" || extname(path) === ".jpg") return [readFileSync(path)];
  if (extname(path) === ".html")
    return [...readFileSync(path, "utf8").matchAll(/data:image\/(?:png|jpeg);base64,([A-Za-z0-9+/=]+)/g)].map(
      ([, base64]) => Buffer.from(base64!, "base64"),
    );
  if (extname(path) !== ".mp4") return [];
  const size = 160 * 90 * 3;
  const all = await runProgram(testTools().ffmpeg, [
    ...["-v", "error", "-i", path, "-vf", "fps=2,scale=160:90", "-f", "rawvideo", "-pix_fmt", "rgb24", "pipe:1"],
  ]);
  return Array.from({ length: all.length / size }, (_, k) => asPng(all.subarray(k * size, (k + 1) * size)));
}

function asPng(rgb: Buffer): Buffer {
  const canvas = createCanvas(160, 90);
  const context = canvas.getContext("2d");
  const image = context.createImageData(160, 90);
  for (let k = 0; k < 160 * 90; k++) image.data.set([rgb[3 * k]!, rgb[3 * k + 1]!, rgb[3 * k + 2]!, 255], 4 * k);
  context.putImageData(image, 0, 0);
  return canvas.toBuffer("image/png");
}

/** How many pictures of each kind of file show the road. */
async function roads(written: readonly string[]): Promise<Record<string, number>> {
  const seen: Record<string, number> = {};
  for (const path of written) {
    const kind = extname(path) === ".png" ? "stills" : basename(path);
    for (const picture of await picturesOf(path))
      if ((await colouredShare(picture)) > SEEN_SHARE) seen[kind] = (seen[kind] ?? 0) + 1;
  }
  return seen;
}

async function handedOver(forWhom: "athlete" | "lesson"): Promise<readonly string[]> {
  const rendered = await renderJourney(
    {
      debriefPath: folder,
      settings: { forWhom, playingPage: false },
      outPath: null,
      trustPaths: false,
      handOver: true,
      seen: true,
      consent: forWhom === "lesson" ? "said yes on the phone, 13 June" : null,
    },
    testHost(),
    context,
  );
  return rendered.written;
}

describe("a hand-over whose shots hide all of their picture", () => {
  it("shows the road in film, pages and stills where nothing is hidden", async () => {
    const seen = await roads(await handedOver("athlete"));
    for (const kind of ["film.mp4", "debrief.html", "stills"]) expect(seen[kind], kind).toBeGreaterThan(0);
    expect((await roads(await handedOver("lesson")))["film.mp4"]).toBeGreaterThan(0);
  }, 300_000);

  it("shows it nowhere where it is hidden, in a lesson neither", async () => {
    const path = join(folder, "debrief.json");
    const document = JSON.parse(readFileSync(path, "utf8")) as DebriefDocument;
    const items = document.film!.items.map((item) => (item.type === "shot" ? { ...item, covers: [WHOLE] } : item));
    writeFileSync(path, JSON.stringify({ ...document, film: { ...document.film!, items } }));
    expect(await roads(await handedOver("athlete"))).toEqual({});
    expect(await roads(await handedOver("lesson"))).toEqual({});
  }, 300_000);
});
