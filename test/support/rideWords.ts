import { existsSync, readdirSync } from "node:fs";
import { join } from "node:path";
import type { DebriefDocument } from "../../main/contract/debrief.ts";
import type { Language } from "../../main/contract/languageAndUnits.ts";
import type { Plan } from "../../main/contract/plan.ts";
import type { Ride } from "../../main/contract/ride.ts";
import { newDebrief } from "../../main/debrief/debriefDocument.ts";
import { cardWords } from "../../main/film/cardWords.ts";
import type { HandoverData } from "../../main/handover/handoverData.ts";
import { coachHtml } from "../../main/handover/coachHtml.tsx";
import { message } from "../../main/handover/message.ts";
import { pageHtml } from "../../main/handover/pageHtml.tsx";
import type { DebriefStanding } from "../../main/journey/debrief.ts";
import { automaticFilm } from "../../main/journey/automaticFilm.ts";
import { filmWishes } from "../../main/journey/film.ts";
import { handoverData } from "../../main/journey/handOver.ts";
import { judgeRide } from "../../main/journey/judge.ts";
import { quantileOf } from "../../main/maths/statistics.ts";
import { defaultPlan } from "../../main/reading/plan/defaultPlan.ts";
import { readRide } from "../../main/ride/readRide.edge.ts";
import { madeClip, madeLineup } from "../film/madeReading.ts";

/** A ride with its name for a heading. */
export interface NamedRide {
  readonly name: string;
  readonly ride: Ride;
}

/** Every ride file in some folders that can be read and has power or heart rate; those without either are passed over. */
export async function ridesWithSensors(folders: readonly string[]): Promise<NamedRide[]> {
  const found: NamedRide[] = [];
  for (const folder of folders.filter((one) => existsSync(one)))
    for (const name of readdirSync(folder).sort()) {
      const ride = await readRide(join(folder, name)).catch(() => null);
      if (ride !== null && (ride.grid.power !== null || ride.grid.heartRate !== null)) found.push({ name, ride });
    }
  return found;
}

/** Nothing asked but where it was ridden. */
export function bareRidePlan(ride: Ride): Plan {
  return defaultPlan({ setting: ride.grid.position === null ? "trainer" : "road" });
}

/**
 * What a coach might have asked for: the power ridden half of the pedalled time, to 5 W and 15 W either side; without
 * power, the heart rate of the middle, 6 beats either side; an event a third longer than the ride, to the half hour.
 */
export function sensiblePlan(ride: Ride): Plan {
  const { power, heartRate, seconds } = ride.grid;
  const pressed = power?.value.filter((watts) => watts > 30) ?? new Float64Array();
  const bpm = heartRate?.value.filter((beats) => Number.isFinite(beats)) ?? new Float64Array();
  const asked =
    pressed.length > 0
      ? { targetW: Math.round(quantileOf([...pressed], 0.5) / 5) * 5, toleranceW: 15 }
      : {
          heartLowBpm: Math.round(quantileOf([...bpm], 0.5)) - 6,
          heartHighBpm: Math.round(quantileOf([...bpm], 0.5)) + 6,
        };
  return defaultPlan({
    ...bareRidePlan(ride),
    title: "Base ride",
    rider: "Ines Falk",
    ...asked,
    eventName: "Three Valleys",
    eventS: Math.max(3600, Math.ceil((seconds * 1.33) / 1800) * 1800),
  });
}

/** Everything that is said about one ride. */
export interface RideWords {
  readonly standing: DebriefStanding;
  readonly data: HandoverData;
  readonly message: string;
  /** The page's text, a line a block. */
  readonly page: string;
  /** Each item of the film: what its card or its captions say. */
  readonly film: readonly string[];
  readonly coach: string;
}

/** Text of a page, a line a block; drawings without their ticks. */
export function pageText(html: string): string {
  return html
    .replace(/<(style|script|head)\b[\s\S]*?<\/\1>/g, "")
    .replace(/<svg[\s\S]*?<\/svg>/g, (drawing) => `\n[${/<desc[^>]*>([\s\S]*?)<\/desc>/.exec(drawing)?.[1] ?? ""}]\n`)
    .replace(/<\/(td|th)>/g, " | ")
    .replace(/<\/(p|li|h1|h2|h3|tr|figcaption|section|b|ul|ol|header)>|<br\/?>/g, "\n")
    .replace(/<[^>]*>/g, "")
    .replaceAll("&#x27;", "'")
    .replaceAll("&quot;", '"')
    .replaceAll("&lt;", "<")
    .replaceAll("&gt;", ">")
    .replaceAll("&amp;", "&")
    .replaceAll("\u00a0", " ")
    .split("\n")
    .map((line) => line.trim())
    .filter((line) => line !== "")
    .join("\n");
}

/**
 * What message, page, coach's page and film say of a ride, with nothing rendered.
 * @param options.filmed a camera saw the whole ride; else the film is of cards
 */
export async function wordsOf(
  ride: Ride,
  plan: Plan,
  options: { readonly language?: Language; readonly filmed?: boolean; readonly more?: Partial<DebriefDocument> } = {},
): Promise<RideWords> {
  const { language = "en", filmed = false, more = {} } = options;
  const made = newDebrief(plan, [], "ride");
  const document = { ...made, settings: { ...made.settings, language }, ...more };
  const judged = judgeRide(ride, plan, document.overrides);
  const clips = filmed ? [madeClip("all", ride.grid.seconds)] : [];
  const lineup = madeLineup(filmed ? { all: 0 } : {});
  const film = automaticFilm(filmWishes({ document, judged, clips, lineup }));
  const standing: DebriefStanding = { document, judged, clips, lineup, film, warnings: [], asked: [] };
  const data = await handoverData(standing, []);
  return {
    standing,
    data,
    message: message(data),
    page: pageText(pageHtml(data)),
    film: film.items.map((item) =>
      item.type === "card"
        ? cardWords(item.card).replaceAll("\n", " / ")
        : `(shot) ${item.captions.map(({ text }) => text).join(" / ")}`,
    ),
    coach: pageText(coachHtml(data)),
  };
}
