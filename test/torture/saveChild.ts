// Saves one debrief again and again, as fast as it can, and says each revision that is on disk; for the test that kills it.
import { newDebrief } from "../../main/debrief/debriefDocument.ts";
import { loadDebrief, lockDebrief, saveDebrief } from "../../main/debrief/debriefStore.edge.ts";
import { madePlan } from "../film/madeReading.ts";

/** As long as a text may be. */
const LONG = "x".repeat(20_000);

const folder = process.argv[2]!;
let document = await loadDebrief(folder).then(
  (opened) => opened.document,
  () => newDebrief(madePlan(), [], ""),
);
const lock = await lockDebrief(folder);
if (!lock.held) throw new Error("the lock of a killed program stays");
for (;;) {
  document = await saveDebrief(folder, {
    ...document,
    words: { ...document.words, held: LONG, next: LONG, notes: LONG },
  });
  process.stdout.write(`${document.revision}\n`);
}
