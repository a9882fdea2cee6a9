// The second debrief from the film on: drawn on, spoken to, put in order, seen once, handed over.
import type { Page } from "playwright-core";
import type { Person } from "./personTime.ts";

const COMMENT_S = 20;

/** An arrow, a caption, a spoken comment, another order; then the film is seen once as it will be. */
export async function buildFilm(person: Person, page: Page): Promise<void> {
  await person.begin("look over the parts of the film");
  await person.key("3");
  await person.wait(() => page.getByRole("list", { name: "Parts of the film" }).waitFor());
  await person.read(page.locator(".build-parts .name"));

  const shots = page.locator(".build-parts > li.firm .build-part");
  await person.begin("draw an arrow");
  await person.click(shots.first());
  await person.wait(() => page.locator('.build .player[data-picture="shown"]').waitFor());
  await person.key("Shift+r");
  await person.drag(page.locator(".draw-layer"), [0.35, 0.3], [0.48, 0.45]);
  await person.wait(() => page.getByTitle("Undo: drawn: arrow").waitFor());
  await person.key("Escape", true);

  await person.begin("write a caption");
  await person.key("c");
  await person.write("Press on over the top, one more breath");
  await person.key("Enter", true);
  await person.wait(() => page.getByTitle("Undo: change a caption").waitFor());

  await person.begin(`speak a comment of ${COMMENT_S} s`);
  const shot = (await shots.count()) > 1 ? shots.nth(1) : shots.first();
  await person.click(shot);
  await person.wait(() => page.locator('.build .player[data-picture="shown"]').waitFor());
  await person.key("r");
  await person.wait(() => page.getByRole("meter", { name: "Loudness of your voice" }).waitFor());
  await person.watch(() => page.waitForTimeout(COMMENT_S * 1000));
  await person.key("r");
  await person.wait(() => page.getByTitle("Undo: record a comment").waitFor());

  await person.begin("put a part in another place");
  await person.key("Alt+ArrowDown");
  await person.wait(() => page.getByTitle("Undo: move a part of the film").waitFor());

  await person.begin("see the whole film once, as it will be");
  await person.key("Home");
  await person.wait(() =>
    page.locator('.build-part[aria-current="true"]').and(page.locator(".build-part").first()).waitFor(),
  );
  await person.key(" ", true);
  await person.wait(() => page.getByRole("button", { name: /^Stop/ }).first().waitFor());
  await person.watch(() => page.getByRole("button", { name: "Play the film" }).waitFor({ timeout: 900_000 }));
}

/** For the athlete, as usual; gone while the machine works. Gives how long that took and what was said before. */
export async function handOver(person: Person, page: Page): Promise<{ readonly tookS: number; readonly said: string }> {
  await person.begin("hand over");
  await person.key("Control+Enter");
  const estimate = page.getByText(/^About .* of work for this machine/);
  await person.wait(() => estimate.waitFor());
  await person.read(page.locator(".handover-folder, .handover-ask"));
  await person.read(estimate);
  const said = (await estimate.innerText()).replace(/^About (.*) of work.*$/, "$1");
  await person.click(page.getByLabel("For the next ride"));
  await person.key("Control+a", true);
  await person.write("Keep the pressure on over every top.");
  for (const ask of await page.locator(".handover-ask input").all()) await person.click(ask);
  const startedMs = performance.now();
  await person.key("Control+Enter");
  await person.wait(() => page.locator('[aria-labelledby="queue-title"] li').first().waitFor());
  await page.getByText(/^done, \d+ files$/).waitFor({ timeout: 1_800_000 });
  const tookS = (performance.now() - startedMs) / 1000;
  await person.begin("see what was written");
  await person.read(page.locator('[aria-labelledby="queue-title"] li'));
  return { tookS, said };
}
