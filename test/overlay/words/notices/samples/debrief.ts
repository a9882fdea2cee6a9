import type { DebriefFailures } from "../../../../../main/contract/notices/debrief.ts";
import type { Samples } from "../samples.ts";
import { formFaults } from "./reading.ts";

const fileName = "sunday-debrief/debrief.json";

export const failures: Samples<DebriefFailures> = {
  "athlete-unusable": [{ fileName: "ida/athlete.json", fault: formFaults[0] }],
  "lesson-without-consent": [{ name: null }, { name: "Ida Brandt" }],
  "athlete-folder-without-file": [{ folder: "ida" }],
  "athlete-name-differs": [{ typed: "Ida", name: "Ida Brandt" }],
  "athlete-files-changed": [{ folder: "ida" }],
  "athlete-file-unreadable": [{ path: "ida/athlete.json" }],
  "path-outside-debrief": [{ path: "../../films/bar-1.mp4" }],
  "debrief-unreadable": [{ path: fileName }],
  "debrief-unusable": [
    { fileName, fault: { kind: "no schema" } },
    { fileName, fault: formFaults[0] },
  ],
  "debrief-not-savable": [{ fileName, fault: { kind: "too big", path: "words.notes", most: 20_000 } }],
  "debrief-newer": [{ fileName, schema: 9 }],
  "debrief-newer-kept": [{ fileName }],
  "debrief-changed-elsewhere": [{ path: fileName }],
  "backup-not-written": [{ fileName: "debrief.json.bak", folder: "sunday-debrief" }],
  "debriefs-folder-unreadable": [{ folder: "rides" }],
  "debriefs-folder-empty": [{ folder: "rides" }],
  "debrief-not-folder-of": [{ name: "sunday-debrief", parent: "/rides" }],
  "edit-refused": [
    { fault: { kind: "no such part", part: "colour" } },
    { fault: { kind: "comment outside" } },
    { fault: { kind: "type", path: "film.items.0", wanted: "object" } },
  ],
  "debrief-read-only": [
    { reason: { kind: "newer version", fileName } },
    { reason: { kind: "folder not writable" } },
    { reason: { kind: "open elsewhere", pid: 4711, host: "desk" } },
  ],
};
