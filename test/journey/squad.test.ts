// A squad's evening: a folder with a folder for each athlete. Each ride follows its own athlete's file, what is broken
// fails alone and is listed, all of it is one page without scripts, and shares make the same as one machine.
import { cpSync, existsSync, mkdirSync, mkdtempSync, readFileSync, readdirSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { HtmlValidate } from "html-validate";
import { SaxesParser } from "saxes";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { loadDebrief, saveDebrief } from "../../main/debrief/debriefStore.edge.ts";
import { demoRideFile } from "../../main/demo/demoRideFile.ts";
import { demoRide } from "../../main/demo/rideModel.ts";
import { batchJourney, type Batch } from "../../main/journey/preparedRides.ts";
import { debrief } from "../../main/cli/verbs/debrief.ts";
import { debriefRequest } from "../support/debriefRequest.ts";
import { failureSaid, rejected } from "../support/said.ts";
import { testHost } from "../support/tools.ts";

const context = { signal: new AbortController().signal, report: () => undefined };
const request = debriefRequest({ paths: [], lengthS: 20 });

let root = "";
/** Three rides that can be done, one by an athlete whose file is broken, one that is no ride. */
function makeSquad(name: string): string {
  const squad = join(root, name);
  cpSync(join(root, "plain"), squad, { recursive: true });
  return squad;
}

async function worked(squad: string, shares: number): Promise<Batch[]> {
  const batches: Batch[] = [];
  for (let part = 1; part <= shares; part++)
    batches.push(await batchJourney(squad, request, testHost(), context, { part, of: shares }));
  return batches;
}

/** All that was written, by its path from the squad's folder; cut to what says where and by which process. */
function outputs(squad: string): Record<string, string> {
  const names = readdirSync(squad, { recursive: true, encoding: "utf8" });
  return Object.fromEntries(
    names
      .filter((name) => /\.(html|json|mp4)$/.test(name))
      .map((name) => [name, readFileSync(join(squad, name), "latin1").replaceAll(squad, "SQUAD")]),
  );
}

let whole = "";
let first: Batch;

beforeAll(async () => {
  root = mkdtempSync(join(tmpdir(), "followcar-squad-"));
  process.env.FOLLOWCAR_CACHE = join(root, "cache");
  const plain = join(root, "plain");
  const file = demoRideFile(demoRide(7));
  for (const name of ["berta", "carl", "doro", "emil", "fritz"]) mkdirSync(join(plain, name), { recursive: true });
  writeFileSync(join(plain, "berta", "athlete.json"), '{"name":"Berta","language":"de","road":{"targetW":160}}');
  writeFileSync(join(plain, "berta", "tuesday.fit"), file);
  writeFileSync(join(plain, "carl", "athlete.json"), '{"name":"Carl"}');
  writeFileSync(join(plain, "carl", "plan.json"), '{"target":162,"note":{"illness":"a cold"}}');
  writeFileSync(join(plain, "carl", "tuesday.fit"), file);
  writeFileSync(join(plain, "doro", "tuesday.fit"), file);
  writeFileSync(join(plain, "emil", "athlete.json"), '{"name":');
  writeFileSync(join(plain, "emil", "tuesday.fit"), file);
  writeFileSync(join(plain, "fritz", "<b>.gpx"), "no ride at all");
  whole = makeSquad("one");
  first = (await worked(whole, 1))[0]!;
}, 300_000);

afterAll(() => {
  delete process.env.FOLLOWCAR_CACHE;
  rmSync(root, { recursive: true, force: true });
});

describe("a batch", () => {
  it("takes each folder's athlete, and fails what is broken alone", async () => {
    expect(first.rides.map(({ ridePath, state }) => `${ridePath.slice(whole.length + 1)}: ${state}`)).toEqual([
      "berta/tuesday.fit: prepared",
      "carl/tuesday.fit: prepared",
      "doro/tuesday.fit: prepared",
      "emil/tuesday.fit: failed",
      "fritz/<b>.gpx: failed",
    ]);
    expect(failureSaid(first.rides[3]!.failure).sentence).toContain("athlete.json");
    const { document } = await loadDebrief(join(whole, "berta", "tuesday-debrief"));
    expect([document.plan.rider, document.plan.targetW, document.settings.language, document.athletePath]).toEqual([
      "Berta",
      160,
      "de",
      "..",
    ]);
  });

  it.each([2, 5])(
    "makes the same in %i shares as at once",
    async (shares) => {
      const squad = makeSquad(`in-${shares}`);
      const batches = await worked(squad, shares);
      expect(batches.flatMap(({ rides }) => rides)).toHaveLength(5);
      const [one, many] = [outputs(whole), outputs(squad)];
      expect(Object.keys(many).sort()).toEqual(Object.keys(one).sort());
      for (const name of Object.keys(one)) expect(many[name] === one[name], name).toBe(true);
    },
    200_000,
  );

  it("gives two rides that would share a folder one each", async () => {
    const squad = join(root, "twins");
    mkdirSync(squad);
    for (const name of ["sunday.gpx", "sunday.csv"]) writeFileSync(join(squad, name), "no ride");
    const { rides } = await batchJourney(squad, request, testHost(), context);
    expect(rides.map(({ folder }) => folder.slice(squad.length + 1))).toEqual(["sunday-debrief", "sunday-debrief-2"]);
  });

  it("refuses a share that is none, and one without a batch", async () => {
    const said = (options: Record<string, string>): Promise<string> =>
      rejected(debrief.run([], options, { ...context, language: "en" }));
    for (const share of ["0/2", "3/2", "2", "a/b", "1/0"])
      expect(await said({ batch: whole, share })).toContain(`--share ${share} is not a part`);
    expect(await said({ share: "1/2" })).toContain("goes with --batch");
  });
});

describe("the squad's page", () => {
  const page = (): string => readFileSync(join(whole, "squad.html"), "utf8");
  const rides = (): string[] => page().match(/<article.*?<\/article>/gs) ?? [];

  it("is valid, has no script and fetches nothing", async () => {
    const report = await new HtmlValidate({
      extends: ["html-validate:recommended", "html-validate:document"],
      rules: { "require-csp-nonce": "off" },
    }).validateString(page().replaceAll(/data:(image|font)[^"')]+/g, "data:,"));
    expect(report.results.flatMap(({ messages }) => messages.map((one) => `${one.line}: ${one.message}`))).toEqual([]);
    expect(page()).not.toMatch(/<script|https?:\/\/(?!www\.w3\.org)|\son\w+=/);
  });

  it("shows each ride with its three lines, its pictures, a tick and the message, those to look at first", () => {
    expect(rides()).toHaveLength(3);
    const [carl, doro, berta] = rides();
    expect([carl, doro, berta].map((ride) => /<h2>(.*?)</.exec(ride!)![1]!.split(",")[0])).toEqual([
      "Carl",
      "doro/tuesday.fit",
      "Berta",
    ]);
    expect(carl).toContain("health");
    expect(doro).toContain("is the plan missing?");
    expect(berta).toContain("Nothing stands out");
    expect([carl, doro, berta].map((ride) => ride!.match(/<img/g)!.length)).toEqual([1, 2, 2]);
    // Who noted an illness is shown no fault and told nothing to change; the others are.
    expect(carl).toContain("Nothing to change on this ride: get well first.");
    expect(carl).not.toMatch(/Start each rise lower|Above the plan uphill/);
    expect(berta).toContain("Geh jede Steigung ruhiger an");
    expect([...berta!.matchAll(/ alt="([^"]*)"/g)][1]![1]).toMatch(/^Über dem Plan hinauf/);
    for (const ride of rides()) {
      expect(ride.match(/<li/g)!.length).toBeGreaterThanOrEqual(3);
      expect(ride).toContain('type="checkbox"');
      expect(ride).not.toContain(" checked");
      expect(/<pre[^>]*>(.*)<\/pre>/s.exec(ride)![1]!.trim().split("\n")).toHaveLength(5);
    }
  });

  it("reads in 25 s a ride at 4 words a second, so that 12 take five minutes", () => {
    for (const ride of rides()) {
      const open = ride.replaceAll(/<details>.*?<\/details>/gs, "").replaceAll(/<[^>]+>/g, " ");
      expect(open.split(/\s+/).filter((word) => /\p{L}|\d/u.test(word)).length).toBeLessThanOrEqual(100);
    }
  });

  it("holds its charts as pictures that stand alone", () => {
    const svgs = [...page().matchAll(/data:image\/svg\+xml;base64,([^"]+)/g)].map(([, base64]) =>
      Buffer.from(base64!, "base64").toString("utf8"),
    );
    expect(svgs).toHaveLength(5);
    for (const svg of svgs) {
      const parser = new SaxesParser({ xmlns: true });
      parser.on("error", (error) => {
        throw error;
      });
      parser.write(svg).close();
    }
  });

  it("lists what could not be prepared with its remedy, as text", () => {
    const list = /<section>.*?<\/section>/s.exec(page())![0];
    expect(list).toContain("emil/tuesday.fit");
    expect(list).toContain("fritz/&lt;b&gt;.gpx");
    expect(list).not.toContain("<b>.gpx");
  });

  it("ticks what was opened, tells it anew, and takes up what was mended", async () => {
    const folder = join(whole, "berta", "tuesday-debrief");
    const { document } = await loadDebrief(folder);
    await saveDebrief(folder, {
      ...document,
      prepared: false,
      words: { ...document.words, change: "Set the bars higher." },
    });
    writeFileSync(join(whole, "emil", "athlete.json"), '{"name":"Emil"}');
    const [again] = await worked(whole, 1);
    expect(again!.rides.map(({ state }) => state)).toEqual([
      ...Array<string>(3).fill("there already"),
      "prepared",
      "failed",
    ]);
    const berta = rides().find((ride) => ride.includes("Berta"))!;
    expect(berta).toContain("checked");
    expect(berta).toContain("Set the bars higher.");
    expect(rides().at(-1)).toBe(berta);
    expect(rides().some((ride) => ride.includes("Emil"))).toBe(true);
    expect(existsSync(join(whole, "emil", "tuesday-debrief", "film.mp4"))).toBe(true);
  }, 120_000);

  it("takes nothing from a row that someone else wrote but its words and pictures", async () => {
    const path = join(whole, "carl", "tuesday-debrief", "squad-row.json");
    const row = JSON.parse(readFileSync(path, "utf8")) as { told: { title: string; pictures: { type: string }[] } };
    row.told.title = "<script>alert(1)</script>";
    writeFileSync(path, JSON.stringify(row));
    await worked(whole, 1);
    expect(page()).not.toContain("<script");
    row.told.pictures[0]!.type = "text/html";
    writeFileSync(path, JSON.stringify(row));
    await worked(whole, 1);
    expect(page()).not.toMatch(/data:text\/html|alert\(1\)/);
  }, 60_000);
});
