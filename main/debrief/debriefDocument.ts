import { LANGUAGES, UNIT_SYSTEMS } from "../contract/languageAndUnits.ts";
import { PANEL_NAMES, PLACES, INKS } from "../contract/filmLook.ts";
import { FITS, FOR_WHOM, PRESET_NAMES, SHAPE_NAMES, SLOW_SOUNDS, USUAL_PRESET } from "../contract/presets.ts";
import { SETTINGS, BLOCK_KINDS, SKILLS, type Plan } from "../contract/plan.ts";
import { DRIFT_VERDICTS, GIVEN_REASONS } from "../contract/reading.ts";
import { z } from "zod";
import type { CoachWords, DebriefDocument, MediaRef } from "../contract/debrief.ts";
import { filmSchema } from "./filmSchema.ts";
import { leavesFolder } from "./mediaPath.ts";
import { momentKind } from "./momentKind.ts";

/** Version of the form of `debrief.json` that this program writes. */
export const DEBRIEF_SCHEMA = 2;

const seconds = z.number();
const text = z.string().max(20_000);
const span = z.object({ startS: seconds, endS: seconds });
/** More than any debrief holds; a longer list is made to stop the program. */
const MOST_MEDIA = 1000;
const MOST_ENTRIES = 10_000;
const count = z.number().int().nonnegative();

const planSchema = z.object({
  title: text.nullable(),
  rider: text.nullable(),
  setting: z.enum(SETTINGS),
  targetW: z.number().nullable(),
  toleranceW: z.number().nullable(),
  heartLowBpm: z.number().nullable(),
  heartHighBpm: z.number().nullable(),
  warmUpS: seconds.nullable(),
  coolDownS: seconds.nullable(),
  blocks: z.array(
    span.extend({
      kind: z.enum(BLOCK_KINDS),
      targetW: z.number().nullable(),
      toleranceW: z.number().nullable(),
    }),
  ),
  lengthS: z.number().positive().exactOptional(),
  skills: z
    .array(
      z.object({
        skill: z.enum(SKILLS),
        repeats: z.number().int().positive().max(99).nullable(),
        done: z.number().int().nonnegative().max(99).nullable(),
      }),
    )
    .max(SKILLS.length)
    .exactOptional(),
  eventS: seconds.nullable(),
  eventName: text.nullable(),
  eventDate: text.nullable().default(null),
  floorW: z.number().nullable(),
  excuses: z.array(text).nullable(),
  targetLeastFactor: z.number(),
  targetAimFactor: z.number(),
  targetLeastCapS: seconds,
  targetAimCapS: seconds,
  driftLimitBeats: z.number().default(5),
  meterOffsetW: z.number(),
  units: z.enum(UNIT_SYSTEMS),
  note: z.object({
    feel: text.nullable(),
    heat: text.nullable(),
    foodAndDrink: text.nullable(),
    sleep: text.nullable(),
    illness: text.nullable(),
    medicine: text.nullable(),
    kit: text.nullable(),
  }),
});

const momentSchema = span.extend({
  kind: momentKind,
  reason: text,
  excused: z.boolean().nullable(),
  rank: z.number(),
  numbers: z.record(z.string(), z.number().nullable()),
  setBy: z.enum(["computed", "coach"]),
  coachOnly: z.boolean(),
  comment: z
    .object({ path: text.min(1).refine((path) => !leavesFolder(path)), lengthS: z.number().nonnegative() })
    .exactOptional(),
});

const lookSchema = z.object({
  shape: z.enum(SHAPE_NAMES).nullable().exactOptional(),
  fit: z.enum(FITS).nullable().exactOptional(),
  panels: z.array(z.enum(PANEL_NAMES)).nullable().exactOptional(),
  place: z.enum(PLACES).exactOptional(),
  scale: z.number().min(0.6).max(1.6).exactOptional(),
  ink: z.enum(INKS).exactOptional(),
  units: z.enum(UNIT_SYSTEMS).nullable().exactOptional(),
  showPlan: z.boolean().exactOptional(),
  showThread: z.boolean().exactOptional(),
});

/** More roads than are ever told of one ride. */
const MOST_ROADS = 100;
const maybe = z.number().nullable();
const sideSchema = span.extend({ powerW: maybe, heartRateBpm: maybe, breaks: maybe });
const figuresSchema = z.object({
  title: text.nullable(),
  startUtcMs: maybe,
  utcOffsetMin: maybe,
  setting: z.enum(SETTINGS),
  countedS: seconds,
  meanW: maybe,
  targetW: maybe,
  meterOffsetW: z.number(),
  firstBpm: maybe,
  firstPowerW: maybe.default(null),
  lastBpm: maybe,
  riseBeats: maybe,
  driftBeats: maybe,
  uncertaintyBeats: maybe,
  correctedForPower: z.boolean(),
  driftCanTell: z.boolean().nullable().default(null),
  verdict: z.enum(DRIFT_VERDICTS),
  heldLowS: maybe,
  heldHighS: maybe,
  eventS: maybe,
  eventName: text.nullable(),
  leastS: maybe,
  aimS: maybe,
  inBandPercent: maybe,
  inMainPercent: maybe.default(null),
  askedS: maybe.default(null),
  lapses: maybe,
  roads: z
    .array(
      z.object({
        kind: z.enum(["rise", "road"]),
        lengthM: z.number().positive(),
        startUtcMs: z.number(),
        now: sideSchema,
        before: sideSchema,
      }),
    )
    .max(MOST_ROADS)
    .exactOptional(),
});

/** The form of `debrief.json`; keys it does not know are dropped. */
export const debriefSchema: z.ZodType<DebriefDocument> = z.object({
  schema: z.literal(DEBRIEF_SCHEMA),
  revision: count,
  media: z
    .array(
      z.object({
        id: text.min(1),
        kind: z.enum(["ride", "clip"]),
        path: text.min(1).refine((path) => !path.includes("\0"), "a path may not hold NUL"),
        bytes: count,
        fingerprint: text,
      }),
    )
    .max(MOST_MEDIA),
  shownRideId: text,
  plan: planSchema,
  overrides: z
    .array(
      z.discriminatedUnion("what", [
        z.object({ what: z.literal("counted"), set: span, reason: text.nullable() }),
        z.object({ what: z.enum(["first", "last"]), set: seconds, reason: text.nullable() }),
        z.object({ what: z.literal("onset"), set: seconds.nullable(), reason: text.nullable() }),
        z.object({
          what: z.literal("break"),
          startS: seconds,
          endS: seconds.nullable(),
          set: z.union([z.enum(GIVEN_REASONS), z.object({ coach: text.min(1) })]),
          reason: text.nullable(),
        }),
      ]),
    )
    .max(MOST_ENTRIES),
  anchors: z
    .array(
      z.object({
        clipId: text,
        mediaS: seconds,
        rideS: seconds,
        sigmaS: z.number().nonnegative(),
        byHand: z.boolean().exactOptional(),
        movedS: seconds.exactOptional(),
        rate: z.number().positive().exactOptional(),
      }),
    )
    .max(MOST_ENTRIES),
  deviceDelayS: seconds,
  choices: z
    .array(
      z.object({
        kind: momentKind,
        startS: seconds,
        endS: seconds.nullable(),
        keep: z.boolean().nullable(),
        span: span.nullable(),
        name: text.nullable(),
        note: text.nullable(),
      }),
    )
    .max(MOST_ENTRIES),
  ownMoments: z.array(momentSchema).max(MOST_ENTRIES),
  words: z.object({
    held: text.nullable(),
    change: text.nullable(),
    next: text.nullable(),
    nextS: z.number().min(300).max(86_400).nullable().default(null),
    notes: text.nullable(),
    questions: z.array(text).max(3).nullable(),
  }),
  settings: z.object({
    lengthS: z.number().positive(),
    preset: z.enum(PRESET_NAMES),
    language: z.enum(LANGUAGES),
    forWhom: z.enum(FOR_WHOM),
    asPercent: z.boolean().default(false),
    acceptUnsure: z.boolean(),
    playingPage: z.boolean().exactOptional(),
    slowSound: z.enum(SLOW_SOUNDS).exactOptional(),
    look: lookSchema.exactOptional(),
  }),
  film: filmSchema.nullable(),
  filmSetBy: z.enum(["computed", "coach"]).default("computed"),
  filmMark: text.nullable().default(null),
  figures: figuresSchema.nullable().default(null),
  athletePath: text
    .min(1)
    .refine((path) => !path.includes("\0"), "a path may not hold NUL")
    .nullable()
    .default(null),
  prepared: z.boolean().default(false),
});

/** No word of the coach's own. */
const NO_WORDS: CoachWords = { held: null, change: null, next: null, nextS: null, notes: null, questions: null };

/** A new debrief in which nobody has decided anything yet. */
export function newDebrief(plan: Plan, media: readonly MediaRef[], shownRideId: string): DebriefDocument {
  return {
    schema: DEBRIEF_SCHEMA,
    revision: 0,
    media,
    shownRideId,
    plan,
    overrides: [],
    anchors: [],
    deviceDelayS: 0,
    choices: [],
    ownMoments: [],
    words: NO_WORDS,
    settings: {
      lengthS: 120,
      preset: USUAL_PRESET,
      language: "en",
      forWhom: "athlete",
      asPercent: false,
      acceptUnsure: false,
    },
    film: null,
    filmSetBy: "computed",
    filmMark: null,
    figures: null,
    athletePath: null,
    prepared: false,
  };
}
