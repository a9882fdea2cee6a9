import { readdirSync } from "node:fs";
import { join } from "node:path";
import { expect, it } from "vitest";
import type { Ride } from "../../main/contract/ride.ts";
import { defaultPlan } from "../../main/reading/plan/defaultPlan.ts";
import { read } from "../../main/reading/read.ts";
import { readRide } from "../../main/ride/readRide.edge.ts";
import { rideSummary } from "../../main/ride/rideSummary.ts";
import { readingText } from "../../overlay/words/reading/readingText.ts";
import { calibrationRide, cells, rangeCells } from "../bench/calibrationRides.ts";
import { makeRide } from "../support/makeRide.ts";

const folders = [
  "test/fixtures/rides",
  ...(process.env.FOLLOWCAR_DATA ? ["fit", "tcx", "gpx"].map((kind) => join(process.env.FOLLOWCAR_DATA!, kind)) : []),
];

/** What two lines of one reading say against each other; empty where they agree. */
function contradictions(lines: readonly string[]): string[] {
  const text = lines.join("\n");
  const found: string[] = [];
  const against = (rule: string, holds: boolean) => {
    if (holds) found.push(rule);
  };
  const drift = /Drift[^:\n]*: ([+-]?\d+) beats?, give or take (\d+)/.exec(text);
  const none = /no drift that one ride can show/i.test(text);
  const rises = /^(The heart (rose|drifted)|Drift began)/m.test(text);
  if (drift) {
    const outside = Math.abs(Number(drift[1])) > Number(drift[2]);
    against("no drift beside a drift outside its own range", none && outside);
    against("a drift inside its range is called shown", !outside && !none && !/too little for two readings/.test(text));
  }
  against("no drift beside a rise with or without a start", none && rises);
  against("a drift's start and none", /No drift that this ride can show\./.test(text) && rises);
  const first = /^First heart reading (\d+)/m.exec(text);
  const last = /^Last heart reading (\d+)/m.exec(text);
  const rise = /^Rise as recorded: ([+-]?\d+) beat/m.exec(text);
  if (first && last && rise)
    against("the rise is not last less first", Number(last[1]) - Number(first[1]) !== Number(rise[1]));
  const breaks = /^(\d+) breaks? of 3 s or more/m.exec(text);
  const lapses = /(\d+) of 10 s or more with nothing to excuse/.exec(text);
  if (lapses) against("more lapses than breaks", Number(lapses[1]) > Number(breaks?.[1] ?? 0));
  against(
    "held while it rose from the start",
    /rose from the start\.$/m.test(text) && /Held without drift: at least/.test(text),
  );
  const held = /^Held without drift: at least/m.test(text);
  against("held, and the heart fell", held && drift !== null && Number(drift[1]) < -Number(drift[2]));
  const band = /^In the band (\d+) % of the main part.*30 s mean of power/m.exec(text);
  against("held, and off the plan", held && band !== null && Number(band[1]) < 49);
  const step = /differs from the rise because power was (\d+) W/.exec(text);
  if (step && drift && rise)
    against("a few watts are no reason", Number(step[1]) < 5 && Math.abs(Number(rise[1]) - Number(drift[1])) <= 2);
  against("without a heart, a reading of it", /There is no heart rate in the file/.test(text) && first !== null);
  against("without power, watts", /There is no power in the file/.test(text) && /mean power/.test(text));
  against("a fade and a rise of power", /Power faded/.test(text) && /power was \d+ W higher in the second/.test(text));
  against("no number", /NaN|Infinity|undefined|null/.test(text));
  against(
    "a share of more than all",
    [...text.matchAll(/(\d+) %/g)].some(([, percent]) => Number(percent) > 100 && !/missing/.test(text)),
  );
  return found;
}

it("no two lines of forty and more real and simulated rides contradict", async () => {
  const rides: [string, Ride][] = [];
  for (const folder of folders) {
    for (const name of readdirSync(folder).sort()) {
      const ride = await readRide(join(folder, name)).catch(() => null);
      if (ride) rides.push([name, ride]);
    }
  }
  for (const cell of [...cells.filter(({ minutes }) => minutes <= 180), ...rangeCells]) {
    const { powerW, heartBpm, standing } = calibrationRide(cell, 5);
    const speedMps = Float64Array.from(standing, (stands) => (stands === 1 ? 0 : 8.5));
    rides.push([cell.name, makeRide({ powerW, heartRateBpm: heartBpm, speedMps })]);
  }
  expect(rides.length).toBeGreaterThanOrEqual(40);
  const found: string[] = [];
  for (const [name, ride] of rides) {
    for (const targetW of [null, 190]) {
      const lines = readingText(read(ride, defaultPlan({ targetW }), []), rideSummary(ride, "road"));
      for (const rule of contradictions(lines))
        found.push(`${name} (${targetW ?? "no target"}): ${rule}\n${lines.join("\n")}`);
    }
  }
  expect(found).toEqual([]);
});
