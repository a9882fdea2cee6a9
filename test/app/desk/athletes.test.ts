import { existsSync } from "node:fs";
import { mkdir } from "node:fs/promises";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { made } from "./deskParts.ts";
import { openDesk, putRide } from "./openDesk.ts";

describe("athletes on the desk", () => {
  it("are made, changed, listed with their defaults, used, compared over weeks, and deleted whole by name", async () => {
    const open = await openDesk();
    try {
      const people = open.path("people");
      await mkdir(people);
      const start = {
        schema: 1,
        name: "Mira Voss",
        language: "de",
        units: "metric",
        events: [{ name: "Seenrunde", dateText: "May", durationS: 14_400 }],
        homeZone: null,
        preset: "phone",
        lessonConsent: null,
        road: { targetW: 185, toleranceW: 12, meterOffsetW: 0 },
        trainer: { targetW: 170, toleranceW: null, meterOffsetW: 0 },
      };
      const entry = await open.api.saveAthlete(open.id(people), start);
      expect(entry).toMatchObject({ name: "Mira Voss", folder: join(people, "Mira Voss"), debriefs: 0 });
      expect(entry.lines.join("; ")).toContain("185 W");
      await open.api.saveAthlete(entry.id, { ...start, name: "Mira V." });
      expect(await open.api.athletes()).toMatchObject([{ name: "Mira V.", folder: join(people, "Mira Voss") }]);
      await expect(open.api.saveAthlete(entry.id, { ...start, name: 7 })).rejects.toMatchObject({
        code: "plan-not-valid",
      });

      await open.api.useAthlete(entry.id);
      await putRide(open.path("rides"));
      await open.api.addFiles([open.id(join(open.path("rides"), "sunday.fit"))]);
      expect(open.view()).toMatchObject({
        folder: join(people, "Mira Voss", "sunday-debrief"),
        athleteId: entry.id,
        document: {
          athletePath: "..",
          plan: { targetW: 185, eventName: "Seenrunde" },
          settings: { language: "de", preset: "phone" },
        },
      });
      await made({ part: "words", value: { ...open.view().document.words, notes: "gut" }, label: "note" }, open);
      await open.api.saveNow();
      expect((await open.api.athletes())[0]!.debriefs).toBe(1);
      const weeks = await open.api.weeksPage(entry.id);
      expect(weeks.html).not.toMatch(/<script/i);
      expect(open.shelf.find(weeks.address)?.kind).toBe("page");

      await expect(open.api.deleteAthlete(entry.id, "Mira V.")).rejects.toMatchObject({ code: "usage" });
      expect((await open.api.filesOfAthlete(entry.id)).files.some((path) => path.endsWith("debrief.json"))).toBe(true);
      await expect(open.api.deleteAthlete(entry.id, "Someone")).rejects.toMatchObject({ code: "usage" });
      expect(existsSync(join(people, "Mira Voss", "athlete.json"))).toBe(true);
      await open.api.filesOfAthlete(entry.id);
      await open.api.deleteAthlete(entry.id, "Mira V.");
      expect(existsSync(join(people, "Mira Voss"))).toBe(false);
      expect(await open.api.athletes()).toEqual([]);
      expect(existsSync(join(open.path("rides"), "sunday.fit"))).toBe(true);
    } finally {
      await open.close();
    }
  });
});
