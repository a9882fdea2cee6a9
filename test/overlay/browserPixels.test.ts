import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { build } from "esbuild";
import { chromium, type Browser, type Page } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import { findTools } from "../../main/setup/tools.mjs";
import { FONT_FAMILY } from "../../overlay/drawText.ts";
import { testCanvas } from "../support/canvas.ts";
import { proofs, type Proof } from "./support/proofs.ts";

/** The window's canvas against the exporter's: the same code, the same pixels. */
const found = findTools().chromium;
const needed = (process.env["FOLLOWCAR_REQUIRE"] ?? "").split(",").includes("chromium");
if (found === null && !needed)
  console.log("skipped: no Chromium, so the window's pixels are not compared with the exporter's");

const FONTS = join("assets", "fonts");
let browser: Browser | null = null;
let page: Page;

beforeAll(async () => {
  if (found === null) {
    if (needed) throw new Error("FOLLOWCAR_REQUIRE names chromium, and none was found");
    return;
  }
  const bundled = await build({
    entryPoints: [join("test", "overlay", "support", "proofs.ts")],
    bundle: true,
    write: false,
    format: "iife",
    globalName: "made",
    platform: "browser",
  });
  browser = await chromium.launch({ executablePath: found.path });
  page = await browser.newPage();
  await page.setContent("<!doctype html><title>pixels</title>");
  for (const file of readdirSync(FONTS).filter((name) => name.endsWith(".woff2"))) {
    const weight = /-(\d{3})-/.exec(file)?.[1] ?? "400";
    const range = file.includes("latin-ext") ? "U+0100-02AF" : "U+0000-00FF, U+2000-20FF, U+2212";
    const source = `url(data:font/woff2;base64,${readFileSync(join(FONTS, file)).toString("base64")})`;
    await page.evaluate(
      `document.fonts.add(new FontFace(${JSON.stringify(FONT_FAMILY)}, ${JSON.stringify(source)}, { weight: "${weight}", unicodeRange: "${range}" }))`,
    );
  }
  await page.evaluate(`Promise.all([...document.fonts].map((face) => face.load()))`);
  await page.addScriptTag({ content: `${bundled.outputFiles[0]?.text ?? ""}; window.made = made;` });
}, 60_000);

afterAll(async () => {
  await browser?.close();
});

async function inBrowser(name: string): Promise<Uint8Array> {
  const text = await page.evaluate(`(async () => {
    const proof = window.made.proofs[${JSON.stringify(name)}];
    const canvas = new OffscreenCanvas(proof.width, proof.height);
    const context = canvas.getContext("2d", { willReadFrequently: true });
    proof.draw(context);
    const bytes = context.getImageData(0, 0, proof.width, proof.height).data;
    let text = "";
    for (let k = 0; k < bytes.length; k += 8192) text += String.fromCharCode(...bytes.subarray(k, k + 8192));
    return btoa(text);
  })()`);
  return Buffer.from(text as string, "base64");
}

function inExporter(proof: Proof): Uint8ClampedArray {
  const { context } = testCanvas(proof.width, proof.height);
  proof.draw(context);
  return context.getImageData(0, 0, proof.width, proof.height).data;
}

for (const [name, proof] of Object.entries(proofs)) {
  test.skipIf(found === null && !needed)(`the window draws what the exporter draws: ${name}`, async () => {
    const theirs = await inBrowser(name);
    const ours = inExporter(proof);
    expect(theirs.length).toBe(ours.length);
    let sum = 0;
    let most = 0;
    let inked = 0;
    for (let k = 0; k < ours.length; k += 1) {
      const difference = Math.abs(ours[k]! - theirs[k]!);
      sum += difference;
      most = Math.max(most, difference);
      if (k % 4 === 3 && ours[k] !== 0) inked += 1;
    }
    expect(inked).toBeGreaterThan(500);
    // Outlines: no pixel differs. Free text is hinted and smoothed by each in its own way: a mean of 12 of 255.
    if (name === "free text") expect(sum / ours.length).toBeLessThanOrEqual(12);
    else expect(most).toBe(0);
  });
}
