import { PLACE_NAMES } from "../../contract/keptPlace.ts";
import { LANGUAGES } from "../../contract/languageAndUnits.ts";
import { FOLLOW_WAYS } from "../../contract/pair.ts";
import { FOR_WHOM, PRESET_NAMES, SLOW_SOUNDS } from "../../contract/presets.ts";
import { z } from "zod";
import type { DebriefApi } from "../../contract/debriefApi.ts";

/** Longest text a person types into one field, characters. */
const TEXT = 20_000;
/** A spoken comment: ten minutes of 16 bit mono at 16 kHz, as base64. */
const SOUND_CHARS = 26_000_000;

const id = z.string().min(1).max(64);
const text = z.string().max(TEXT);
const seconds = z.number().min(-1e7).max(1e7);
const choices = z.strictObject({
  forWhom: z.enum(FOR_WHOM),
  preset: z.enum(PRESET_NAMES),
  language: z.enum(LANGUAGES),
  asPercent: z.boolean(),
  playingPage: z.boolean(),
  slowSound: z.enum(SLOW_SOUNDS),
  agreed: z.array(z.string().max(64)).max(16),
  into: id.optional(),
});
/** The part's own form is checked where the document is known; here only that it is an edit. */
const beside = z.strictObject({
  road: z.number().int().min(0).max(1000),
  startS: seconds,
  endS: seconds,
  how: z.enum(["halves", "thread"]),
  follow: z.enum(FOLLOW_WAYS),
  ownSecond: z.boolean(),
  otherClipId: id.nullable().exactOptional(),
  itemId: id.nullable(),
});
const edit = z.strictObject({ part: z.string().max(64), value: z.json(), label: z.string().max(500) });

/** What each call takes, checked before a handler sees it. A call that is not listed can't be made. */
export const callSchemas = {
  about: z.tuple([]),
  packageNotices: z.tuple([]),
  state: z.tuple([]),
  places: z.tuple([]),
  listFolder: z.tuple([id]),
  idsOfDropped: z.tuple([z.array(id).max(500)]),
  recent: z.tuple([]),
  batch: z.tuple([id]),
  athletes: z.tuple([]),
  saveAthlete: z.tuple([id, z.json()]),
  readAthlete: z.tuple([id]),
  filesOfAthlete: z.tuple([id]),
  deleteAthlete: z.tuple([id, text]),
  weeksPage: z.tuple([id]),
  earlierPlans: z.tuple([]),
  takePlan: z.tuple([id]),
  addFiles: z.tuple([z.array(id).max(500)]),
  removeFile: z.tuple([id]),
  showRide: z.tuple([id]),
  beginDebrief: z.tuple([id]),
  useAthlete: z.tuple([id.nullable()]),
  openDebrief: z.tuple([id, z.boolean()]),
  lookForMedia: z.tuple([id]),
  closeDebrief: z.tuple([]),
  openExample: z.tuple([]),
  lineUp: z.tuple([z.boolean()]),
  parseRideTime: z.tuple([text]),
  sharpFrames: z.tuple([id, seconds.min(0)]),
  edit: z.tuple([edit, z.number().int().min(0)]),
  settleAsked: z.tuple([
    z.number().int().min(0).max(100_000),
    z.number().int().min(0).max(100_000).nullable(),
    z.number().int().min(0),
  ]),
  undo: z.tuple([]),
  redo: z.tuple([]),
  pickFilm: z.tuple([seconds.min(0)]),
  chooseMoment: z.tuple([edit, z.number().int().min(0).max(100_000), z.number().int().min(0)]),
  showBeside: z.tuple([beside, z.number().int().min(0)]),
  saveNow: z.tuple([]),
  keepPlace: z.tuple([text, z.enum(PLACE_NAMES), z.string().max(500).nullable()]),
  makeProxy: z.tuple([id]),
  setComment: z.tuple([id, z.base64().max(SOUND_CHARS).nullable()]),
  speakAt: z.tuple([seconds, z.base64().max(SOUND_CHARS)]),
  planHandOver: z.tuple([choices]),
  handOverPage: z.tuple([choices, z.boolean()]),
  handOver: z.tuple([choices]),
  cancelJob: z.tuple([id]),
  openFolder: z.tuple([id]),
} satisfies Record<keyof DebriefApi, z.ZodType<readonly unknown[]>>;
