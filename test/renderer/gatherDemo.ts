import type { OpenedWindow } from "./openWindow.ts";

/**
 * Brings the demo onto the desk as a person would: files from the picker, the plan's target, one anchor.
 *
 * @param more names of other files that lie beside the ride
 */
export async function gatherDemo(opened: OpenedWindow, more: readonly string[] = []): Promise<void> {
  const { page, demo } = opened;
  await page.getByRole("heading", { level: 1, name: "Drop a ride and its footage here" }).waitFor();
  await page.keyboard.press("f");
  const list = page.getByRole("listbox");
  await list.getByRole("option", { name: /rides/ }).dblclick();
  await list.getByRole("option", { name: demo.rideName }).waitFor();
  for (const name of [demo.rideName, ...demo.clipNames, ...more])
    await list.getByRole("option", { name }).click({ modifiers: ["Control"] });
  await page.getByRole("button", { name: `Take ${1 + demo.clipNames.length + more.length} files` }).click();
  await page.getByRole("heading", { level: 1, name: "What is on the desk" }).waitFor({ timeout: 60_000 });
  for (const [label, value] of [
    ["Target power", "162"],
    ["Give or take", "11"],
    ["Warm-up", "18 min"],
  ] as const) {
    await page.getByLabel(label).fill(value);
    await page.getByLabel(label).press("Enter");
  }
  await page.waitForFunction(() => document.querySelector(".told-rows")?.textContent?.includes("162") === true);
  // Typed faster than the ride is judged: each of the three holds.
  await page.waitForFunction(() =>
    ["162", "11", "18 min"].every((value) =>
      [...document.querySelectorAll<HTMLInputElement>(".plan-row input")].some((input) => input.value === value),
    ),
  );
  await anchorClip(opened, demo.anchor);
}

/** On Line up: the one place that a person reads off a clip. @param anchor `CLIP@T=RIDE_T` */
export async function anchorClip(opened: OpenedWindow, anchor: string): Promise<void> {
  const { page } = opened;
  const [clipName, rest] = anchor.split("@") as [string, string];
  await page.getByRole("button", { name: "Line up", exact: false }).first().click();
  await page.getByRole("button", { name: `Look at ${clipName}` }).click();
  await page.locator('.player[data-frame]:not([data-frame=""])').waitFor({ timeout: 90_000 });
  const [mediaS, rideT] = rest.split("=") as [string, string];
  await lookAt(opened, Number(mediaS));
  const field = page.getByLabel(/of the clip, the ride is at/);
  await field.fill(rideT);
  await field.press("Enter");
  await page.getByText("by an anchor").first().waitFor({ timeout: 90_000 });
}

/** Clicks the lane where it shows a time of the clip, s: the picture of that time stands on the screen. */
async function lookAt(opened: OpenedWindow, mediaS: number): Promise<void> {
  const { page } = opened;
  const lane = page.locator(".lane");
  // A video that is being put in place has no length yet.
  await page.waitForFunction(() =>
    Number.isFinite(document.querySelector<HTMLVideoElement>(".lineup video")?.duration),
  );
  const durationS = await page.locator(".lineup video").evaluate((video: HTMLVideoElement) => video.duration);
  const roomS = Math.max(20, 0.3 * durationS);
  const before = await page.locator(".lineup .player").getAttribute("data-frame");
  // Where it lies once all is laid out: side parts that come in later move it.
  await opened.idle();
  await lane.scrollIntoViewIfNeeded();
  const { x, y, width, height } = (await lane.boundingBox())!;
  await page.mouse.click(x + ((roomS + mediaS) / (durationS + 2 * roomS)) * width, y + height / 2);
  await page.waitForFunction(
    (frame) => document.querySelector<HTMLElement>(".lineup .player")!.dataset.frame !== frame,
    before,
    { timeout: 90_000 },
  );
}
