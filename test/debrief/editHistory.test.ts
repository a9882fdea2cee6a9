// Undo and redo.
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { Edit } from "../../main/contract/debrief.ts";
import { newDebrief } from "../../main/debrief/debriefDocument.ts";
import { doEdits, editHistory, redoEdit, undoEdit } from "../../main/debrief/editHistory.ts";
import { madePlan } from "../film/madeReading.ts";

describe("undo", () => {
  const edit = fc.oneof(
    fc.double({ noNaN: true }).map((value): Edit => ({ part: "deviceDelayS", value, label: "delay" })),
    fc.string().map((notes): Edit => ({
      part: "words",
      value: { held: null, change: null, next: null, nextS: null, notes, questions: null },
      label: "note",
    })),
    fc.integer({ min: 1, max: 300 }).map((lengthS): Edit => ({
      part: "settings",
      value: { ...newDebrief(madePlan(), [], "r").settings, lengthS },
      label: "length",
    })),
  );

  test("taking back every edit gives the first document; making them again the last", () => {
    const start = newDebrief(madePlan(), [], "ride1");
    fc.assert(
      fc.property(fc.array(edit, { maxLength: 20 }), (edits) => {
        const done = edits.reduce((history, one) => doEdits(history, [one]), editHistory(start));
        const undone = edits.reduce(undoEdit, done);
        const redone = edits.reduce(redoEdit, undone);
        expect(undone.document).toEqual(start);
        expect(redone.document).toEqual(done.document);
        expect(undoEdit(undone)).toBe(undone);
      }),
    );
  });
});
