import type { DebriefDocument } from "../contract/debrief.ts";
import type { Ride } from "../contract/ride.ts";
import type { PrintPage } from "../contract/printPage.ts";
import type { Tools } from "../contract/tools.ts";
import { cacheFolder } from "../host/cacheFolder.edge.ts";
import { printerInUse, toolsInUse } from "../host/toolsInUse.edge.ts";
import { RidesApart } from "./apart/ridesApart.edge.ts";
import type { RoadBefore } from "../contract/roads.ts";
import type { EarlierRide } from "./earlierRides.ts";
import { type KnownOfRider, type ReadOutcome, RIDES_HERE } from "./judge.ts";

/** The parts of a document that a ride is judged by. */
export type JudgedParts = Pick<DebriefDocument, "plan" | "overrides" | "ownMoments">;

/** Where rides are read and judged: here, or away from a window's event loop. */
export interface RideWork {
  /** Failures as `readRide`. */
  read(path: string): Promise<Ride>;
  /** A ride, read from `path` at some time, judged as by `judgeDebrief`; the file is not asked again. */
  judge(path: string, ride: Ride, document: JudgedParts, known: KnownOfRider): Promise<ReadOutcome>;
  /** As `roadsBefore`. */
  roads(path: string, ride: Ride, earlier: readonly EarlierRide[]): Promise<readonly RoadBefore[]>;
}

/** The computer as the steps see it; made once for a command or a window. */
export interface Host {
  /** Asking for them may throw Failure `tool-missing`: what needs none never asks. */
  readonly tools: Tools;
  /** Prints pages as PDF; null: HTML only. */
  readonly printPage: PrintPage | null;
  readonly cacheDir: string;
  /** The time of day, ms since 1970. */
  readonly nowMs: () => number;
  readonly rides: RideWork;
}

/** A host with tools that were found already. */
export function hostWith(found: Pick<Host, "tools" | "printPage">, rides: RideWork = RIDES_HERE): Host {
  return { tools: found.tools, printPage: found.printPage, cacheDir: cacheFolder(), nowMs: Date.now, rides };
}

/** This computer, its tools looked for when they are first needed. Rides are read where the signal can end it, whatever is in the file. */
export function hostHere(signal: AbortSignal): Host {
  let tools: Tools | null = null;
  let printPage: PrintPage | null | undefined;
  return {
    get tools() {
      return (tools ??= toolsInUse());
    },
    get printPage() {
      return printPage === undefined ? (printPage = printerInUse()) : printPage;
    },
    cacheDir: cacheFolder(),
    nowMs: Date.now,
    rides: new RidesApart(signal),
  };
}
