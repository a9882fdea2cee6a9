// A debrief that somebody else made and that points outside its folder: refused by every verb that opens one, with the
// option that opens it all the same.
import { cpSync, mkdirSync, mkdtempSync, readFileSync, rmSync, statSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, expect, it } from "vitest";
import { newDebrief } from "../../main/debrief/debriefDocument.ts";
import { debriefText } from "../../main/debrief/parseDebrief.ts";
import { fingerprintFile } from "../../main/footage/fingerprint.edge.ts";
import { defaultPlan } from "../../main/reading/plan/parsePlan.ts";
import { runProgram } from "../support/runProgram.ts";

let folder = "";
let debrief = "";
beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), "followcar-trust-"));
  debrief = join(folder, "came");
  mkdirSync(debrief);
  const ride = join(folder, "ride.fit");
  cpSync(join("test", "fixtures", "rides", "power-heart-1s.fit"), ride);
  const media = { bytes: statSync(ride).size, fingerprint: await fingerprintFile(ride) };
  const ref = { id: "ride1", kind: "ride", path: "../ride.fit", ...media } as const;
  writeFileSync(join(debrief, "debrief.json"), debriefText(newDebrief(defaultPlan({}), [ref], "ride1")));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** As another person's computer: nothing was made here. */
const run = (args: readonly string[]) =>
  runProgram(args, {
    cwd: folder,
    env: { FOLLOWCAR_STATE: join(folder, "state"), FOLLOWCAR_CACHE: join(folder, "cache") },
  });

it.each([
  ["render", "came"],
  ["still", "came", "--at", "1", "--out", "still.png"],
  ["say", "came", "--note", "A calm ride."],
  ["judge", "came", "--break", "0:10:00=corner"],
])("%s names --trust-paths", { timeout: 120_000 }, async (...args) => {
  const { code, stderr } = await run(args);
  expect(code).toBe(3);
  expect(stderr).toContain("../ride.fit");
  expect(stderr).toContain("Give --trust-paths");
  expect((await run([args[0], "--help"])).stdout).toContain("--trust-paths");
});

it("which opens it", { timeout: 120_000 }, async () => {
  const { code, stderr } = await run(["say", "came", "--note", "A calm ride.", "--trust-paths"]);
  expect(stderr).not.toContain("outside its folder");
  expect(code).toBe(0);
  expect(readFileSync(join(debrief, "debrief.json"), "utf8")).toContain("A calm ride.");
});

it("a batch, which has no such option, names the verbs that have it", { timeout: 120_000 }, async () => {
  const outing = join(folder, "outing");
  mkdirSync(outing);
  cpSync(join(folder, "ride.fit"), join(outing, "ride.fit"));
  cpSync(debrief, join(outing, "ride-debrief"), { recursive: true });
  expect((await run(["debrief", "--batch", "outing"])).stdout).toContain("squad.html");
  const page = readFileSync(join(outing, "squad.html"), "utf8");
  expect(page).toContain("outside its folder");
  expect(page).toContain("--trust-paths (render, still, say and judge take it)");
});
