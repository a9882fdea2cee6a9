import type { TrackMatch } from "./matchTracks.ts";
import { oneBikeEvidence } from "./oneBike.ts";

/** A ride on whose track a recording's positions were held, and what its clock says of the recording. */
export interface WeighedTrack {
  /** Places on the track that its positions fit, best first. */
  readonly matches: readonly TrackMatch[];
  /** Where the recording begins by the camera's satellite time and the ride's clock, ride time, s; null without either. */
  readonly byClockS: number | null;
  /** Standard error of the two clocks together, s. */
  readonly clockSigmaS: number;
  /** Zones that a ride file or a camera may have written its time in instead of UTC, s: its place's, as a rule. */
  readonly zonesS: readonly number[];
  /** Days between the camera's and the ride's own dates where satellites tell nothing; null where either has none. */
  readonly daysApart: number | null;
  /** Share of the ride of which nothing is recorded: the clip may belong there. */
  readonly unrecordedShare: number;
}

/** What may be the truth of a recording with positions. */
export type Explanation =
  /** The camera rode with this file's rider. */
  | { readonly kind: "this bike"; readonly track: number; readonly match: TrackMatch; readonly share: number }
  /** It rode with somebody else, at the time that the clocks say. */
  | { readonly kind: "another rider"; readonly track: number; readonly match: TrackMatch; readonly share: number }
  /** It was there another time: another day, or a lap that was not recorded. */
  | { readonly kind: "another time"; readonly share: number };

/**
 * Before anything is known (our own estimates, no source; the table of `npm run bench -- lineup` holds with them): most
 * cameras ride with the file's rider; a coach films an athlete from the coach's own bike; an older clip gets in.
 */
const BEFORE = { thisBike: 0.8, anotherRider: 0.12, anotherTime: 0.08 };
/** A clock is right, off by a zone, set by hand, or off by anything at all. */
const CLOCKS = { right: 0.97, zone: 0.02, byHand: 0.004, anything: 0.002 };
/**
 * What two right clocks differ by, s: most satellite times are good to half a second; the one that stands once in a part of
 * the track (its error then is a second) sits more than a second late in real files; the rest is rounding and recorders.
 */
const RIGHT = { usualSigmaS: 0.5, late: 0.2, lateS: 1.2, rest: 0.1, restSigmaS: 1.5 };
const STATED_ONCE_SIGMA_S = 0.9;
const ZONE_SIGMA_S = 3;
const BY_HAND_SIGMA_S = 45;
/** A clock that never had a date is off by years, s. */
const ANYTHING_S = 20 * 365 * 86_400;
/** Riders of one outing pass a place within seconds of each other, or within minutes: shares, and what each falls by, s. */
const GAPS = [
  { share: 0.8, scaleS: 12 },
  { share: 0.2, scaleS: 150 },
] as const;
/** Another time is the same day for some, else any day of a season, s. */
const SAME_DAY = { share: 0.3, withinS: 12 * 3600 };
const SEASON_S = 240 * 86_400;
/** Two dates that no zone brings together. */
const SAME_DATE_DAYS = 1.6;

function normal(x: number, sigma: number): number {
  return Math.exp(-0.5 * (x / sigma) ** 2) / (sigma * Math.sqrt(2 * Math.PI));
}

function asRight(offS: number, track: WeighedTrack): number {
  const late = track.clockSigmaS >= STATED_ONCE_SIGMA_S ? RIGHT.late : 0;
  return (
    (1 - late - RIGHT.rest) * normal(offS, RIGHT.usualSigmaS) +
    late * normal(offS + RIGHT.lateS, RIGHT.usualSigmaS) +
    RIGHT.rest * normal(offS, RIGHT.restSigmaS)
  );
}

/** Density of what a match lies from where the clocks put it, where it is this bike, 1/s. */
function asThisBike(offS: number, track: WeighedTrack): number {
  const zones = track.zonesS.filter((zoneS) => zoneS !== 0);
  const zone = zones.reduce((sum, zoneS) => sum + normal(offS - zoneS, ZONE_SIGMA_S), 0) / Math.max(1, zones.length);
  return (
    CLOCKS.right * asRight(offS, track) +
    CLOCKS.zone * zone +
    CLOCKS.byHand * normal(offS, BY_HAND_SIGMA_S) +
    CLOCKS.anything / ANYTHING_S
  );
}

function asAnotherRider(offS: number): number {
  return GAPS.reduce((sum, { share, scaleS }) => sum + (share * Math.exp(-Math.abs(offS) / scaleS)) / (2 * scaleS), 0);
}

function asAnotherTime(offS: number): number {
  const sameDay = Math.abs(offS) <= SAME_DAY.withinS ? SAME_DAY.share / (2 * SAME_DAY.withinS) : 0;
  return sameDay + (1 - SAME_DAY.share) / (2 * SEASON_S);
}

/** Of a match without clocks: how likely the dates are where the clip is of this ride, and where it is of another time. */
function byDates(daysApart: number | null): { readonly here: number; readonly elsewhere: number } {
  if (daysApart === null) return { here: 1, elsewhere: 1 };
  return Math.abs(daysApart) <= SAME_DATE_DAYS ? { here: 0.9, elsewhere: 0.1 } : { here: 0.1, elsewhere: 0.9 };
}

/**
 * One posterior over where a recording lies and what its clocks are off by: every match on every ride's track, likelier
 * the more the tracks are one bike's and the less the clocks disagree; another rider, at the time the clocks say; and
 * another time. Likeliest first; the shares add up to 1. Empty without a match.
 */
export function weighPlaces(tracks: readonly WeighedTrack[]): Explanation[] {
  const found: Explanation[] = [];
  let elsewhere = 0;
  tracks.forEach((track, k) => {
    const prior = BEFORE.thisBike / tracks.length;
    const dates = byDates(track.daysApart);
    track.matches.forEach((match, m) => {
      const evidence = Math.exp(oneBikeEvidence(match.parting, "anotherTime"));
      const offS = track.byClockS === null ? null : match.offsetS - track.byClockS;
      const share = prior * evidence * (offS === null ? dates.here : asThisBike(offS, track));
      found.push({ kind: "this bike", track: k, match, share });
      // What the positions fit best tells what else it may be.
      if (m > 0) return;
      const rival = (BEFORE.anotherTime + track.unrecordedShare) / tracks.length;
      elsewhere += rival * (offS === null ? dates.elsewhere : asAnotherTime(offS));
      if (offS !== null)
        found.push({
          kind: "another rider",
          track: k,
          match,
          share:
            (BEFORE.anotherRider / tracks.length) *
            evidence *
            Math.exp(-oneBikeEvidence(match.parting, "anotherRider")) *
            asAnotherRider(offS),
        });
    });
  });
  if (found.length === 0) return [];
  const all: Explanation[] = [...found, { kind: "another time", share: elsewhere }];
  const total = all.reduce((sum, { share }) => sum + share, 0);
  return all.map((one) => ({ ...one, share: one.share / total })).sort((a, b) => b.share - a.share);
}

/** True where two clocks disagree by what neither a time zone nor a setting by hand explains: nothing may be sure by positions then. */
export function clocksExclude(offS: number): boolean {
  const quarters = Math.round(offS / 900);
  return Math.abs(offS) > 14 * 3600 || Math.abs(offS - 900 * quarters) > 120;
}
