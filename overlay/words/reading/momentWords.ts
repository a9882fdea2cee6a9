import type { UnitSystem } from "../../../main/contract/languageAndUnits.ts";
import type { Moment } from "../../../main/contract/reading.ts";
import { clockText, durationText } from "../numbers.ts";
import { said, spokenMinutes, spokenSpeed } from "./sentence.ts";

/** Said wherever an odd heart reading is shown. */
const oddHeartCaution =
  "An odd heart reading could be the strap. This is not medical advice: stop and seek help for chest pain, faintness or a racing heart.";

/** A break's reason as it stands in a sentence. */
export function breakReasonWords(reason: string): string {
  return reason === "slowed, cause not in the data" ? "slowed with no cause in the data" : reason;
}

/** So many of a kind are told one by one: with the third a coach has seen what it is. Own choice. */
const TOLD_OF_A_KIND = 3;

/** What is counted instead of told, one and many. */
const KINDS: Readonly<Record<string, readonly [one: string, many: string]>> = {
  hardUpCoastOver: ["hard up, coast over", "times hard up, coast over"],
  breakRun: ["run of breaks", "runs of breaks"],
  lapse: ["lapse", "lapses"],
  surge: ["surge", "surges"],
  oddHeart: ["odd heart reading", "odd heart readings"],
  steadyStretch: ["stretch of pressure held", "stretches of pressure held"],
  turn: ["tight turn", "tight turns"],
  cadenceBlock: ["block of another cadence", "blocks of another cadence"],
  marked: ["mark", "marks"],
};

/**
 * What a coach looks at first, by rank: at most `most` lines and three of a kind; the rest is counted in a last line. Laps
 * pressed by hand are told in one line, so that a ride with many of them still shows what else is worth seeing.
 */
export function momentLines(moments: readonly Moment[], units: UnitSystem, most: number): string[] {
  const ranked = [...moments].sort((one, other) => one.rank - other.rank);
  const entries = ranked.reduce<Moment[][]>((lines, moment) => {
    const same =
      moment.kind === "marked"
        ? lines.find(
            ([first]) => first.kind === "marked" && first.reason === moment.reason && first.setBy === moment.setBy,
          )
        : undefined;
    if (same === undefined) return [...lines, [moment]];
    same.push(moment);
    return lines;
  }, []);
  const ofKind = new Map<string, number>();
  const told = entries
    .filter(([{ kind, setBy }]) => {
      const nth = (ofKind.get(kind) ?? 0) + 1;
      ofKind.set(kind, nth);
      return nth <= TOLD_OF_A_KIND || setBy === "coach";
    })
    .slice(0, most);
  if (told.length === 0) return [];
  const lines = told.map(([moment, ...more]) => {
    const also = more.length === 0 ? "" : `, also at ${more.map(({ startS }) => clockText(startS)).join(", ")}`;
    return `  ${moment.rank}. ${clockText(moment.startS)}  ${momentWords(moment, units)}${also}${moment.setBy === "coach" ? " (set by coach)" : ""}`;
  });
  const shown = told.reduce((sum, entry) => sum + entry.length, 0);
  const first = shown === 1 ? "The moment to see first" : `The ${shown} moments to see first`;
  const head = shown < moments.length ? `${first}, of ${moments.length}:` : "Moments:";
  return [
    head,
    ...lines,
    ...restLines(moments, told.flat()),
    ...(told.some(([{ kind }]) => kind === "oddHeart") ? [oddHeartCaution] : []),
  ];
}

/** How many of each kind are not told, in one line; none where all are. */
function restLines(moments: readonly Moment[], told: readonly Moment[]): string[] {
  const counts = new Map<string, number>();
  for (const { kind } of moments) counts.set(kind, (counts.get(kind) ?? 0) + 1);
  for (const { kind } of told) counts.set(kind, (counts.get(kind) ?? 0) - 1);
  const parts = [...counts]
    .filter(([, left]) => left > 0)
    .map(([kind, left]) => `${left} ${(KINDS[kind] ?? [kind, kind])[left === 1 ? 0 : 1]}`);
  return parts.length === 0 ? [] : [`  Not listed: ${parts.join(", ")}.`];
}

/** One moment in a coach's words, without its time. */
export function momentWords(moment: Moment, units: UnitSystem = "metric"): string {
  const n = (key: string): number | null => moment.numbers[key] ?? null;
  const list = (...parts: (string | null)[]): string => parts.filter((part) => part !== null).join(", ");
  const lasting = durationText(n("durationS") ?? moment.endS - moment.startS);
  switch (moment.kind) {
    case "marked":
      return moment.reason;
    case "hardUpCoastOver":
      return list(
        `hard up, coast over: ${n("times") ?? 0} of ${n("rises") ?? 0} rises`,
        said(n("coastS"), (s) => `here off for ${Math.round(s)} s after the top`),
      );
    case "breakRun":
      return list(
        `${n("breaks") ?? 0} breaks in ${lasting}`,
        said(n("offS"), (s) => `${durationText(s)} off in all`),
      );
    case "lapse":
      return list(
        `off for ${lasting}`,
        breakReasonWords(moment.reason),
        said(n("speedBeforeMps"), (mps) => `at ${spokenSpeed(mps, units)}`),
        said(n("powerBeforeW"), (watts) => `${Math.round(watts)} W before it`),
      );
    case "surge":
      return list(
        `surge ${moment.reason}: ${lasting} at ${Math.round(n("meanW") ?? 0)} W`,
        said(n("overTargetW"), (watts) => `${Math.round(watts)} W over the target`),
        said(n("peakW"), (watts) => `peak ${Math.round(watts)} W`),
      );
    case "driftOnset":
      return list(
        "drift began about here",
        said(n("onsetLowS"), (low) => `between ${spokenMinutes(low)} and ${spokenMinutes(n("onsetHighS") ?? low)}`),
      );
    case "oddHeart":
      return moment.reason === "spike"
        ? list(
            "odd heart reading",
            said(n("byBeats"), (beats) => aside(beats, `the ${Math.round(n("usualBpm") ?? 0)} around it`)),
          )
        : list(
            "heart unlike earlier rides",
            said(n("byBeats"), (beats) => aside(beats, `the usual ${Math.round(n("usualBpm") ?? 0)}`)),
          );
    case "steadyStretch":
      return list(
        `pressure held for ${lasting}`,
        said(n("inBandPercent"), (percent) => `${Math.round(percent)} % of it in the band`),
        said(n("meanW"), (watts) => `${Math.round(watts)} W`),
      );
    case "turn":
      return list(
        moment.reason,
        said(n("slowestMps"), (mps) => `slowest ${spokenSpeed(mps, units)}`),
      );
    case "cadenceBlock":
      return list(
        `${moment.reason}: ${Math.round(n("meanRpm") ?? 0)} for ${lasting}`,
        said(n("usualRpm"), (rpm) => `${Math.round(rpm)} over the ride`),
      );
    default:
      return list(moment.kind, moment.reason === moment.kind ? null : moment.reason);
  }
}

/** `26 beats below the 109 around it`. */
function aside(beats: number, what: string): string {
  const whole = Math.abs(Math.round(beats));
  return `${whole} ${whole === 1 ? "beat" : "beats"} ${beats < 0 ? "below" : "above"} ${what}`;
}
