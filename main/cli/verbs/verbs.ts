import type { Verb } from "../verb.ts";
import { debrief } from "./debrief.ts";
import { demo } from "./demo.ts";
import { lineup } from "./lineup.ts";
import { overlay } from "./overlay.ts";
import { plan } from "./plan.ts";
import { read } from "./read.ts";
import { render } from "./render.ts";
import { still } from "./still.ts";
import { weeks } from "./weeks.ts";

/** Every verb, in the order of the help. */
export const verbs: readonly Verb[] = [demo, plan, read, lineup, debrief, render, overlay, still, weeks];
