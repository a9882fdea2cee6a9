// A coach's evening in the window: the list of a batch, from ride to ride by a key; and what is said to each athlete,
// made until the coach writes over it, with the way back.
import { mkdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { afterAll, beforeAll, expect, it } from "vitest";
import { loadDebrief } from "../../main/debrief/debriefStore.edge.ts";
import { demoRideFile } from "../../main/demo/demoRideFile.ts";
import { demoRide } from "../../main/demo/rideModel.ts";
import { batchJourney } from "../../main/journey/preparedRides.ts";
import { debriefRequest } from "../support/debriefRequest.ts";
import { testHost } from "../support/tools.ts";
import { describeWindow, openWindow, type OpenedWindow } from "./openWindow.ts";

/** Pictures of every state are kept here where a person wants to look at them. */
const shots = process.env.FOLLOWCAR_SHOTS;

describeWindow("a batch in the window", () => {
  let opened: OpenedWindow;
  let squad: string;
  const clean = async (name: string) => {
    if (shots !== undefined) {
      mkdirSync(shots, { recursive: true });
      await opened.page.screenshot({ path: join(shots, `${name}.png`), fullPage: true });
    }
    expect(await opened.faults(), name).toEqual([]);
  };

  beforeAll(async () => {
    opened = await openWindow({ theme: "light", widthPx: 1280, heightPx: 800, reducedMotion: true });
    squad = join(opened.home, "squad");
    const file = demoRideFile(demoRide(7));
    for (const name of ["anna", "bert", "carl"]) mkdirSync(join(squad, name), { recursive: true });
    writeFileSync(join(squad, "anna", "athlete.json"), '{"name":"Anna","road":{"targetW":162}}');
    writeFileSync(join(squad, "anna", "ride.fit"), file);
    writeFileSync(join(squad, "bert", "ride.fit"), file);
    writeFileSync(join(squad, "carl", "ride.gpx"), "no ride");
    await batchJourney(squad, debriefRequest({ paths: [], lengthS: 20 }), testHost(), {
      signal: new AbortController().signal,
      report: () => undefined,
    });
  }, 240_000);
  afterAll(() => opened.close());

  it("lists the rides: what could not be prepared, what to look at, what was seen", async () => {
    const { page } = opened;
    await page.keyboard.press("b");
    await page
      .getByRole("listbox")
      .getByRole("option", { name: /^squad/ })
      .click();
    await page.getByRole("button", { name: "Take this folder" }).click();
    const rows = page.locator(".gather-batch li");
    await rows.nth(2).waitFor();
    expect(await rows.locator(".name").allTextContents()).toEqual(["carl/ride.gpx", "bert/ride.fit", "Anna"]);
    expect(await rows.nth(0).locator("button").count()).toBe(0);
    expect(await rows.nth(1).textContent()).toContain("is the plan missing?");
    await page.getByText("0 of 3 seen").waitFor();
    await clean("batch-list");
  }, 90_000);

  it("opens one and goes on to the next by a key; what was opened is seen", async () => {
    const { page } = opened;
    await page.locator(".gather-batch button", { hasText: "bert" }).click();
    await page.getByText("Ride 2 of 3 of the batch").waitFor();
    await clean("batch-hop");
    await page.keyboard.press("n");
    await page.getByText("Ride 3 of 3 of the batch").waitFor();
    expect(await page.getByRole("button", { name: /^Next ride/ }).isDisabled()).toBe(true);
    for (const name of ["anna", "bert"])
      await expect
        .poll(async () => (await loadDebrief(join(squad, name, "ride-debrief"))).document.prepared, { timeout: 20_000 })
        .toBe(false);
    // Back again, and on: where the list stands is kept.
    await page.keyboard.press("p");
    await page.getByText("Ride 2 of 3 of the batch").waitFor();
    await page.keyboard.press("n");
    await page.getByText("Ride 3 of 3 of the batch").waitFor();
    await opened.idle();
  }, 90_000);

  it("shows what is said, made until it is written over, and back again; the message follows", async () => {
    const { page } = opened;
    await page.locator(".frame-step", { hasText: "Hand over" }).click();
    const field = page.getByLabel("What to change");
    await field.waitFor();
    const made = await field.inputValue();
    expect(made).not.toBe("");
    const message = page.locator(".handover-message");
    expect(await message.textContent()).toContain(made);
    const said = page.locator(".handover-said").filter({ has: field });
    expect(await said.textContent()).toContain("made");
    await clean("handover-made");
    await field.fill("Set off easier.");
    await field.blur();
    await said.getByText("yours", { exact: true }).waitFor();
    await expect.poll(() => message.textContent()).toContain("Set off easier.");
    await clean("handover-yours");
    await said.getByRole("button", { name: /take the made one/ }).click();
    await said.getByText("made", { exact: true }).waitFor();
    await expect.poll(() => field.inputValue()).toBe(made);
    await expect
      .poll(async () => (await loadDebrief(join(squad, "anna", "ride-debrief"))).document.words.change, {
        timeout: 20_000,
      })
      .toBeNull();
    expect(opened.problems).toEqual([]);
  }, 120_000);

  it("takes the coach's own length of the next ride, and says what is no length", async () => {
    const { page } = opened;
    const field = page.getByLabel("Your own length for it");
    const message = page.locator(".handover-message");
    const made = (await message.textContent()) ?? "";
    await field.fill("soon");
    await field.blur();
    await page.getByText("A length from 0:05 to 24:00").waitFor();
    expect(await message.textContent()).toBe(made);
    await field.fill("1:35");
    await field.blur();
    await expect.poll(() => message.textContent(), { timeout: 20_000 }).toContain("for 1 h 35 min.");
    expect(await page.getByText("A length from 0:05 to 24:00").count()).toBe(0);
    await clean("handover-next-length");
    await field.fill("");
    await field.blur();
    await expect.poll(() => message.textContent(), { timeout: 20_000 }).toBe(made);
    expect(opened.problems).toEqual([]);
  }, 120_000);

  it("comes back to the list with both ticked as seen", async () => {
    const { page } = opened;
    await page.locator(".frame-step", { hasText: "Files" }).click();
    await page.getByRole("button", { name: "Clear the desk" }).click();
    await page.getByText("2 of 3 seen").waitFor({ timeout: 20_000 });
    const ticked = () =>
      page.locator(".gather-batch li").filter({ hasText: /seen/ }).locator(".name").allTextContents();
    expect(await ticked()).toEqual(["bert/ride.fit", "Anna"]);
    expect(opened.problems).toEqual([]);
  }, 90_000);
});
