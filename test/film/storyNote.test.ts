// A rider's note that speaks of health, sleep or food comes before any teaching.
import { describe, expect, test } from "vitest";
import type { RiderNote } from "../../main/contract/plan.ts";
import { newDebrief } from "../../main/debrief/debriefDocument.ts";
import { questionsFor } from "../../main/handover/handoverLines.ts";
import { saidWords } from "../../main/handover/saidWords.ts";
import { squadTold } from "../../main/handover/squadTold.ts";
import { debriefWords } from "../../overlay/words/debriefWords.ts";
import { type RideWords, sensiblePlan, wordsOf } from "../support/rideWords.ts";
import { madeRide } from "./madeReading.ts";
import { evenRide, hardThirdRide, storyRides } from "./storyRides.ts";

/** Kinds of moment that show a fault, or when the heart gave way. */
const FAULTS = new Set(["riseThenOff", "surge", "lapse", "breakRun", "cadenceBlock", "driftOnset"]);

describe("a note of health, sleep or food comes before training", () => {
  test("a note of illness holds every line of every ride", async () => {
    for (const { name, ride } of await storyRides()) {
      const plan = sensiblePlan(ride);
      const ill = { ...plan, note: { ...plan.note, feel: "rode with a fever" } };
      const words = await wordsOf(ride, ill, { filmed: true });
      const { message, page, film } = words;
      saysNothingToChange(words, "Nothing to change on this ride: get well first.");
      const next = message.split("\n")[3];
      expect(next, name).toMatch(/rest and recovery come first.*decide with your coach/);
      const all = [message, page.split("Good to know")[0], ...film].join("\n");
      expect(all, name).not.toMatch(
        /longer than|once more|closer to the plan|keep a light pressure|Rule of thumb|build up/i,
      );
    }
  });

  test.each<[keyof RiderNote, string, RegExp, RegExp]>([
    ["feel", "rode with a fever", /get well first\.$/, /Werde erst einmal gesund\.$/],
    ["feel", "my chest felt tight", /see a doctor first\.$/, /Geh zuerst zum Arzt\.$/],
    ["illness", "a cold", /get well first\.$/, /Werde erst einmal gesund\.$/],
    ["feel", "my knee hurt all day", /get well first\.$/, /Werde erst einmal gesund\.$/],
    ["medicine", "ibuprofen", /your health comes first\.$/, /Deine Gesundheit geht vor\.$/],
    ["sleep", "4 h", /sleep enough first\.$/, /Schlaf dich erst einmal aus\.$/],
    ["foodAndDrink", "nothing to eat", /eat and drink enough first\.$/, /Iss und trink erst einmal genug\.$/],
    ["illness", "a bit of something", /your note comes first\.$/, /Deine Notiz geht vor\.$/],
  ])("%s: %s: nothing to change, no fault shown or asked about, in any output", async (field, text, en, de) => {
    const ride = hardThirdRide();
    const plan = sensiblePlan(ride);
    const ill = { ...plan, note: { ...plan.note, [field]: text } };
    for (const [language, change] of [["en", en] as const, ["de", de] as const]) {
      const words = await wordsOf(ride, ill, { language, filmed: true });
      const line = words.message.split("\n")[2]!;
      expect(line).toMatch(/^(Nothing to change on this ride|An dieser Fahrt gibt es nichts zu ändern): /u);
      expect(line).toMatch(change);
      saysNothingToChange(words, line);
      // The coach sees what the ride alone would say, and what the coach says wins.
      const [, , alone] = (await wordsOf(ride, plan, { language, filmed: true })).message.split("\n");
      expect(alone).toMatch(/above the planned 205 W|über den geplanten 205 W/u);
      expect(words.coach).toContain(alone);
      const own = { held: null, change: "Sit up at the top.", next: null, nextS: null, notes: null, questions: null };
      const said = await wordsOf(ride, ill, { language, filmed: true, more: { words: own } });
      expect(said.message.split("\n")[2]).toBe("Sit up at the top.");
      expect(said.film.join("\n")).toContain("Sit up at the top.");
    }
  });

  /** No card with what to change, no moment that shows a fault; the coach is told why. Asked is how they are. */
  function saysNothingToChange(words: RideWords, line: string): void {
    const { film, reading } = words.data;
    expect(words.page).toContain(line);
    expect(saidWords(words.data, words.standing.document.words).lines[1]!.text).toBe(line);
    expect(squadTold(words.data, 0, []).lines[1]).toBe(line);
    const kinds = film.items.flatMap(({ moment }) => (moment === null ? [] : reading.moments[moment]!.kind));
    expect(kinds.filter((kind) => FAULTS.has(kind))).toEqual([]);
    expect(film.items.map(({ id }) => id)).not.toContain("change");
    if (reading.moments.some(({ kind }) => FAULTS.has(kind)))
      expect(film.leftOut.join("\n")).toMatch(/the rider's note comes before|die Notiz des Fahrers geht vor/u);
    expect(words.message.split("\n")[4]).toMatch(/How are you now\?|Wie geht es dir jetzt\?/u);
    expect(questionsFor(words.data, debriefWords(words.data.language)).join(" ")).not.toMatch(/\d/u);
  }

  test("an ill rider's film shows the ride where it was filmed, and ends with rest", async () => {
    const ride = evenRide(7200);
    const plan = sensiblePlan(ride);
    const { standing, film } = await wordsOf(
      ride,
      { ...plan, note: { ...plan.note, feel: "fever" } },
      { filmed: true },
    );
    expect(standing.film.items.map(({ id }) => id)).toEqual(["title", "plan", "held", "heart", "closing"]);
    expect(film[2]).toBe("(shot) Here the pressure was steady / Now getting well comes first");
  });

  test("a lesson made of an ill rider's ride neither teaches a fault nor says why not", async () => {
    const ride = madeRide();
    const plan = sensiblePlan(ride);
    const ill = { ...plan, note: { ...plan.note, feel: "fever" } };
    const document = newDebrief(ill, [], "ride");
    for (const language of ["en", "de"] as const) {
      const settings = { ...document.settings, language, forWhom: "lesson" as const };
      const { message, page, film, data } = await wordsOf(ride, ill, { filmed: true, more: { settings } });
      const all = [message, page, ...film].join("\n");
      expect(all).not.toMatch(/Your note|get well|comes? first|Notiz|gesund|geht vor/iu);
      expect(message).toMatch(/without anything to change|ohne dass daran etwas zu ändern wäre/u);
      const kinds = data.film.items.flatMap(({ moment }) =>
        moment === null ? [] : data.reading.moments[moment]!.kind,
      );
      expect(kinds.filter((kind) => FAULTS.has(kind))).toEqual([]);
    }
  });
});
