import type { Verb } from "../verb.ts";

/** Every verb, in the order of the help. Each is loaded when asked for: `read` needs neither painter nor encoder. */
export const verbs: Readonly<Record<string, () => Promise<Verb>>> = {
  open: async () => (await import("./open.ts")).open,
  demo: async () => (await import("./demo.ts")).demo,
  plan: async () => (await import("./plan.ts")).plan,
  read: async () => (await import("./read.ts")).read,
  lineup: async () => (await import("./lineup.ts")).lineup,
  debrief: async () => (await import("./debrief.ts")).debrief,
  render: async () => (await import("./render.ts")).render,
  say: async () => (await import("./say.ts")).say,
  judge: async () => (await import("./judge.ts")).judge,
  overlay: async () => (await import("./overlay.ts")).overlay,
  still: async () => (await import("./still.ts")).still,
  compare: async () => (await import("./compare.ts")).compare,
  weeks: async () => (await import("./weeks.ts")).weeks,
  athlete: async () => (await import("./athlete.ts")).athlete,
};
