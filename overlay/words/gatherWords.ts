/** What a ride file turned out to hold: plain values. */
export interface GatheredRide {
  readonly everySecond: boolean;
  readonly trainer: boolean;
  readonly has: {
    readonly power: boolean;
    readonly heartRate: boolean;
    readonly cadence: boolean;
    readonly speed: boolean;
    readonly position: boolean;
    readonly altitude: boolean;
    readonly calendar: boolean;
  };
  readonly warnings: readonly string[];
}

/** What a clip turned out to be. */
export interface GatheredClip {
  readonly widthPx: number;
  readonly heightPx: number;
  readonly framesPerSecond: number;
  readonly variableRate: boolean;
  readonly hasSound: boolean;
  readonly hdr: boolean;
  readonly hasTelemetry: boolean;
  readonly hasClock: boolean;
  readonly warnings: readonly string[];
}

/** What a file holds in one line, and what is missing and what that costs, one sentence each. */
export interface FileWords {
  readonly holds: string;
  readonly missing: readonly string[];
}

function isSentence(text: string): string {
  return /[.!?]$/.test(text) ? text : `${text}.`;
}

/** A ride file in plain words. */
export function rideFileWords({ everySecond, trainer, has, warnings }: GatheredRide): FileWords {
  const parts = [
    has.power ? "power" : null,
    has.heartRate ? "heart rate" : null,
    has.cadence ? "cadence" : null,
    has.position ? "position" : null,
    everySecond ? null : "in steps of its own",
  ];
  const missing = [
    has.power
      ? null
      : has.cadence
        ? "No power: breaks are told by the pedals standing still, and effort by the heart."
        : "No power: effort is told by the heart alone.",
    !has.power && !has.cadence ? "No cadence either: breaks in pressure cannot be seen." : null,
    has.heartRate ? null : "No heart rate: first and last reading, rise and drift stay open.",
    has.power && !has.cadence ? "No cadence: what the legs did can only be told by power." : null,
    has.position || trainer
      ? null
      : "No position: corners and the route are not known, so fewer breaks can be excused.",
    has.altitude || trainer ? null : "No altitude: up, flat and down are not told apart.",
    has.speed || trainer ? null : "No speed: stops cannot be told from freewheeling, and footage is harder to line up.",
    has.calendar ? null : "No date or time: a camera's clock cannot help to line up footage.",
    everySecond ? null : "It was not recorded every second: short breaks and the beginning of drift are not claimed.",
  ];
  return {
    holds: parts.filter((part) => part !== null).join(", "),
    missing: [...missing.filter((one) => one !== null), ...warnings.map(isSentence)],
  };
}

/** A clip in plain words. */
export function clipFileWords(clip: GatheredClip): FileWords {
  const rate =
    clip.framesPerSecond >= 99.5
      ? clip.framesPerSecond.toFixed(0)
      : String(Math.round(clip.framesPerSecond * 100) / 100);
  const parts = [
    `${clip.widthPx} x ${clip.heightPx}`,
    `${clip.variableRate ? "about " : ""}${rate} pictures a second`,
    clip.hdr ? "HDR" : null,
    clip.hasTelemetry ? "the camera's own positions" : null,
  ];
  const missing = [
    clip.hasSound ? null : "No sound: wind and tyres cannot help to line it up, and the film is silent here.",
    clip.hasClock ? null : "The camera wrote no time into it: lining it up needs its picture or a mark of yours.",
  ];
  return {
    holds: parts.filter((part) => part !== null).join(", "),
    missing: [...missing.filter((one) => one !== null), ...clip.warnings.map(isSentence)],
  };
}
