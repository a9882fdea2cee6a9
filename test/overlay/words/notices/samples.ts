import type { FailureFacts, NoteFacts } from "../../../../main/contract/notice.ts";
import * as lineup from "./samples/lineup.ts";
import * as reading from "./samples/reading.ts";
import * as ride from "./samples/ride.ts";
import * as trust from "./samples/trust.ts";

/** Facts to try each code with: every tag of a union, and 1 and many of a count. */
export type Samples<F> = { readonly [C in keyof F]: readonly [F[C], ...F[C][]] };

export const sampleFailures: Samples<FailureFacts> = {
  prose: [{ kind: "usage", sentence: "Something is wrong.", remedy: "Do it otherwise." }],
  ...ride.failures,
  ...lineup.failures,
  ...reading.failures,
  ...trust.failures,
};

export const sampleNotes: Samples<NoteFacts> = {
  "prose-note": [{ sentence: "Something is odd." }],
  ...ride.notes,
  ...lineup.notes,
  ...reading.notes,
};
