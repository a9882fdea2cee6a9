/** What can be seen and heard of a clip's motion, on a grid of `SIGNAL_STEP_S`; NaN where nothing was measured. */

/** Step of all signals, s; entry k stands for media time [k, k + 1) steps. */
export const SIGNAL_STEP_S = 0.25;

export const SIGNALS_LACKS = ["motion", "sound"] as const;
/** `motion`: the picture stands still throughout. */
export type SignalsLack = (typeof SIGNALS_LACKS)[number];

export interface ClipSignals {
  readonly clipId: string;
  /** Entries of each series. */
  readonly count: number;
  /** How much the picture changes, natural log of the mean change against the mean brightness; larger is more. */
  readonly motion: Float64Array | null;
  /** Loudness of wind and tyres, dB; null without a sound track. */
  readonly sound: Float64Array | null;
  /** Turning of the camera, positive to the right, in picture widths a second. */
  readonly turning: Float64Array | null;
  /** Bytes of the file that had to be read. */
  readonly bytesRead: number | null;
  /** What is missing to line up by. */
  readonly lacks: readonly SignalsLack[];
}
