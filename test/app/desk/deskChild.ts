// A desk of its own process, for the test that kills it: makes edit after edit and says which were taken.
import { join } from "node:path";
import { openDesk, putRide } from "./openDesk.ts";

const folder = process.argv[2]!;
const open = await openDesk(folder);
const ride = await putRide(join(folder, "rides"));
await open.api.addFiles([open.id(ride)]);
for (let n = 1; ; n++) {
  await open.api.edit(
    { part: "words", value: { ...open.view().document.words, notes: String(n) }, label: "note" },
    open.view().edit,
  );
  process.stdout.write(`${n} ${Date.now()}\n`);
  await new Promise((resolve) => setTimeout(resolve, 100));
}
