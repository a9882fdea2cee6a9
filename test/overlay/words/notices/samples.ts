import type { FailureFacts, NoteFacts } from "../../../../main/contract/notice.ts";
import * as app from "./samples/app.ts";
import * as cli from "./samples/cli.ts";
import * as debrief from "./samples/debrief.ts";
import * as footage from "./samples/footage.ts";
import * as handover from "./samples/handover.ts";
import * as journey from "./samples/journey.ts";
import * as render from "./samples/render.ts";
import * as lineup from "./samples/lineup.ts";
import * as reading from "./samples/reading.ts";
import * as ride from "./samples/ride.ts";
import * as trust from "./samples/trust.ts";

/** Facts to try each code with: every tag of a union, and 1 and many of a count. */
export type Samples<F> = { readonly [C in keyof F]: readonly [F[C], ...F[C][]] };

export const sampleFailures: Samples<FailureFacts> = {
  ...ride.failures,
  ...lineup.failures,
  ...reading.failures,
  ...trust.failures,
  ...footage.failures,
  ...render.failures,
  ...handover.failures,
  ...debrief.failures,
  ...journey.failures,
  ...app.failures,
  ...cli.failures,
};

export const sampleNotes: Samples<NoteFacts> = {
  ...ride.notes,
  ...lineup.notes,
  ...reading.notes,
  ...footage.notes,
  ...render.notes,
  ...handover.notes,
  ...journey.notes,
  ...app.notes,
};
