import type { CliFailures } from "../../../../../main/contract/notices/cli.ts";
import type { Samples } from "../samples.ts";

const none = [{}] as const;

export const failures: Samples<CliFailures> = {
  "verb-unknown": [
    { verb: "brief", verbs: ["read", "debrief"], meant: null },
    { verb: "raed", verbs: ["read", "debrief"], meant: "read" },
  ],
  "option-unknown": [
    { verb: "read", option: "--planet", meant: null },
    { verb: "read", option: "--tagret", meant: "target" },
  ],
  "verb-misused": [
    { verb: "athlete" },
    { verb: "compare" },
    { verb: "debrief" },
    { verb: "judge" },
    { verb: "overlay" },
    { verb: "plan" },
    { verb: "read" },
    { verb: "render" },
    { verb: "say" },
    { verb: "still" },
    { verb: "weeks" },
  ],
  "option-unclear": [
    { verb: "read", option: "--target", fault: "no value" },
    { verb: "read", option: "--target", fault: "value with a dash" },
    { verb: "read", option: "--breaks", fault: "takes no value" },
  ],
  "option-no-number": [
    { option: "length", text: "long", unit: "seconds", least: 20, most: 1800 },
    { option: "target", text: "0", unit: "watts", least: 20, most: 2000 },
    { option: "size", text: "0", unit: "MB", least: 1, most: 100_000 },
    { option: "scale", text: "9", unit: "times the usual size", least: 0.6, most: 1.6 },
  ],
  "option-not-one-of": [{ option: "ink", text: "green", choices: ["light", "dark"] }],
  "option-no-time": [{ option: "at", text: "noon" }],
  "option-no-panel": [
    { text: "power,,time", panel: "", panels: ["power", "time"] },
    { text: "power,torque", panel: "torque", panels: ["power", "time"] },
  ],
  "out-wrong-ending": [
    { fileName: "a.mov", file: "picture", ending: ".png", better: "a.png" },
    { fileName: "a.mov", file: "film", ending: ".mp4", better: "a.mp4" },
    { fileName: "a.mp4", file: "track", ending: ".mov", better: "a.mov" },
  ],
  "option-idle": [
    { option: "size", transparent: true },
    { option: "codec", transparent: false },
  ],
  "names-not-two": [{ text: "you" }],
  "option-no-share": [{ text: "6/5" }],
  "share-without-batch": none,
  "break-form": [{ text: "1:54:00" }],
  "break-reason-unknown": [{ text: "1:54:00=decent", reason: "decent", reasons: ["stopped", "descent"] }],
  "questions-too-many": none,
  "made-and-said": [{ what: "held" }],
  "option-empty": [{ option: "held" }],
  "as-filmed-and-shape": none,
  "hand-over-and-out": none,
  "batch-and-files": none,
};
