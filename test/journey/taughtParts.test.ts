import { beforeAll, describe, expect, test } from "vitest";
import type { DebriefDocument } from "../../main/contract/debrief.ts";
import type { Film, Shot } from "../../main/contract/film.ts";
import type { Plan } from "../../main/contract/plan.ts";
import { filmChapters } from "../../main/handover/filmText.ts";
import { toldMoments } from "../../main/handover/handoverData.ts";
import { pageHtml } from "../../main/handover/pageHtml.tsx";
import { message } from "../../main/handover/message.ts";
import { newDebrief } from "../../main/debrief/debriefDocument.ts";
import { type DebriefStanding, NO_MEDIA, unreadDebrief } from "../../main/journey/debrief.ts";
import { film } from "../../main/journey/film.ts";
import { handoverData } from "../../main/journey/handOver.ts";
import { judgeRide } from "../../main/journey/judge.ts";
import { taughtParts, withoutTaughtParts } from "../../main/journey/taughtParts.ts";
import { debriefWords } from "../../overlay/words/debriefWords.ts";
import { noticeText } from "../../overlay/words/notices/noticeText.ts";
import { defaultPlan } from "../../main/reading/plan/defaultPlan.ts";
import { madeClip, madeLineup } from "../film/madeReading.ts";
import { makeRide } from "../support/makeRide.ts";
import { pageText, wordsOf } from "../support/rideWords.ts";

/** Two hours at 200 W, every ten minutes 3 min at 290 W. */
const at = (f: (t: number) => number): number[] => Array.from({ length: 7200 }, (_, t) => f(t));
const ride = makeRide({
  powerW: at((t) => (t > 900 && t % 600 < 180 ? 290 : 200) + Math.round(4 * Math.sin(t / 7))),
  heartRateBpm: at((t) => 138 + Math.round(Math.sin(t / 47))),
  cadenceRpm: at((t) => 88 + Math.round(2 * Math.sin(t / 11))),
  speedMps: at(() => 8),
  altitudeM: at(() => 100),
  latDeg: at((t) => 47.1 + t * 7e-5),
  lonDeg: at(() => 11.6),
});
const well = defaultPlan({ setting: "road", targetW: 200, toleranceW: 15 });
const ill: Plan = { ...well, note: { ...well.note, feel: "rode with a fever" } };
const clip = madeClip("all", ride.grid.seconds);

/** The debrief with a film that the coach set, by the plan as it now is. */
function standing(plan: Plan, set: Film, more: Partial<DebriefDocument> = {}): DebriefStanding {
  const made = newDebrief(
    plan,
    [{ id: "all", kind: "clip", path: "all.mp4", bytes: 1, sha256: null } as never],
    "ride",
  );
  const document: DebriefDocument = { ...made, film: set, filmSetBy: "coach", ...more };
  const debrief = {
    ...unreadDebrief(document, null),
    media: { ...NO_MEDIA, clips: new Map([["all", clip]]) },
    lineup: madeLineup({ all: 0 }),
    judged: judgeRide(ride, plan, []),
  };
  return film(debrief).standing!;
}

describe("a film that the coach set before a note of illness came", () => {
  let set: Film;
  let before: DebriefStanding;
  let after: DebriefStanding;
  beforeAll(async () => {
    set = (await wordsOf(ride, well, { filmed: true })).standing.film;
    before = standing(well, set);
    after = standing(ill, set);
  });
  const shots = ({ film: { items } }: DebriefStanding): Shot[] =>
    items.flatMap((one) => (one.type === "shot" ? one : []));
  const FAULT =
    /[Pp]ressure (is )?gone|[Nn]o pressure (for|here|over)|above the plan|planned \d|Up the rise|heart climbs/;

  test("keeps every shot, and no word of the program's on it asks or blames", async () => {
    expect(taughtParts(before)).toEqual([]);
    expect(before.warnings).toEqual([]);
    expect(
      shots(before)
        .flatMap(({ captions }) => captions.map(({ text }) => text))
        .join("\n"),
    ).toMatch(FAULT);
    expect(shots(after).map(({ id }) => id)).toEqual(shots(before).map(({ id }) => id));
    const taught = taughtParts(after);
    expect(taught.length).toBeGreaterThan(0);
    for (const { itemId } of taught) {
      const { captions } = shots(after).find(({ id }) => id === itemId)!;
      expect(captions.map(({ text }) => text)).toEqual(["A moment of the ride"]);
    }
    for (const language of ["en", "de"] as const) {
      const own = { ...after.document, settings: { ...after.document.settings, language } };
      const data = await handoverData({ ...standing(ill, set, own), document: own }, []);
      const words = debriefWords(language);
      const chapters = filmChapters(data.film, toldMoments(data), words).map(({ text }) => text);
      const said = [pageText(pageHtml(data)).split(words.page.cautionsTitle)[0], message(data), ...chapters].join("\n");
      expect(said).not.toMatch(FAULT);
      expect(said).not.toMatch(/^Ohne Druck[,.]|\d ohne Druck|über dem Plan|Weit über|geplant \d/mu);
      expect(said).toMatch(/A moment of the ride|Ein Moment der Fahrt/);
    }
  });

  test("keeps what the coach wrote on a shot", () => {
    const [first] = taughtParts(after);
    const items = set.items.map((item) =>
      item.id === first!.itemId && item.type === "shot"
        ? { ...item, captions: item.captions.map((one) => ({ ...one, text: "Watch the shoulders" })) }
        : item,
    );
    const own = standing(ill, { ...set, items });
    expect(shots(own).find(({ id }) => id === first!.itemId)!.captions[0]!.text).toBe("Watch the shoulders");
  });

  test("the coach is told which parts, at both doors and in both languages, and can leave them out", () => {
    const [said, ...more] = after.warnings;
    expect(more).toEqual([]);
    expect(noticeText(said!, "en", "command")).toMatch(
      new RegExp(
        String.raw`^The rider's note speaks of illness\. (One part|\d parts) of the film as you set it still shows? ` +
          String.raw`what to change \(at \d:\d\d:\d\d.* of the ride\); .*` +
          String.raw`followcar render DEBRIEF --no-teaching leaves the parts out\.$`,
      ),
    );
    expect(noticeText(said!, "en", "window")).toMatch(/A button in Build and in Hand over leaves the parts out\.$/);
    expect(noticeText(said!, "de", "command")).toMatch(
      /^Die Notiz des Fahrers spricht von Krankheit\..*--no-teaching/u,
    );
    expect(noticeText(said!, "de", "window")).toMatch(/In Build und in Hand over lässt ein Knopf die Teile weg\.$/u);
    const without = withoutTaughtParts(after);
    expect(taughtParts(without)).toEqual([]);
    expect(without.warnings).toEqual([]);
    expect(without.film.items.length).toBe(after.film.items.length - taughtParts(after).length);
    // The document is the coach's: it keeps them.
    expect(without.document.film).toBe(after.document.film);
  });

  test("own lines on what to change and to ride next are named as well", () => {
    const words = { ...after.document.words, change: "Start the rises lower.", next: "Three hours on Sunday." };
    const [said] = withoutTaughtParts(standing(ill, set, { words })).warnings;
    expect(noticeText(said!, "en", "command")).toBe(
      "The rider's note speaks of illness. Your own words on what to change and on the next ride stay as well: do they still fit?",
    );
  });
});
