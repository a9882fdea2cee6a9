// README's pictures, made anew out of one run of the demo: `npm run pictures`. Look at each before it is committed.
import { spawnSync } from "node:child_process";
import { existsSync, mkdirSync, readFileSync, statSync } from "node:fs";
import { join, resolve } from "node:path";
import { pathToFileURL } from "node:url";
import { type Page, chromium } from "playwright-core";
import { findTools } from "../../main/setup/tools.mjs";
import { openProgram } from "../bench/openProgram.ts";

const WORK = resolve("dist", "readme");
const DEMO = join(WORK, "demo");
const DEBRIEF = join(DEMO, "debrief");
/** Whoever made the demo opens it: a debrief made elsewhere would be asked about. */
const HOME = join(WORK, "home");
process.env.FOLLOWCAR_STATE = join(HOME, "state");
process.env.FOLLOWCAR_CACHE = join(HOME, "cache");
const OUT = resolve("assets", "readme");
/** What a forge shows without asking, bytes. */
const MOVING_MOST = 3_000_000;
/** Of the rise: its last steep part, and over its top. */
const MOVING_S = 13;
/** Half a window's width is what the page shows of a picture of it: letters stay readable. */
const WINDOW = { width: 1440, height: 900 };
const { ffmpeg, chromium: browser } = findTools();
if (!ffmpeg || !browser) throw new Error("ffmpeg and a browser are needed: npm run setup");

function run(program: string, args: readonly string[]): void {
  const { status, stderr } = spawnSync(program, args, { encoding: "utf8" });
  if (status !== 0) throw new Error(`${program} ${args.join(" ")} ended with ${status}\n${stderr.slice(-2000)}`);
}
const followcar = (...args: readonly string[]) => run(process.execPath, [resolve("dist", "followcar.mjs"), ...args]);
const draw = (...args: readonly string[]) => run(ffmpeg.path, ["-v", "error", "-y", ...args]);

interface Part {
  readonly title: string;
  readonly startS: number;
  readonly endS: number;
}

/** The film's parts, from the chapters beside it. */
function filmParts(): Part[] {
  const text = readFileSync(join(DEBRIEF, "chapters.vtt"), "utf8");
  const secondsOf = (clock: string) => clock.split(":").reduce((sum, piece) => 60 * sum + Number(piece), 0);
  return [...text.matchAll(/^(\S+) --> (\S+)\n(.+)$/gm)].map(([, from, to, title]) => ({
    title: title!,
    startS: secondsOf(from!),
    endS: secondsOf(to!),
  }));
}

/** The part whose title says this; the demo's story is told by its tests, so none missing is let by. */
function partOf(parts: readonly Part[], what: RegExp): Part {
  const found = parts.find(({ title }) => what.test(title));
  if (!found)
    throw new Error(`the demo's film has no part called ${what}: ${parts.map(({ title }) => title).join(", ")}`);
  return found;
}

/** A picture of few colours, as drawn scenes and letters are: a third of the bytes. */
const fewColours = (count: number) =>
  `split[a][b];[a]palettegen=max_colors=${count}:stats_mode=diff[p];[b][p]paletteuse=dither=none:diff_mode=rectangle`;
/** What ffmpeg is told to make one picture of what the input gives. */
const onePicture = (filter: string, to: string) => [
  "-filter_complex",
  `${filter},${fewColours(200)}`,
  "-frames:v",
  "1",
  to,
];
const sized = (widthPx: number) => `scale=${widthPx}:-2:flags=lanczos`;
const within = ({ startS, endS }: Part, share: number) => String(startS + share * (endS - startS));

function filmPictures(parts: readonly Part[]): void {
  const film = join(DEBRIEF, "film.mp4");
  const rise = partOf(parts, /uphill/);
  const nine: readonly (readonly [Part, number])[] = [
    [partOf(parts, /Lake Ambel/), 0.6],
    [partOf(parts, /kept/), 0.7],
    [rise, 0.3],
    [rise, 0.85],
    [partOf(parts, /^Well above/), 0.5],
    [partOf(parts, /climb$/), 0.4],
    [partOf(parts, /heart rate/), 0.6],
    [partOf(parts, /change/), 0.6],
    [partOf(parts, /next/), 0.6],
  ];
  nine.forEach(([part, share], k) =>
    draw("-ss", within(part, share), "-i", film, "-vf", sized(400), "-frames:v", "1", join(WORK, `strip-${k}.png`)),
  );
  draw("-i", join(WORK, "strip-%d.png"), ...onePicture("tile=3x3", join(OUT, "film-strip.png")));
  draw(
    "-ss",
    within(partOf(parts, /heart rate/), 0.6),
    "-i",
    film,
    ...onePicture(sized(640), join(OUT, "card-heart.png")),
  );
  const moving = join(OUT, "film-rise.gif");
  const looks = `fps=8,${sized(520)},${fewColours(64)}`;
  draw("-ss", String(rise.endS - MOVING_S - 1), "-t", String(MOVING_S), "-i", film, "-filter_complex", looks, moving);
  if (statSync(moving).size > MOVING_MOST) throw new Error(`${moving} is over ${MOVING_MOST} bytes`);
  const upright = join(WORK, "upright.png");
  followcar("still", DEBRIEF, "--at", within(rise, 0.3), "--shape", "9:16", "--out", upright);
  draw("-i", upright, ...onePicture(sized(400), join(OUT, "frame-upright.png")));
  draw("-ss", "8", "-i", join(DEMO, "side-by-side.mp4"), ...onePicture(sized(640), join(OUT, "frame-pair.png")));
}

/** The written debrief as a phone shows it: its first screens side by side. */
async function pagePicture(): Promise<void> {
  const shown = await chromium.launch({ executablePath: browser!.path, args: ["--no-sandbox", "--disable-gpu"] });
  const page = await shown.newPage({ viewport: { width: 400, height: 840 }, deviceScaleFactor: 1.25 });
  await page.goto(pathToFileURL(join(DEBRIEF, "debrief.html")).href);
  for (const k of [0, 1]) {
    await page.mouse.wheel(0, k === 0 ? 0 : 820);
    await page.waitForTimeout(500);
    await page.screenshot({ path: join(WORK, `page-${k}.png`) });
  }
  await shown.close();
  draw("-i", join(WORK, "page-%d.png"), ...onePicture("tile=2x1", join(OUT, "page-phone.png")));
}

/** A picture of the window when what is on it has come to rest. */
async function shot(page: Page, name: string): Promise<void> {
  await page.waitForTimeout(8000);
  const path = join(WORK, `window-${name}.png`);
  await page.screenshot({ path });
  draw("-i", path, ...onePicture("null", join(OUT, `window-${name}.png`)));
}

async function windowPictures(): Promise<void> {
  const opened = await openProgram(HOME, [DEBRIEF]);
  const { page } = opened;
  try {
    await page.setViewportSize(WINDOW);
    await page.emulateMedia({ colorScheme: "dark" });
    await page.keyboard.press("1");
    await page.getByText("comes to a stop").first().click();
    await shot(page, "lineup");
    await page.keyboard.press("2");
    await page.locator(".skim-moment", { hasText: "uphill" }).first().click();
    // Small pictures of the clips stand first, frames as filmed then.
    await shot(page, "skim");
    await page.keyboard.press("3");
    await page.locator(".build-part", { hasText: "uphill" }).first().click();
    await shot(page, "build");
  } finally {
    await opened.close();
  }
}

mkdirSync(HOME, { recursive: true });
if (!existsSync(join(DEMO, "side-by-side.mp4"))) followcar("demo", "--out", DEMO);
filmPictures(filmParts());
await pagePicture();
await windowPictures();
console.log(`pictures in ${OUT}: look at each before it is committed`);
