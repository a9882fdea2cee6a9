import type { JobContext } from "../contract/job.ts";
import { companionsAmong } from "../footage/companionsAmong.edge.ts";
import { placeApart } from "../lineup/placeApart.edge.ts";
import { type PlaceClipsInput, placeClips, signalNotes, signalsWanted } from "../lineup/placeClips.ts";
import { othersForTelemetry, placeRides } from "../lineup/placeRides.ts";
import { withSpare } from "../lineup/spareCopies.ts";
import { clipsOf, type Debrief, otherRidesOf, shownRideOf } from "./debrief.ts";
import { withSignals } from "./gather.ts";
import { clipSignals, type HeardClips } from "./heardClips.ts";
import type { Host } from "./host.ts";

/** For a caller that shows no progress and never stops. */
const QUIET: JobContext = { signal: new AbortController().signal, report: () => undefined };

/** Parts of a document that the line-up follows from; and the plan's setting. */
const LINEUP_PARTS = ["media", "shownRideId", "anchors", "deviceDelayS"] as const;

/** How a debrief's clips are placed. */
export interface PlaceOptions {
  /** True: clips that stay open are looked at and listened to, which takes time for long ones; else what is known of them by now counts. */
  readonly listen?: boolean;
  /** The debrief before a change: its line-up stays where all that it follows from is the same. */
  readonly before?: Debrief | null;
  readonly context?: JobContext;
}

/**
 * Clips and the other riders' rides on the shown ride's clock: by anchors, by what the files say, and by signals where
 * these leave something open. The only place that says what a line-up is made from. Without a ride in memory nothing is
 * placed. Throws Cancelled, and as `readSignals`.
 */
export async function place(debrief: Debrief, host: Host, options: PlaceOptions = {}): Promise<Debrief> {
  const { listen = false, before = null, context = QUIET } = options;
  const shown = shownRideOf(debrief);
  if (shown === null) return { ...debrief, lineup: null, heard: null };
  const indoors = debrief.document.plan.setting === "trainer";
  if (
    before?.lineup &&
    before.media === debrief.media &&
    LINEUP_PARTS.every((part) => before.document[part] === debrief.document[part]) &&
    (before.document.plan.setting === "trainer") === indoors
  )
    return { ...debrief, lineup: before.lineup, heard: before.heard };
  const clips = clipsOf(debrief);
  const bigOf = companionsAmong(clips, debrief.media.companions);
  const used = clips.filter(({ id }) => !bigOf.has(id));
  const others = otherRidesOf(debrief);
  const rides = placeRides(shown.ride, others);
  const input: PlaceClipsInput = {
    ride: shown.ride,
    others: othersForTelemetry(others, rides),
    clips: used,
    anchors: debrief.document.anchors,
    deviceDelayS: debrief.document.deviceDelayS,
    indoors,
    telemetry: used.flatMap(({ id }) => debrief.media.telemetry.get(id) ?? []),
  };
  const hearable = listen || used.some(({ id }) => debrief.media.signals.has(id));
  const wanted = new Set(hearable ? signalsWanted(input) : []);
  let { media } = debrief;
  let heard: HeardClips | null = null;
  if (listen && wanted.size > 0) {
    const open = used.filter(({ id }) => wanted.has(id));
    heard = await clipSignals(open, debrief.media, host, context);
    media = withSignals(media, heard.signals);
    context.report({ done: 1, leftS: null, step: { what: "placing" } });
  }
  // Of a clip that needs none, signals at hand are not used: whoever opens the debrief finds the same.
  const signals = used.flatMap(({ id }) => (wanted.has(id) ? (media.signals.get(id) ?? []) : []));
  const placed = signals.length > 0 ? await placeApart({ ...input, signals }, context.signal) : placeClips(input);
  const open = new Set(placed.clips.filter(({ sure }) => !sure).map(({ clipId }) => clipId));
  const doubts = signalNotes(
    clips,
    signals.filter(({ clipId }) => open.has(clipId)),
  );
  const whole = withSpare(placed, clips, bigOf);
  const lineup = { ...whole, rides, warnings: [...whole.warnings, ...doubts] };
  return { ...debrief, media, lineup, heard };
}
