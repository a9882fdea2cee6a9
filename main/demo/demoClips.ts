import type { DemoTruth } from "./demoTruth.ts";

/** A span of the ride that a camera filmed. */
export interface DemoClip {
  readonly fileName: string;
  /** Ride time of the first frame, s, and length, s. */
  readonly startS: number;
  readonly durationS: number;
  /** Whether the camera wrote a telemetry track. */
  readonly telemetry: boolean;
}

/** How far the camera's clock is ahead of local time, s. */
export const CAMERA_AHEAD_S = 37.4;

/**
 * What was filmed: the lapse with the bend and the level crossing after it; steady pressure, then a rise taken hard,
 * coasting over; the minute about the onset of drift.
 *
 * A container's creation time is in whole seconds. Every clip begins as the camera's clock steps to a new second, so
 * that an anchor in one clip places the others to the frame, as tests of the whole job need it.
 */
export function demoClips(truth: DemoTruth, small = false, telemetry = !small): readonly DemoClip[] {
  const the = (kind: string, note?: string): number => {
    const event = truth.events.find((e) => e.kind === kind && (note === undefined || e.note === note));
    if (!event) throw new RangeError(`The demo ride has no event of kind ${kind}.`);
    return event.startS;
  };
  const tick = (s: number): number => Math.floor(s) + 1 - (CAMERA_AHEAD_S % 1);
  const crossingS = the("level crossing");
  if (small) {
    return [
      { fileName: "bars-0001.mp4", startS: tick(the("lapse") - 4), durationS: 12, telemetry },
      { fileName: "bars-0002.mp4", startS: tick(crossingS - 7), durationS: 12, telemetry },
      { fileName: "bars-0003.mp4", startS: tick(the("rest over the top", "Camel Brow") - 6), durationS: 12, telemetry },
    ];
  }
  const topS = the("rest over the top", "Camel Brow");
  return [
    { fileName: "bars-0001.mp4", startS: tick(the("lapse") - 8), durationS: 108, telemetry },
    { fileName: "bars-0002.mp4", startS: tick(topS - 113), durationS: 137, telemetry },
    { fileName: "bars-0003.mp4", startS: tick(truth.onsetS - 14), durationS: 42, telemetry },
  ];
}

/** What the camera wrote as its creation time: its own wrong local clock, marked as UTC. ISO 8601, whole seconds. */
export function cameraCreationTime(truth: DemoTruth, clip: DemoClip): string {
  const localMs = truth.startUtcMs + clip.startS * 1000 + truth.utcOffsetMin * 60_000 + CAMERA_AHEAD_S * 1000;
  return `${new Date(Math.floor(Math.round(localMs) / 1000) * 1000).toISOString().slice(0, 19)}.000000Z`;
}

/**
 * The camera's timecode of the first frame, `HH:MM:SS:FF`: frames since its own midnight at 30000/1001, counted as
 * non-drop-frame labels of 30, so a label runs behind the clock by 1 part in 1000 (SMPTE ST 12-1, from memory).
 */
export function cameraTimecode(truth: DemoTruth, clip: DemoClip): string {
  const dayS = (truth.startUtcMs / 1000 + clip.startS + truth.utcOffsetMin * 60 + CAMERA_AHEAD_S) % 86_400;
  const frames = Math.round((dayS * 30_000) / 1001);
  const seconds = Math.floor(frames / 30);
  return [Math.floor(seconds / 3600), Math.floor(seconds / 60) % 60, seconds % 60, frames % 30]
    .map((part) => String(part).padStart(2, "0"))
    .join(":");
}
