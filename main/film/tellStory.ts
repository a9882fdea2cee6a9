import type { Plan } from "../contract/plan.ts";
import type { Moment, Reading } from "../contract/reading.ts";
import type { Ride } from "../contract/ride.ts";
import type { DebriefStory, TeachingPoint } from "../../overlay/words/debriefStory.ts";

/** From how many on a thing is a pattern worth teaching, and from which share of the main part; common practice, no source. */
const SURGES_FROM = 3;
const ABOVE_FROM_PERCENT = 25;
const BELOW_FROM_PERCENT = 40;
const CADENCE_FROM = 2;
const DRIFT_FROM_BEATS = 3;

/** Which kinds of moment show each teaching point; the first kind is its main one and comes first. */
export const TEACHING_KINDS: Readonly<Record<TeachingPoint, readonly string[]>> = {
  coastOver: ["hardUpCoastOver", "lapse"],
  breaks: ["lapse", "breakRun"],
  surges: ["surge"],
  tooHard: ["surge"],
  tooEasy: ["lapse", "breakRun"],
  cadence: ["cadenceBlock"],
  drift: [],
  nothing: [],
};

const lengthS = (span: { startS: number; endS: number }): number => span.endS - span.startS;

/**
 * What this ride has to teach: one thing that held, one thing to change (the first that applies of: letting go over
 * the top of rises, pressure gone without a reason, surges, riding above or below the plan, uneven cadence, the heart
 * climbing), and what the event asks for. Breaks that the road explains never count.
 * `words` are the coach's own lines in place of the made ones; `teaching` the coach's choice of point.
 */
export function tellStory(
  ride: Ride,
  plan: Plan,
  reading: Reading,
  coach: { readonly words?: Partial<DebriefStory["words"]>; readonly teaching?: TeachingPoint | null } = {},
): DebriefStory {
  const shown = reading.moments.filter((moment) => !moment.coachOnly);
  const kind = (name: string): Moment[] => shown.filter((moment) => moment.kind === name);
  const { pressure, drift, target, counted } = reading;
  const knownS = pressure.inBandS + pressure.belowS + pressure.aboveS + pressure.offS;
  const percentOf = (seconds: number): number => (knownS > 0 ? (100 * seconds) / knownS : 0);
  const lapses = reading.breaks.filter((one) => one.lapse);
  const planned = pressure.judgedBy !== null;

  const applies: Record<TeachingPoint, boolean> = {
    coastOver: kind("hardUpCoastOver").length > 0,
    breaks: lapses.length > 0 || kind("breakRun").length > 0,
    surges: planned && reading.surges.length >= SURGES_FROM,
    tooHard: planned && percentOf(pressure.aboveS) >= ABOVE_FROM_PERCENT,
    tooEasy: planned && percentOf(pressure.belowS) >= BELOW_FROM_PERCENT,
    cadence: kind("cadenceBlock").length >= CADENCE_FROM,
    drift:
      drift.verdict === "began" ||
      ((drift.verdict === "rose from the start" || drift.verdict === "start unclear") &&
        (drift.driftBeats ?? 0) >= DRIFT_FROM_BEATS),
    nothing: true,
  };
  const order: TeachingPoint[] = ["coastOver", "breaks", "surges", "tooHard", "tooEasy", "cadence", "drift", "nothing"];
  const teaching = coach.teaching ?? order.find((point) => applies[point]) ?? "nothing";

  const runBreaks = kind("breakRun").flatMap((run) =>
    reading.breaks.filter((one) => one.excused === false && one.startS >= run.startS && one.startS < run.endS),
  );
  const gone = lapses.length > 0 ? lapses : runBreaks;
  const times: Record<TeachingPoint, number> = {
    coastOver: kind("hardUpCoastOver").reduce((sum, one) => sum + (one.numbers["times"] ?? 1), 0),
    breaks: gone.length,
    surges: reading.surges.length,
    tooHard: 0,
    tooEasy: 0,
    cadence: kind("cadenceBlock").length,
    drift: 0,
    nothing: 0,
  };
  const percent =
    teaching === "tooHard" ? percentOf(pressure.aboveS) : teaching === "tooEasy" ? percentOf(pressure.belowS) : null;

  const steady = kind("steadyStretch").sort((a, b) => lengthS(b) - lengthS(a))[0];
  const held: DebriefStory["held"] =
    steady !== undefined
      ? { kind: "stretch", startS: steady.startS, endS: steady.endS }
      : planned && knownS > 0
        ? { kind: "share", percent: percentOf(pressure.inBandS) }
        : { kind: "ridden", durationS: ride.elapsedS > 0 ? ride.elapsedS : counted.endS };

  const began = drift.verdict === "began";
  const { eventS, minimumS, aimS } = target;
  return {
    held,
    teaching,
    times: times[teaching],
    lostS: teaching === "breaks" ? gone.reduce((sum, one) => sum + lengthS(one), 0) : null,
    percent,
    targetW: reading.bandW?.target ?? plan.targetW,
    peakW: reading.surges.length > 0 ? Math.max(...reading.surges.map((surge) => surge.peakW)) : null,
    onsetS: began ? drift.onsetS : null,
    onsetLowS: began ? drift.onsetLowS : null,
    onsetHighS: began ? drift.onsetHighS : null,
    driftBeats: drift.correctedForPower ? drift.driftBeats : null,
    event:
      eventS === null || minimumS === null || aimS === null
        ? null
        : {
            name: plan.eventName,
            eventS,
            leastS: minimumS,
            aimS,
            heldLowS: target.heldLowS,
            heldHighS: target.heldHighS,
          },
    words: { held: coach.words?.held ?? null, change: coach.words?.change ?? null, next: coach.words?.next ?? null },
  };
}
