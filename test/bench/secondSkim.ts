// The second debrief up to the film: files, a glance at the line-up, every flagged moment seen and judged.
import type { Page } from "playwright-core";
import { skim as words } from "../../renderer/words/skim.ts";
import type { Person } from "./personTime.ts";

/** A longer moment is watched at twice its speed, s. */
const REAL_TIME_UP_TO_S = 20;
/** Of a long moment its beginning is seen, s of the ride. */
const SEEN_MOST_S = 60;
const GLANCE_S = 3;

/** The athlete, then the files of today, by the picker. */
export async function gatherRide(person: Person, page: Page): Promise<void> {
  await person.begin("choose the athlete");
  await person.wait(() => page.getByRole("button", { name: /^A ride of/ }).waitFor());
  await person.click(page.getByRole("button", { name: /^A ride of/ }));
  await person.wait(() => page.getByRole("heading", { level: 1, name: "What is on the desk" }).waitFor());

  await person.begin("choose the files");
  await person.key("f");
  const list = page.getByRole("listbox");
  for (const name of [/^rides/, /^second/]) {
    await person.wait(() => list.getByRole("option", { name }).waitFor());
    await person.click(list.getByRole("option", { name }));
  }
  await person.wait(() => list.getByRole("option", { name: "ride.fit" }).waitFor());
  await person.read(list);
  // All of today's folder, as the picker offers it.
  await person.key("Control+a");
  await page.getByRole("button", { name: "Take 4 files" }).waitFor();
  await person.key("Enter");
  await person.wait(async () => {
    await page.locator(".told-lines dd").first().waitFor();
    await page.getByRole("button", { name: "Line up", exact: false }).last().and(page.locator(":enabled")).waitFor();
  });

  await person.begin("read what was understood of them");
  await person.read(page.locator(".gather .part").first());
  await person.read(page.locator(".told-lines"));
  await person.key("Control+Enter");
}

/** The clips were placed by the camera's own positions: one place is looked at. */
export async function glanceAtLineUp(person: Person, page: Page): Promise<void> {
  await person.begin("a glance at the line-up");
  await person.wait(() => page.locator('.lineup .player[data-picture="shown"]').waitFor());
  await person.read(page.locator(".lineup-side .part").first());
  const check = page
    .locator(".lineup-side .part")
    .filter({ has: page.getByRole("heading", { name: "Does the picture agree?" }) });
  await person.read(check);
  const before = await page.locator(".lineup .player").getAttribute("data-frame");
  await person.click(check.locator(".start-open").last());
  await person.wait(() =>
    page.locator(`.lineup .player[data-picture="shown"]:not([data-frame="${before}"])`).waitFor(),
  );
  await person.key(" ");
  await person.watch(() => page.waitForTimeout(GLANCE_S * 1000));
  await person.key("y");
  await person.key("Control+Enter");
  await person.wait(() => page.locator(".skim-list").waitFor());
}

/**
 * Every flagged moment in the order of the ride: read in the list, which says what it is and whether it was filmed; gone
 * to and watched where it was, kept or dropped; one renamed, one break given its reason.
 */
export async function skimMoments(person: Person, page: Page): Promise<void> {
  const all = await page.locator(".skim-moment").count();
  let dropped = false;
  let renamed = false;
  let overruled = false;
  let seen = 0;
  /** The row that is chosen, or that stands before where the chosen one was; null: none yet. */
  let from: number | null = null;
  for (let k = 0; k < (await page.locator(".skim-moment").count()); k++) {
    const moment = page.locator(".skim-moment").nth(k);
    const at = await moment.locator(".skim-at").textContent();
    const filmed = (await moment.locator(".skim-state").textContent()) !== words.notFilmed;
    await person.begin(`moment ${++seen} of ${all}, at ${at}${filmed ? "" : ", not filmed"}`);
    await person.read(moment.locator(".skim-words, .skim-state"));
    if (!filmed) continue;
    if (from === null) await person.click(moment);
    else for (; from < k; from++) await person.key("n", true);
    from = k;
    await person.wait(async () => {
      await moment.and(page.locator('[aria-current="true"]')).waitFor();
      await page.locator('.skim .player[data-picture="shown"]').waitFor();
    });
    await person.read(page.locator(".skim-detail > h2, .skim-detail > p"));
    await watchMoment(person, page);
    const breaks = page.locator(".skim-detail .skim-breaks li select:enabled");
    if (!overruled && (await breaks.count()) > 0) {
      overruled = true;
      await person.begin("  a break given its reason");
      await person.read(page.locator(".skim-detail .skim-breaks"));
      await person.select(breaks.first(), "own words");
      await page.getByLabel(/^Own words for the break/).waitFor();
      await person.key("Tab", true);
      await person.write("waved through by a marshal");
      await person.key("Enter", true);
      await person.wait(() => page.getByTitle(/^Undo: reason of the break/).waitFor());
      await person.leaveField(page.locator(".stage-cell"));
      // With its only break excused it is no moment any more, and the next one stands in its row.
      if ((await page.locator(".skim-gone").count()) > 0) from = --k;
      continue;
    }
    if (!renamed) {
      renamed = true;
      await person.begin("  it gets a name");
      await person.key("e");
      await person.write("The rise after the bridge");
      await person.key("Enter", true);
      await person.wait(() => page.getByTitle(/^Undo: name of/).waitFor());
      await person.leaveField(page.locator(".stage-cell"));
    } else if (!dropped) {
      dropped = true;
      await person.key("x");
      await person.wait(() => moment.and(page.locator(".dropped")).waitFor());
      continue;
    }
    await person.key("k");
    await person.wait(() => moment.and(page.locator(".kept")).waitFor());
  }
  if (!dropped || !renamed || !overruled)
    throw new Error(
      `the ride gave nothing to ${[dropped ? "" : "drop", renamed ? "" : "rename", overruled ? "" : "overrule"].filter(Boolean).join(", ")}`,
    );
}

async function watchMoment(person: Person, page: Page): Promise<void> {
  const [startS, endS] = (await page.locator(".skim-edges .figure").allInnerTexts()).map(secondsOf);
  const untilS = Math.min(endS!, startS! + SEEN_MOST_S);
  const fast = untilS - startS! > REAL_TIME_UP_TO_S;
  if (fast) await person.key("f");
  await person.key(" ");
  const at = page.locator(".strip-all");
  const button = page.locator(".transport .button").first();
  await person.watch(async () => {
    while (Number(await at.getAttribute("aria-valuenow")) < untilS && (await button.innerText()).startsWith("Stop"))
      await page.waitForTimeout(100);
  });
  if ((await button.innerText()).startsWith("Stop")) await person.key(" ");
  if (fast) await person.key("s", true);
}

function secondsOf(text: string): number {
  return text.split(":").reduce((sum, part) => sum * 60 + Number(part), 0);
}
