/**
 * What the window may ask of the program, in both shells. Types only: `app/` holds one validated handler for each call,
 * the window one client. Everything that crosses is JSON; big arrays and pictures go by address (`DeskAddresses`).
 *
 * The program holds the truth. It keeps one desk for a window: the debrief on it, its jobs. After every change it sends
 * the whole `DeskState` once (`DeskEvents.state`), which the window draws; progress of jobs comes apart, at most 5 a second.
 * A call that fails rejects with a `FailureData`.
 */
import type { AskedChoice, DebriefDocument, Edit, MomentChoice } from "./debrief.ts";
import type { FailureData } from "./failure.ts";
import type { Film } from "./film.ts";
import type { Progress } from "./job.ts";
import type { KeptPlace, PlaceName } from "./keptPlace.ts";
import type { Language } from "./languageAndUnits.ts";
import type { Lineup, RideInstant } from "./lineup.ts";
import type { FollowWay } from "./pair.ts";
import type { PlannedBlock, Setting } from "./plan.ts";
import type { ForWhom, PresetName, SlowSound } from "./presets.ts";
import type { BreakReason, Reading } from "./reading.ts";
import type { ReadOnlyReason } from "./notices/debrief.ts";
import type { SaidWords } from "./saidWords.ts";
import type { FailureNotice, Notice } from "./notice.ts";
import type { ToldReading } from "./toldReading.ts";

/** A path the window never sees: stands for one file or folder that the program has shown it. */
export type PathId = string;

export interface AboutProgram {
  readonly version: string;
  readonly shell: "electron" | "chromium";
  /** What was found and how, in words, e.g. `ffmpeg 5.1.9, found on this machine`. */
  readonly tools: readonly string[];
  /** Where the logs of the last starts lie. */
  readonly logFolder: string;
  /** Where caches lie and how much they hold, bytes. */
  readonly cache: { readonly path: string; readonly bytes: number; readonly limitBytes: number };
}

/** One folder as the in-app picker shows it; only home and mounted volumes can be reached. */
export interface Listing {
  readonly id: PathId;
  readonly parentId: PathId | null;
  /** For people, e.g. `/home/ana/rides`. */
  readonly path: string;
  readonly entries: readonly {
    readonly id: PathId;
    readonly name: string;
    readonly kind: "folder" | "ride" | "clip" | "plan" | "debrief" | "athlete" | "other";
    readonly bytes: number;
    readonly modifiedUtcMs: number;
  }[];
}

export interface RecentDebrief {
  readonly id: PathId;
  /** The plan's title, else the ride's file. */
  readonly title: string;
  /** Whose ride; null: nobody said. */
  readonly rider: string | null;
  /** Where it was ridden; null: not read yet. */
  readonly setting: Setting | null;
  /** Length of the main part, s; null: not read yet. */
  readonly mainS: number | null;
  readonly folder: string;
  readonly rideDateText: string | null;
  readonly modifiedUtcMs: number;
  /** True: prepared by a batch and not yet opened by a person. */
  readonly prepared: boolean;
  readonly handedOver: boolean;
}

/** One ride of a batch, as the list in the window shows it. */
export interface BatchEntry {
  /** Of its debrief; null: there is none to open. */
  readonly id: PathId | null;
  /** The rider, else the ride's file. */
  readonly name: string;
  readonly rideDateText: string | null;
  /** What to look at, or why it could not be prepared; one sentence each. */
  readonly looks: readonly string[];
  /** A person has opened it. */
  readonly seen: boolean;
}

export interface AthleteEntry {
  readonly id: PathId;
  readonly folder: string;
  readonly name: string;
  readonly debriefs: number;
  /** Defaults in plain words, one line each, e.g. `road target 160 W, from 3 October 2026`. */
  readonly lines: readonly string[];
}

/** What was asked of an earlier ride of the athlete. */
export interface EarlierPlan {
  /** Of its debrief. */
  readonly id: PathId;
  readonly title: string | null;
  /** When it was ridden; null: not known. */
  readonly rideDateText: string | null;
  readonly setting: Setting;
  readonly targetW: number | null;
  readonly warmUpS: number | null;
  readonly blocks: number;
}

/** A file on the desk in plain words. */
export interface GatheredFile {
  /** `ride1`, `clip2`: as in the document's media. */
  readonly id: string;
  readonly kind: "ride" | "clip" | "unusable";
  readonly name: string;
  /** What it holds, e.g. `power, heart rate, position`; what is usual and there is not said, what is missing is. */
  readonly holds: string;
  /** What is missing and what that costs, one sentence each. */
  readonly missing: readonly string[];
  /** Only for `unusable`. */
  readonly failure: FailureData | null;
  /** True for the ride whose numbers are shown. */
  readonly shown: boolean;
  readonly durationS: number;
}

/** A clip's picture for the window. */
export interface ClipView {
  readonly id: string;
  readonly name: string;
  readonly durationS: number;
  readonly widthPx: number;
  readonly heightPx: number;
  readonly frames: number;
  readonly hasSound: boolean;
  /** `original`: the file itself plays. `companion`: the camera's small file. `proxy`: ours. `none`: wait for a proxy. */
  readonly picture: "original" | "companion" | "proxy" | "none";
  /** Spans of clip time with an all-intra proxy, s. */
  readonly proxySpans: readonly { readonly startS: number; readonly endS: number; readonly address: string }[];
  /** Where the whole clip plays from, or null while it can't. */
  readonly address: string | null;
  /** Filmstrip: one small picture each `everyS` s, `<address>/<n>.jpg`; `count` of them are there by now. */
  readonly filmstrip: { readonly address: string; readonly everyS: number; readonly count: number } | null;
  /** True once motion over time can be fetched. */
  readonly hasSignals: boolean;
}

/** Addresses of big things; all of our own origin. */
interface DeskAddresses {
  /** Binary columns of the shown ride (`RideColumns` of overlay plus `power30sW`, `distanceM`, `timerS`); changes with the reading. */
  readonly columns: string;
  /** `<frames>/<clipId>`: presentation time of each frame and the end of the last, s, as float64. */
  readonly frames: string;
  /** `<signals>/<clipId>`: motion, sound, turning (see `ClipSignals`), binary. */
  readonly signals: string;
}

/** A reading without its columns, which are fetched by address. */
export type ReadingView = Omit<Reading, "columns">;

/** A part of the film that teaches a rider whose note comes before training. */
export interface TaughtPart {
  readonly itemId: string;
  /** Ride time at which it begins; null: a card of words. */
  readonly startS: number | null;
}

export interface ExcusedPart {
  readonly itemId: string;
  readonly breakStartS: number;
  readonly reason: BreakReason;
}

/** Another ride along a road of this one. */
export interface RoadView {
  /** `16 May`, or the other rider. */
  readonly name: string;
  /** Another rider's, whose camera may be among the clips. */
  readonly otherRider: boolean;
  /** Of this ride, s. */
  readonly startS: number;
  readonly endS: number;
  /** The other's `PressureState` at the spots of this ride's seconds, from `startS` on; whole. */
  readonly pressure: readonly { readonly fromS: number; readonly state: number }[];
}

/** A shot of this ride beside another. Times are of this ride, s. */
export interface BesideAsk {
  /** Index into the view's roads. */
  readonly road: number;
  readonly startS: number;
  readonly endS: number;
  /** `halves`: both side by side. `thread`: the other's thread and numbers on a shot's own picture. */
  readonly how: "halves" | "thread";
  readonly follow: FollowWay;
  /** This ride stands right or below. */
  readonly ownSecond: boolean;
  /** As of a `PairOrigin`. */
  readonly otherClipId?: string | null;
  /** The part of the film that it takes the place of, or whose picture it is; null: a new part before the closing card. */
  readonly itemId: string | null;
}

export interface DebriefView {
  readonly folder: string;
  /** Why it may only be looked at; null when it may be edited. */
  readonly readOnly: ReadOnlyReason | null;
  readonly saved: "saved" | "saving" | FailureData;
  /** Where it was left, as `keepPlace` was last told; kept on this computer through restarts. */
  readonly place: KeptPlace;
  /** Grows with every edit, undo and redo. */
  readonly edit: number;
  /** Label of what undo and redo would do, or null. */
  readonly undo: string | null;
  readonly redo: string | null;
  /** Columns in it are lists with null for a missing value. */
  readonly document: DebriefDocument;
  /** Of the athlete's folder; null: it has none. */
  readonly athleteId: PathId | null;
  /** As their file says; null: there is no athlete, or their file can't be read now. */
  readonly athleteName: string | null;
  readonly files: readonly GatheredFile[];
  readonly clips: readonly ClipView[];
  readonly lineup: Lineup | null;
  readonly reading: ReadingView | null;
  /** The reading in words that a coach can read aloud; null before there is one. */
  readonly told: ToldReading | null;
  /** One short sentence for each moment of the reading, same order, e.g. `freewheeling 41 s after the bridge, no reason seen`. */
  readonly momentWords: readonly string[];
  /** What the coach said about each moment of the reading, same order; null: nothing. */
  /** The plan's blocks with the power that each asks for, on the meter's own scale. */
  readonly plannedBlocks: readonly PlannedBlock[];
  readonly momentChoices: readonly (MomentChoice | null)[];
  /** What the coach said or set and that is asked about: which moment it is, or whether to let it go. */
  readonly asked: readonly AskedChoice[];
  /** The film in force: the document's when the coach set it, else the automatic pick. Null before there is a reading. */
  readonly film: Film | null;
  readonly filmLengthS: number | null;
  /** Parts of the coach's film that teach a break which has been given a reason since: nothing is to be learnt from it. */
  readonly excusedParts: readonly ExcusedPart[];
  /** Parts that the coach chose and that teach a rider whose note comes before training. */
  readonly taughtParts: readonly TaughtPart[];
  /** Other rides along this one's roads. */
  readonly roads: readonly RoadView[];
  readonly addresses: DeskAddresses;
  /** Where the spoken comment of a part of the film plays from, by the part's id; a part without one is not there. */
  readonly commentAddresses: Readonly<Record<string, string>>;
  /** Media not found, with what they were called; asked for once. */
  readonly missingMedia: readonly { readonly id: string; readonly name: string }[];
  readonly warnings: readonly Notice[];
}

/** What a job is called; the window has the words. */
export type JobTitle =
  | { readonly of: "files"; readonly count: number; readonly first: string }
  | { readonly of: "signals" | "small films" | "example ride" }
  | { readonly of: "small film" | "small pictures"; readonly fileName: string }
  | {
      readonly of: "film";
      readonly preset: PresetName;
      readonly forWhom: ForWhom;
      /** Whose ride of which day; null: not known. */
      readonly rider: string | null;
      readonly dateText: string | null;
    };

export interface JobView {
  readonly id: string;
  readonly what: "gather" | "lineup" | "signals" | "proxies" | "filmstrip" | "film" | "hand over";
  readonly title: JobTitle;
  /** Folder of the debrief that it is for; null: of the one on the desk. */
  readonly debriefFolder: string | null;
  readonly state: "waiting" | "running" | "done" | "cancelled" | "failed";
  readonly progress: Progress | null;
  readonly failure: FailureData | null;
  /** Folder that can be opened at the end. */
  readonly folderId: PathId | null;
  /** Paths. */
  readonly written: readonly string[];
  readonly warnings: readonly Notice[];
}

export interface DeskState {
  readonly debrief: DebriefView | null;
  readonly jobs: readonly JobView[];
}

/** Something a person has to agree to; `because`: what stands against it otherwise. */
export interface HandOverAsk {
  readonly key: "consent" | "unsure" | "prepared";
  readonly because: FailureNotice | null;
}

/** What a hand-over would write, before it is done. */
export interface HandOverPlan {
  readonly folder: string;
  readonly files: readonly { readonly name: string; readonly what: string }[];
  /** What will be said in words, and the message as it will be sent. */
  readonly words: SaidWords;
  /** The film as it will be, in its shape and for whom it is made. */
  readonly film: Film;
  readonly estimateBytes: number;
  readonly estimateS: number;
  /** What a person has to agree to first (a lesson's consent, an unsure line-up, a prepared batch never opened). */
  readonly asks: readonly HandOverAsk[];
}

export interface HandOverChoices {
  readonly forWhom: ForWhom;
  readonly preset: PresetName;
  readonly language: Language;
  readonly asPercent: boolean;
  /** Also the page in which the film plays. */
  readonly playingPage: boolean;
  readonly slowSound: SlowSound;
  /** Keys of `asks` that the person agreed to. */
  readonly agreed: readonly string[];
  /** A folder in which a folder named as the debrief's is made and written to. Missing: the debrief's own folder. */
  readonly into?: PathId | undefined;
}

/** Calls. Each one that changes the desk answers after `DeskEvents.state` was sent. */
export interface DebriefApi {
  about(): Promise<AboutProgram>;
  /** Every package that goes with the program, with its licence's text. */
  packageNotices(): Promise<string>;
  state(): Promise<DeskState>;

  /** Folders to start from: home, volumes, the last ones used. */
  places(): Promise<readonly { readonly id: PathId; readonly name: string }[]>;
  listFolder(id: PathId): Promise<Listing>;
  /** Electron only: ids for dropped files, whose paths its preload found. Chromium: rejects, the window opens the picker filtered by name. */
  idsOfDropped(tokens: readonly string[]): Promise<readonly PathId[]>;
  recent(): Promise<readonly RecentDebrief[]>;
  /** The rides of a folder that a batch went through, in the order to look at them. Rejects where it holds no ride. */
  batch(folder: PathId): Promise<readonly BatchEntry[]>;
  athletes(): Promise<readonly AthleteEntry[]>;
  /** Makes `athlete.json` in a folder below the one given, or changes it. */
  saveAthlete(folder: PathId, athlete: unknown): Promise<AthleteEntry>;
  readAthlete(id: PathId): Promise<unknown>;
  /** Every file that would go, and those in the folder that are not the athlete's and stay. */
  filesOfAthlete(id: PathId): Promise<{ readonly files: readonly string[]; readonly others: readonly string[] }>;
  deleteAthlete(id: PathId, confirmName: string): Promise<void>;
  /**
   * The weeks page of an athlete as HTML without scripts and without a title, which the screen has; `address` shows it in
   * a frame of its own (its styles are its own).
   */
  weeksPage(
    id: PathId,
  ): Promise<{ readonly html: string; readonly lines: readonly string[]; readonly address: string }>;

  /** Plans of the athlete's earlier rides, the latest first, each said once; empty without an athlete. */
  earlierPlans(): Promise<readonly EarlierPlan[]>;
  /** What was asked of an earlier ride is asked of this one; what was told of the earlier day stays there. */
  takePlan(id: PathId): Promise<void>;

  /** Puts files on the desk: reads rides and a plan, probes clips; a file that can't be used stays listed with its failure. */
  addFiles(ids: readonly PathId[]): Promise<void>;
  removeFile(mediaId: string): Promise<void>;
  showRide(mediaId: string): Promise<void>;
  /** A new debrief on the desk, of an athlete; the one before is saved and let go, never re-assigned. */
  beginDebrief(athlete: PathId): Promise<void>;
  /** Makes the debrief on the desk one of this athlete, or of nobody. */
  useAthlete(id: PathId | null): Promise<void>;
  openDebrief(id: PathId, trustPaths: boolean): Promise<void>;
  /** A found folder or file for missing media: found by content. */
  lookForMedia(folder: PathId): Promise<void>;
  closeDebrief(): Promise<void>;
  /** A debrief of a ride and footage of our own, made the first time; one begun on it before is opened. */
  openExample(): Promise<void>;

  /** Places the clips anew from clocks, telemetry, anchors and (asked for) signals. */
  lineUp(withSignals: boolean): Promise<void>;
  /** RIDE_T or `CLIP@T=RIDE_T` as typed, to an instant of the ride; rejects with `anchor-not-valid`. */
  parseRideTime(text: string): Promise<RideInstant>;
  /** Clip times of the sharpest frames within 2 s of an instant, s, in order: a filmed clock is read best in one of them. */
  sharpFrames(clipId: string, mediaS: number): Promise<readonly number[]>;

  /** `edit` is the `DebriefView.edit` it was made on: rejects when the desk has moved on. */
  edit(edit: Edit, madeOn: number): Promise<void>;
  undo(): Promise<void>;
  redo(): Promise<void>;
  /** The automatic film for a wished length, put into the document as an edit set by the program. */
  pickFilm(lengthS: number): Promise<void>;
  /**
   * Answers one of `asked` of the debrief as it stood at `madeOn`: `to` is the moment (for a reason: the break) it
   * belongs to, null lets it go.
   */
  settleAsked(asked: number, to: number | null, madeOn: number): Promise<void>;
  /**
   * What a coach says about a moment, with the film as that has it, in one edit: kept it is in the film (once), dropped or
   * no more kept it is not. `choices` is an edit of that part.
   */
  chooseMoment(choices: Edit, moment: number, madeOn: number): Promise<void>;
  /** Puts a shot of two rides into the film, or makes one anew, as an edit of the coach's. */
  showBeside(ask: BesideAsk, madeOn: number): Promise<void>;
  saveNow(): Promise<void>;
  /** Where in the debrief of this folder one is, so that opened again it comes back to it; null: nowhere. */
  keepPlace(folder: string, name: PlaceName, text: string | null): Promise<void>;

  /** All-intra small pictures of the whole clip, on wish. */
  makeProxy(clipId: string): Promise<void>;
  /** A spoken comment as WAV bytes, base64, for one item; null removes it. */
  setComment(itemId: string, wavBase64: string | null): Promise<void>;

  /** What the coach says aloud at an instant of the ride, as `setComment` takes it: kept as a moment in the film, one edit. */
  speakAt(rideS: number, wavBase64: string): Promise<void>;

  planHandOver(choices: HandOverChoices): Promise<HandOverPlan>;
  /**
   * The written page as it would be handed over, at an address for a frame of its own; with its pictures, which take a
   * while, or without. The one asked for before is taken back.
   */
  handOverPage(choices: HandOverChoices, pictures: boolean): Promise<{ readonly address: string }>;
  handOver(choices: HandOverChoices): Promise<{ readonly jobId: string }>;
  cancelJob(jobId: string): Promise<void>;
  openFolder(id: PathId): Promise<void>;
}

/** Sent by the program to the window. */
export interface DeskEvents {
  state(state: DeskState): void;
  progress(jobId: string, progress: Progress): void;
}
