import { readdirSync } from "node:fs";
import { join } from "node:path";
import { expect, it } from "vitest";
import type { Ride } from "../../main/contract/ride.ts";
import { defaultPlan } from "../../main/reading/plan/defaultPlan.ts";
import { read } from "../../main/reading/read.ts";
import { readRide } from "../../main/ride/readRide.edge.ts";
import { rideSummary } from "../../main/ride/rideSummary.ts";
import { coachHtml } from "../../main/handover/coachHtml.tsx";
import { readingJson } from "../../main/reading/readingJson.ts";
import type { Reading } from "../../main/contract/reading.ts";
import { readingText } from "../../overlay/words/reading/readingText.ts";
import { calibrationRide, cells, rangeCells } from "../bench/calibrationRides.ts";
import { madeHandover } from "../handover/madeHandover.ts";
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
  const step = /differs from what was recorded because power was (\d+) W/.exec(text);
  if (step && drift && rise)
    against("a few watts are no reason", Number(step[1]) < 5 && Math.abs(Number(rise[1]) - Number(drift[1])) <= 2);
  against("without a heart, a reading of it", /There is no heart rate in the file/.test(text) && first !== null);
  against("without power, watts", /There is no power in the file/.test(text) && /mean power/.test(text));
  against(
    "at the same power, without power",
    !/mean power/.test(text) && /fell by \d+ beats at the same power/.test(text),
  );
  const fell = /^Held without drift: .*the heart fell by (\d+) beats\.$/m.exec(text);
  if (fell && rise) against("two falls of one heart", Number(fell[1]) !== -Number(rise[1]));
  against(
    "a rise of the heart alone, and no doubt",
    !/mean power/.test(text) &&
      /without drift: (not at all|the heart rose|between)/.test(text) !== /riding harder/.test(text),
  );
  against("what plays into no reading", /^What else may play in/m.test(text) && first === null && last === null);
  against("ten minutes that are none", /ten minutes off/.test(text) && !/^Main part: 0:10:00/m.test(text));
  against("no start of a drift can be told, and one is", /the start of a drift can't be told/.test(text) && rises);
  against("work without power", /work 0 kJ/.test(text));
  against("cadence twice", /neither power nor cadence/.test(text) && /There is no cadence in the file/.test(text));
  const sport = text.indexOf("not cycling:");
  const main = text.indexOf("\nMain part");
  against("another sport is said after its reading", sport > 0 && main > 0 && sport > main + 250);
  const ladder = /^The event takes.*$/m.exec(text)?.[0];
  against("a rule of thumb that does not say so", ladder !== undefined && !ladder.includes("rule of thumb"));
  against("a fade and a rise of power", /Power faded/.test(text) && /power was \d+ W higher in the second/.test(text));
  against("no number", /NaN|Infinity|undefined|null/.test(text));
  against(
    "a share of more than all",
    [...text.matchAll(/(\d+) %/g)].some(([, percent]) => Number(percent) > 100 && !/missing/.test(text)),
  );
  return found;
}

/** What is seen of a page: its text, a bar between cells. */
const visible = (html: string) =>
  html
    .replace(/<(style|title|desc)[\s\S]*?<\/\1>/g, "")
    .replace(/<\/t[hd]>/g, "|")
    .replace(/<\/(tr|h2|p)>|<br\/?>/g, "\n")
    .replace(/<[^>]+>/g, "")
    .replaceAll("\u00a0", " ")
    .replaceAll("&#x27;", "'")
    .replaceAll("&quot;", '"')
    .replaceAll("&gt;", ">")
    .replaceAll("&amp;", "&");

/** What the words, the JSON and the coach's page of one reading say against each other. */
function doorsApart(reading: Reading, ride: Ride, lines: readonly string[]): string[] {
  const summary = rideSummary(ride, "road");
  const json = readingJson(summary, reading, "en", { laps: ride.laps, warnings: ride.warnings });
  const drift = json["drift"] as Record<string, number | null>;
  const target = json["target"] as Record<string, string | number | null>;
  const text = lines.join("\n");
  // The film of a made ride stands in: the page's own figures are this reading's.
  const data = { ...madeHandover(), ride, reading, readJson: json, readLines: lines, units: "metric" as const };
  const page = visible(coachHtml({ ...data, film: { ...data.film, items: [] } }));
  const found: string[] = [];
  const spoken = (pattern: RegExp) => {
    const match = pattern.exec(text);
    return match ? Number(match[1]) : null;
  };
  const onPage = (label: string) => {
    const row = page.split("\n").find((line) => line.startsWith(`${label}|`));
    return row === undefined || row.includes("unknown") ? null : Number(row.split("|")[1]!.split(" ")[0]);
  };
  const same = (what: string, words: number | null, label: string, raw: number | null | undefined) => {
    if (raw === undefined) return void found.push(`${what}: not in the JSON`);
    if (words !== onPage(label)) found.push(`${what}: ${words} in words, ${onPage(label)} on the coach's page`);
    // The JSON is not rounded: words round once, a rise is the difference of two rounded readings.
    if ((words === null) !== (raw === null) || (words !== null && Math.abs(words - raw!) > 1))
      found.push(`${what}: ${words} in words, ${raw} in the JSON`);
  };
  same("rise", spoken(/^Rise as recorded: ([+-]?\d+) beat/m), "rise as recorded, beats", drift["riseBeats"]);
  same("first reading", spoken(/^First heart reading (\d+)/m), "first heart reading, bpm", drift["firstBpm"]);
  same("last reading", spoken(/^Last heart reading (\d+)/m), "last heart reading, bpm", drift["lastBpm"]);
  if (reading.drift.correctedForPower && drift["riseBeats"] !== null)
    same("drift", spoken(/^Drift at the same power: ([+-]?\d+) beat/m), "drift, beats", drift["driftBeats"]);
  const held = /^Held without drift: (.*)\.$/m.exec(text);
  if (held && held[1] !== target["heldWords"])
    found.push(`held: ${held[1]} in words, ${target["heldWords"]} in the JSON`);
  if (/^(at least|between|not at all)/.test(String(target["heldWords"])) !== (target["heldLowS"] !== null))
    found.push("held in words, and no seconds of it");
  for (const hour of text.matchAll(/^ {2}(\d:\d\d:\d\d) to (\d:\d\d:\d\d) {2}(.*)\.$/gm)) {
    const row = page.split("\n").find((line) => line.startsWith(`${hour[1]}|${hour[2]}|`));
    const cells = row?.split("|").slice(2) ?? [];
    for (const part of hour[3]!.split(", ")) {
      const number = /[\d.]+/.exec(part)?.[0] ?? "";
      if (!cells.includes(number)) found.push(`hour ${hour[1]}: ${part} in words, ${row} on the page`);
    }
  }
  for (const line of lines) {
    const plain = line.trim().replace(/^Mind: /, "");
    if (plain !== "" && !page.includes(plain)) found.push(`not on the coach's page: ${line}`);
  }
  return found;
}

it("no two lines of forty and more real and simulated rides contradict, nor do words, JSON and coach's page", async () => {
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
      const reading = read(ride, defaultPlan({ targetW }), []);
      const lines = readingText(reading, rideSummary(ride, "road"), { oddInFile: ride.warnings });
      for (const rule of [...contradictions(lines), ...(targetW === null ? [] : doorsApart(reading, ride, lines))])
        found.push(`${name} (${targetW ?? "no target"}): ${rule}`);
    }
  }
  expect(found).toEqual([]);
}, 300_000);
