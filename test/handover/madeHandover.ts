import { readFileSync } from "node:fs";
import { createCanvas } from "@napi-rs/canvas";
import type { Plan } from "../../main/contract/plan.ts";
import type { Reading } from "../../main/contract/reading.ts";
import type { Ride } from "../../main/contract/ride.ts";
import { chooseFilm } from "../../main/film/chooseFilm.ts";
import { filmShape } from "../../main/film/filmShape.ts";
import { momentFacts } from "../../main/film/momentFacts.ts";
import { planFacts } from "../../main/film/planFacts.ts";
import type { HandoverData, Still } from "../../main/handover/handoverData.ts";
import { readingText } from "../../overlay/words/reading/readingText.ts";
import { plannedBlocks } from "../../main/reading/band.ts";
import { readingJson } from "../../main/reading/readingJson.ts";
import { rideSummary } from "../../main/ride/rideSummary.ts";
import { madeClip, madeLineup, madePlan, madeReading, madeRide, madeStory } from "../film/madeReading.ts";

/** A picture that stands for a still: the tests need one, not what is on it. */
export function madeStill(moment: number): Still {
  const canvas = createCanvas(640, 360);
  const context = canvas.getContext("2d");
  context.fillStyle = "#5b7d8c";
  context.fillRect(0, 0, 640, 360);
  context.fillStyle = "#39424a";
  context.fillRect(0, 200, 640, 160);
  return {
    moment,
    png: canvas.toBuffer("image/png"),
    jpeg: canvas.toBuffer("image/jpeg"),
    widthPx: 640,
    heightPx: 360,
  };
}

/** Everything a hand-over needs, from the made ride or another. */
export function madeHandover(
  more: Partial<HandoverData> & { ride?: Ride; plan?: Plan; reading?: Reading } = {},
): HandoverData {
  const ride = more.ride ?? madeRide();
  const plan = more.plan ?? madePlan();
  const reading = more.reading ?? madeReading(ride);
  const story = madeStory(ride, plan, reading);
  const clips = [madeClip("a", 240), madeClip("c", 90)];
  const language = more.language ?? "en";
  const film = chooseFilm({
    ride,
    plan,
    reading,
    story,
    blocks: [],
    clips,
    lineup: madeLineup({ a: 1740, c: 3500 }),
    lengthS: 120,
    shape: filmShape(clips, "share"),
    language,
    titleLines: [],
    wishes: [],
    acceptUnsure: false,
    riderName: null,
    forWhom: more.forWhom ?? "athlete",
    asPercent: more.asPercent ?? false,
  });
  return {
    ride,
    plan,
    reading,
    story,
    withoutNote: null,
    momentFacts: reading.moments.map((moment) => momentFacts(ride, reading, story.facts, moment)),
    planFacts: planFacts(plan, reading, story.facts),
    blocks: plannedBlocks(plan),
    film,
    clips,
    readJson: readingJson(rideSummary(ride, plan.setting), reading, "en"),
    readLines: readingText(reading, rideSummary(ride, plan.setting)),
    language,
    units: "metric",
    forWhom: "athlete",
    asPercent: false,
    title: null,
    dateText: "17 May 2026",
    distanceM: 64_800,
    notes: "A strong ride. We keep at it.",
    momentNotes: new Map([[0, "Look how the shoulders drop at the top."]]),
    momentNames: new Map(),
    dropped: new Set(),
    questions: null,
    stills: [madeStill(0)],
    fonts: ([500, 600] as const).map((weight) => ({
      weight,
      woff2Base64: readFileSync(`assets/fonts/barlow-semi-condensed-latin-${weight}-normal.woff2`, "base64"),
    })),
    ...more,
  };
}
