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
const OUT = resolve("assets", "readme");
/** What a forge shows without asking, bytes. */
const MOVING_MOST = 3_000_000;
/** Half a window's width is what the page shows of a picture of it: letters stay readable. */
const WINDOW = { width: 1440, height: 900 };
const { ffmpeg, chromium: browser } = findTools();
if (!ffmpeg || !browser) throw new Error("ffmpeg and a browser are needed: npm run setup");

function run(program: string, args: readonly string[]): void {
  const { status, stderr } = spawnSync(program, args, { encoding: "utf8" });
  if (status !== 0) throw new Error(`${program} ${args.join(" ")} ended with ${status}\n${stderr.slice(-2000)}`);
}
const followcar = (...args: readonly string[]) => run(process.execPath, [resolve("dist", "followcar.mjs"), ...args]);
const draw = (...args: readonly string[]) => run(ffmpeg!.path, ["-v", "error", "-y", ...args]);

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

function filmPictures(parts: readonly Part[]): void {
  const film = join(DEBRIEF, "film.mp4");
  const rise = partOf(parts, /uphill/);
  const still = (at: Part, share: number, to: string, width: number) =>
    draw(
      "-ss",
      String(at.startS + share * (at.endS - at.startS)),
      "-i",
      film,
      "-frames:v",
      "1",
      "-vf",
      `scale=${width}:-2:flags=lanczos`,
      to,
    );
  const [title, plan, kept, climbs, heart, change, next] = [
    /Lake Ambel/,
    /plan$/,
    /kept/,
    /climb$/,
    /heart rate/,
    /change/,
    /next/,
  ].map((one) => partOf(parts, one));
  const nine: readonly (readonly [Part, number])[] = [
    [title!, 0.6],
    [plan!, 0.6],
    [kept!, 0.7],
    [rise, 0.3],
    [rise, 0.85],
    [climbs!, 0.4],
    [heart!, 0.6],
    [change!, 0.6],
    [next!, 0.6],
  ];
  nine.forEach(([part, share], k) => still(part, share, join(WORK, `strip-${k}.png`), 400));
  draw("-i", join(WORK, "strip-%d.png"), "-vf", "tile=3x3", "-frames:v", "1", join(OUT, "film-strip.png"));
  still(heart!, 0.6, join(OUT, "card-heart.png"), 640);
  const moving = join(OUT, "film-rise.gif");
  const looks =
    "fps=10,scale=520:-2:flags=lanczos,split[a][b];[a]palettegen=max_colors=96:stats_mode=diff[p];[b][p]paletteuse=dither=none:diff_mode=rectangle";
  draw("-ss", String(rise.startS), "-t", String(rise.endS - rise.startS), "-i", film, "-filter_complex", looks, moving);
  if (statSync(moving).size > MOVING_MOST) throw new Error(`${moving} is over ${MOVING_MOST} bytes`);
  followcar(
    "still",
    DEBRIEF,
    "--at",
    String(rise.startS + 0.3 * (rise.endS - rise.startS)),
    "--shape",
    "9:16",
    "--out",
    join(WORK, "upright.png"),
  );
  draw("-i", join(WORK, "upright.png"), "-vf", "scale=400:-2:flags=lanczos", join(OUT, "frame-upright.png"));
  draw(
    "-ss",
    "8",
    "-i",
    join(DEMO, "side-by-side.mp4"),
    "-frames:v",
    "1",
    "-vf",
    "scale=640:-2:flags=lanczos",
    join(OUT, "frame-pair.png"),
  );
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
  draw("-i", join(WORK, "page-%d.png"), "-vf", "tile=2x1", "-frames:v", "1", join(OUT, "page-phone.png"));
}

/** A picture of the window when what is on it has come to rest. */
async function shot(page: Page, name: string): Promise<void> {
  await page.waitForTimeout(4000);
  await page.screenshot({ path: join(OUT, `window-${name}.png`) });
}

async function windowPictures(): Promise<void> {
  const home = join(WORK, "home");
  const { page, close } = await openProgram(home, [DEBRIEF]);
  await page.setViewportSize(WINDOW);
  await page.keyboard.press("1");
  await page.getByText("sets off").first().click();
  await shot(page, "lineup");
  await page.keyboard.press("2");
  await page.getByText("above the plan uphill").first().click();
  // Small pictures of the clips stand first, frames as filmed then.
  await shot(page, "skim");
  await page.keyboard.press("3");
  await page.getByText("above the plan uphill").first().click();
  await shot(page, "build");
  await close();
}

mkdirSync(WORK, { recursive: true });
if (!existsSync(join(DEMO, "side-by-side.mp4"))) followcar("demo", "--out", DEMO);
filmPictures(filmParts());
await pagePicture();
await windowPictures();
console.log(`pictures in ${OUT}: look at each before it is committed`);
