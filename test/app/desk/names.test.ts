// What a person has named stays so named: nothing that is done later on the desk puts a file's name in its place.
import { mkdir, writeFile } from "node:fs/promises";
import { join } from "node:path";
import { afterEach, beforeEach, expect, it } from "vitest";
import type { MomentChoice } from "../../../main/contract/debrief.ts";
import { made } from "./deskParts.ts";
import { type OpenDesk, openDesk, putClip, putRide } from "./openDesk.ts";

const RIDE = "IMG_0042.fit";
const CLIP = "IMG_0043.mp4";
const FILE_NAME = /IMG_004|\.fit|\.mp4|\.json/;

let open: OpenDesk;
beforeEach(async () => {
  open = await openDesk();
});
afterEach(() => open.close());

/** Every name a person gave or reads as one, where the window shows it. */
async function names() {
  const { document, film, momentChoices, momentWords, athleteName } = open.view();
  const [recent] = await open.api.recent();
  return {
    title: document.plan.title,
    listed: [recent?.title, recent?.rider],
    rider: document.plan.rider,
    athleteName,
    feel: document.plan.note.feel,
    moment: momentChoices.find((one) => one !== null && one.name !== null)?.name,
    moments: momentWords.filter((said) => FILE_NAME.test(said)),
    parts: film?.items.flatMap((item) =>
      [
        item.type === "shot" ? item.riderName : null,
        ...(item.type === "shot" ? item.captions.map(({ text }) => text) : [JSON.stringify(item.card)]),
      ].filter((said) => said !== null && FILE_NAME.test(said)),
    ),
  };
}

it("keeps the names of the debrief, the rider and a moment through everything that is done on the desk", async () => {
  const [people, rides, plans] = ["people", "rides", "plans"].map((name) => open.path(name));
  for (const folder of [people!, rides!, plans!]) await mkdir(folder, { recursive: true });
  const mira = await open.api.saveAthlete(open.id(people!), { name: "Mira Voss", events: [] });
  await open.api.beginDebrief(mira.id);
  await open.api.addFiles([open.id(await putRide(rides!, RIDE))]);
  const { plan } = open.view().document;
  await made(
    {
      part: "plan",
      value: { ...plan, title: "Over the tops", note: { ...plan.note, feel: "heavy legs" } },
      label: "title",
    },
    open,
  );
  const { kind, startS, endS } = open.view().reading!.moments[0]!;
  const named: MomentChoice = { kind, startS, endS, keep: true, span: null, name: "The bridge", note: null };
  await open.api.chooseMoment({ part: "choices", value: [named], label: "name" }, 0, open.view().edit);
  await open.api.saveNow();
  const given = {
    title: "Over the tops",
    listed: ["Over the tops", "Mira Voss"],
    rider: "Mira Voss",
    athleteName: "Mira Voss",
    feel: "heavy legs",
    moment: "The bridge",
    moments: [],
    parts: [],
  };
  expect(await names()).toMatchObject(given);

  await open.api.addFiles([open.id(await putClip(rides!, CLIP, startS - 5))]);
  expect(await names(), "footage added").toMatchObject(given);
  await writeFile(join(plans!, "IMG_0044.json"), JSON.stringify({ target: 171, tolerance: 9 }));
  await open.api.addFiles([open.id(join(plans!, "IMG_0044.json"))]);
  expect(open.view().document.plan.targetW).toBe(171);
  expect(await names(), "a plan file that names nobody and nothing").toMatchObject(given);
  await open.api.undo();
  expect(await names(), "and undone").toMatchObject(given);
  await open.api.redo();
  const { film } = open.view();
  await made({ part: "film", value: { ...film!, items: [...film!.items].reverse() }, label: "order" }, open);
  expect(await names(), "the film in another order").toMatchObject(given);
  await open.api.removeFile(open.view().clips[0]!.id);
  expect(await names(), "footage taken off").toMatchObject(given);
  await open.api.saveNow();
  const { folder } = open.view();
  await open.api.closeDebrief();
  await open.api.openDebrief(open.id(folder), false);
  expect(await names(), "opened again").toMatchObject(given);
});

it("takes an earlier plan without a name and leaves the name that was given", async () => {
  const people = open.path("people");
  await mkdir(people, { recursive: true });
  const mira = await open.api.saveAthlete(open.id(people), { name: "Mira Voss", events: [] });
  const begin = async (name: string, part: object) => {
    await open.api.beginDebrief(mira.id);
    await open.api.addFiles([open.id(await putRide(open.path("rides"), name))]);
    const { plan } = open.view().document;
    await made({ part: "plan", value: { ...plan, ...part }, label: "plan" }, open);
    await open.api.saveNow();
  };
  await begin("one.fit", { targetW: 166 });
  await begin("two.fit", { title: "Over the tops" });
  await open.api.takePlan((await open.api.earlierPlans())[0]!.id);
  expect(open.view().document.plan).toMatchObject({ title: "Over the tops", targetW: 166, rider: "Mira Voss" });
});

it("lists a debrief by its athlete, whoever its plan names", async () => {
  const people = open.path("people");
  await mkdir(people, { recursive: true });
  const mira = await open.api.saveAthlete(open.id(people), { name: "Mira Voss", events: [] });
  await open.api.beginDebrief(mira.id);
  await open.api.addFiles([open.id(await putRide(open.path("rides"), RIDE))]);
  const { plan } = open.view().document;
  await made({ part: "plan", value: { ...plan, rider: "R. Sander" }, label: "plan" }, open);
  await open.api.saveNow();
  expect(await open.api.recent()).toMatchObject([{ rider: "Mira Voss" }]);
});
