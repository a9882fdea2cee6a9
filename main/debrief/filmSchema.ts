import { z } from "zod";
import type { Film } from "../contract/film.ts";
import { UNIT_SYSTEMS } from "../contract/languageAndUnits.ts";
import { PANEL_NAMES } from "../contract/filmLook.ts";
import { COVER_KINDS } from "../contract/framing.ts";
import { FOLLOW_WAYS } from "../contract/pair.ts";
import { momentKind } from "./momentKind.ts";

const seconds = z.number();
const text = z.string().max(20_000);
const rational = z.object({ num: z.number().int().positive(), den: z.number().int().positive() });
const point = z.object({ x: z.number(), y: z.number() });

/** A column as JSON holds it: null where a value is missing. Read back as a Float64Array with NaN. */
const column = z
  .array(z.number().nullable())
  .transform((values) => Float64Array.from(values, (value) => value ?? Number.NaN));
const clock = z.object({ offsetS: seconds, rate: z.number().positive() });
const lines = z.array(text);
const momentKey = z.object({ kind: momentKind, startS: seconds, endS: seconds.exactOptional() });
const atBpm = z.object({ atS: seconds, bpm: z.number() }).nullable();

const share = z.number().min(0).max(1);
const cover = z.object({
  kind: z.enum(COVER_KINDS),
  keys: z
    .array(z.object({ atMediaS: seconds, x: share, y: share, width: share, height: share }))
    .min(1)
    .max(200)
    .refine(inOrder),
});
const closeUpKey = z.object({ atMediaS: seconds, x: share, y: share, share: z.number().min(0.1).max(1) });

/** Keys come in order of time: out of order, what they cover would be left open between them. */
function inOrder(keys: readonly { readonly atMediaS: number }[]): boolean {
  return keys.every(({ atMediaS }, k) => k === 0 || atMediaS > keys[k - 1]!.atMediaS);
}

/** A side's second-by-second values stay whole: they are what its panels show. */
const perSecond = z.array(z.number().nullable());
const times = z.array(seconds).min(1);
const pairSeries = z.object({
  startS: z.number().int().nonnegative(),
  lateS: z.array(seconds).nullable(),
  variable: z.boolean(),
  powerW: perSecond,
  heartRateBpm: perSecond,
  speedMps: perSecond,
  cadenceRpm: perSecond.exactOptional(),
  countedS: perSecond.exactOptional(),
  likePowerBeats: perSecond.exactOptional(),
  pressure: z.array(z.number().int().min(0).max(6)),
  altitudeM: perSecond,
});
const pairSide = z.object({
  name: text,
  footage: z.object({ clipId: text, clock }).nullable(),
  series: pairSeries,
});
const pairSpots = z.object({ firstS: times, secondS: times });

const card = z.discriminatedUnion("kind", [
  z.object({ kind: z.literal("title"), title: text, lines }),
  z.object({ kind: z.literal("plan"), title: text, rows: z.array(z.object({ label: text, value: text })) }),
  z.object({
    kind: z.literal("chart"),
    title: text,
    lines,
    series: z.object({
      power30sW: column.nullable(),
      powerUnit: z.enum(["W", "%"]).exactOptional(),
      heartRateBpm: column.nullable(),
      startS: seconds,
      stepS: z.number().positive(),
      altitude: column.exactOptional(),
      altitudeUnit: z.enum(["m", "ft"]).exactOptional(),
    }),
    marks: z.object({
      bandW: z.object({ low: z.number(), high: z.number(), target: z.number().exactOptional() }).nullable(),
      counted: z.object({ startS: seconds, endS: seconds }).nullable(),
      first: atBpm,
      last: atBpm,
      onset: z.object({ atS: seconds.nullable(), lowS: seconds, highS: seconds }).nullable(),
      moment: z.object({ startS: seconds, endS: seconds, words: text }).nullable(),
      heartBand: z.object({ low: z.number(), high: z.number() }).exactOptional(),
      blocks: z
        .array(z.object({ startS: seconds, endS: seconds, low: z.number().nullable(), high: z.number().nullable() }))
        .exactOptional(),
      shots: z.array(z.object({ startS: seconds, endS: seconds })).exactOptional(),
      told: z.array(seconds).exactOptional(),
    }),
  }),
  z.object({
    kind: z.literal("comparison"),
    title: text,
    columns: z.tuple([text, text]),
    rows: z.array(z.object({ label: text, left: text, right: text })),
  }),
  z.object({
    kind: z.literal("pair"),
    title: text,
    follow: z.enum(FOLLOW_WAYS),
    units: z.enum(UNIT_SYSTEMS),
    sides: z.tuple([pairSide, pairSide]),
    pace: z.object({ filmS: times, firstS: times, secondS: times }),
    spots: pairSpots,
    oneRider: z.boolean().exactOptional(),
    of: z
      .object({
        startS: seconds,
        endS: seconds,
        riderName: text.nullable(),
        startUtcMs: z.number().nullable(),
        ownSecond: z.boolean(),
        otherClipId: text.nullable().exactOptional(),
      })
      .exactOptional(),
  }),
  z.object({ kind: z.literal("note"), title: text, lines }),
  z.object({ kind: z.literal("closing"), title: text, lines, caution: text }),
]);

const item = z.discriminatedUnion("type", [
  z.object({
    type: z.literal("shot"),
    id: text,
    clipId: text,
    mediaStartS: z.number().nonnegative(),
    mediaEndS: seconds,
    speed: z.number().min(0.125).max(32),
    freezes: z.array(
      z.object({ atMediaS: seconds, durationS: z.number().nonnegative(), forComment: z.boolean().exactOptional() }),
    ),
    captions: z.array(z.object({ startS: seconds, endS: seconds, text })),
    drawings: z.array(
      z.object({
        shape: z.enum(["arrow", "ring", "line", "free", "text"]),
        points: z.array(point),
        text: text.nullable(),
        startS: seconds,
        endS: seconds,
      }),
    ),
    beside: z
      .object({
        name: text,
        oneRider: z.boolean().exactOptional(),
        panels: z.array(z.enum(PANEL_NAMES)),
        byTimeFromS: seconds.exactOptional(),
        spots: pairSpots,
        series: pairSeries,
      })
      .exactOptional(),
    covers: z.array(cover).exactOptional(),
    closeUp: z.array(closeUpKey).min(1).max(200).refine(inOrder).exactOptional(),
    pageStartS: seconds,
    pageEndS: seconds,
    clock,
    leadS: z.number().exactOptional(),
    moment: z.number().int().nullable(),
    riderName: text.nullable(),
    why: text,
    commentPath: text.nullable(),
    commentS: z.number().positive().exactOptional(),
    crossfadeS: z.number().nonnegative(),
    keepRideSound: z.boolean().exactOptional(),
    momentKey: momentKey.exactOptional(),
    made: text.exactOptional(),
  }),
  z.object({
    type: z.literal("card"),
    id: text,
    durationS: z.number().positive(),
    card,
    moment: z.number().int().nullable(),
    why: text,
    commentPath: text.nullable(),
    commentS: z.number().positive().exactOptional(),
    crossfadeS: z.number().nonnegative(),
    momentKey: momentKey.exactOptional(),
    made: text.exactOptional(),
  }),
]);

/** A film as `debrief.json` holds it. */
export const filmSchema: z.ZodType<Film> = z.object({
  widthPx: z.number().int().positive().max(16_384),
  heightPx: z.number().int().positive().max(16_384),
  frameRate: rational,
  items: z.array(item).max(500),
  leftOut: z.array(text),
});

/** For `JSON.stringify`: columns as plain lists, missing values as null. */
export function columnsAsLists(_key: string, value: unknown): unknown {
  if (!(value instanceof Float64Array)) return value;
  return Array.from(value, (one) => (Number.isFinite(one) ? Math.round(one * 10) / 10 : null));
}
