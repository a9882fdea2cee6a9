import { dirname, resolve } from "node:path";
import type { DebriefDocument, Edit, FilmSettings } from "../../contract/debrief.ts";
import type { HandOverChoices, HandOverPlan } from "../../contract/debriefApi.ts";
import { Failure } from "../../contract/failure.ts";
import type { Film } from "../../contract/film.ts";
import { PRESETS, type Preset } from "../../contract/presets.ts";
import type { Athlete } from "../../debrief/athlete.ts";
import { consentedAthlete } from "../../debrief/athleteFolder.edge.ts";
import { notUsable } from "../../journey/clipDoubts.ts";
import type { DebriefStanding } from "../../journey/debrief.ts";
import {
  chosenFolder,
  handOver,
  handOverFolder,
  mayHandOver,
  pageOfStanding,
  type PageStills,
  pageStillsOf,
  wordsOfStanding,
} from "../../journey/handOver.ts";
import { athleteOf } from "../../journey/openDebrief.ts";
import { filmClock } from "../../../overlay/instant/filmClock.ts";
import { rideDateText } from "../../../overlay/words/dateText.ts";
import { handOverFiles } from "../../../overlay/words/handOverWords.ts";
import { filmOnWire } from "./debriefView.ts";
import type { DeskContext } from "./deskContext.ts";
import type { Session } from "./session.ts";
import { knownFolders, remember, rememberHandOver } from "../../host/knownFolders.edge.ts";

/** Bits a pixel of a film at crf 20 as rides come out, about; halved every 6 steps of crf. From our own films, no source. */
const BITS_A_PIXEL = 0.1;
/** Page, pictures and the rest, bytes. */
const PAGES_BYTES = 5e6;
/** Pixels a second that two ordinary cores bring through, by x264's speed; measured on two cores without a graphics card. */
const PIXELS_A_SECOND: Readonly<Record<Preset["speed"], number>> = { ultrafast: 40e6, veryfast: 55e6, medium: 12e6 };
/** Starting, page and stills, s. */
const PAGES_S = 8;

/** The document's settings with what was chosen for this hand-over. */
function settingsWith({ settings }: DebriefDocument, choices: HandOverChoices): FilmSettings {
  const { forWhom, preset, language, asPercent, playingPage, slowSound, agreed } = choices;
  return {
    ...settings,
    forWhom,
    preset,
    language,
    asPercent,
    // Left away where it is not wished and was not: a tick not set is no edit.
    ...(playingPage || settings.playingPage === true ? { playingPage } : {}),
    ...(slowSound === (settings.slowSound ?? "stretched") ? {} : { slowSound }),
    acceptUnsure: settings.acceptUnsure || agreed.includes("unsure"),
  };
}

/** Pages that can be had at once. */
const LENT_PAGES = 4;

/** Hand-overs of the debrief on the desk. */
export class HandOverDesk {
  private readonly desk: DeskContext;
  /** Learnt from the last film: how much faster or slower than foreseen this computer is. */
  private pace = 1;

  /** The pages that are lent, the newest last; a frame may still be loading one when the next is made. */
  private readonly lent: string[] = [];
  /** Where debriefs were handed over to, by their own folders: their own files are written anew there. */
  private readonly writtenTo = new Map<string, Set<string>>();
  /** The pictures made last: they stay good while the film does. */
  private stills: { readonly of: string; readonly made: Promise<PageStills> } | null = null;

  constructor(desk: DeskContext) {
    this.desk = desk;
  }

  /** The written page as it would be, for a frame of its own. @throws Failure without a ride */
  async page(session: Session, choices: HandOverChoices, pictures: boolean): Promise<{ readonly address: string }> {
    const settings = settingsWith(session.document, choices);
    const standing = await session.standingWith({ settings });
    const { folder } = session;
    if (folder === null) throw new Failure("desk-without-ride", {});
    const { shelf } = this.desk.surroundings;
    const html = await pageOfStanding(standing, pictures ? await this.pageStills(standing, folder) : []);
    const address = shelf.lendPage(html);
    this.lent.push(address);
    for (const old of this.lent.splice(0, this.lent.length - LENT_PAGES)) shelf.takeBack(old);
    return { address };
  }

  private pageStills(standing: DebriefStanding, folder: string): Promise<PageStills> {
    const of = JSON.stringify([filmOnWire(standing.film), standing.document.settings, standing.document.plan.units]);
    if (this.stills?.of === of) return this.stills.made;
    const made = pageStillsOf(standing, folder, this.desk.host);
    this.stills = { of, made };
    // What did not work is tried again the next time.
    made.catch(() => this.stills?.made === made && (this.stills = null));
    return made;
  }

  /** What would be written and what a person has to agree to; nothing is changed. @throws Failure without a ride */
  async plan(session: Session, choices: HandOverChoices): Promise<HandOverPlan> {
    const settings = settingsWith(session.document, choices);
    const standing = await session.standingWith({ settings });
    const { film } = standing;
    const { folder } = session;
    if (folder === null) throw new Failure("desk-without-ride", {});
    const stills = film.items.some((item) => item.type === "shot" && item.moment !== null);
    const videoBytes = filmBytes(film, PRESETS[settings.preset]);
    // The page holds the film once more, in letters.
    const estimateBytes = videoBytes + PAGES_BYTES + (choices.playingPage ? (videoBytes * 4) / 3 : 0);
    return {
      folder: handOverFolder(await this.placeOf(folder, choices), settings.forWhom),
      files: handOverFiles({
        forWhom: settings.forWhom,
        pdf: this.desk.host.printPage !== null,
        stills,
        playing: choices.playingPage,
      }),
      words: await wordsOfStanding(standing),
      film: filmOnWire(film),
      estimateBytes: Math.round(estimateBytes),
      estimateS: Math.round(filmS(film, PRESETS[settings.preset]) * this.pace + PAGES_S),
      asks: this.asks(session, standing),
    };
  }

  /** Saves, then renders and writes everything as a job. @throws Failure where something asked was not agreed to */
  async start(session: Session, choices: HandOverChoices): Promise<string> {
    const folder = await session.settle();
    const settings = settingsWith(session.document, choices);
    const foreseen = await session.standingWith({ settings });
    const open = this.asks(session, foreseen).find(({ key }) => !choices.agreed.includes(key));
    if (open !== undefined)
      throw open.key === "unsure"
        ? new Failure("hand-over-unsure", {})
        : open.key === "consent"
          ? new Failure("hand-over-consent-unsaid", {})
          : new Failure("hand-over-batch-unseen", {});
    if (JSON.stringify(settings) !== JSON.stringify(session.document.settings)) {
      const edit: Edit = { part: "settings", value: settings, label: "settings of the hand-over" };
      await session.change([edit]);
    }
    const standing = await session.standingWith({});
    const consent = choices.agreed.includes("consent")
      ? `agreed, as the coach said on ${rideDateText(this.desk.host.nowMs(), -new Date().getTimezoneOffset(), "en")}`
      : null;
    // Read from its file anew: without the place to hide nothing is handed over.
    const athlete = await consentedAthlete(
      folder,
      standing.document,
      await athleteOf(folder, standing.document, true),
      consent,
    );
    await session.saver.now();
    if (typeof session.saver.state === "object") throw Failure.from(session.saver.state);
    return this.queue(standing, folder, athlete, await this.placeOf(folder, choices));
  }

  /** The debrief's folder, or one of its name in the place that was chosen. */
  private async placeOf(folder: string, { into }: HandOverChoices): Promise<string> {
    if (into === undefined) return folder;
    const place = this.desk.surroundings.paths.pathOf(into);
    const before = (await knownFolders()).handedOver.filter((one) => one.folder === folder);
    return chosenFolder(
      folder,
      place,
      new Set([...before.map((one) => one.into), ...(this.writtenTo.get(folder) ?? [])]),
    );
  }

  private queue(standing: DebriefStanding, folder: string, athlete: Athlete | null, into: string): string {
    const { jobs, host, surroundings } = this.desk;
    const { settings } = standing.document;
    const { forWhom, preset } = settings;
    const { id } = jobs.add({
      what: "hand over",
      title: { of: "film", preset, forWhom, ...whose(standing, athlete) },
      debriefFolder: folder,
      background: false,
      run: async (context) => {
        const startMs = performance.now();
        this.writtenTo.set(folder, new Set([...(this.writtenTo.get(folder) ?? []), resolve(into)]));
        const { written, warnings } = await handOver(standing, folder, athlete, host, context, undefined, into);
        const foreseenS = filmS(standing.film, PRESETS[preset]) + PAGES_S;
        this.pace = Math.min(10, Math.max(0.05, (performance.now() - startMs) / 1000 / foreseenS));
        await remember("debriefs", folder);
        if (resolve(into) !== resolve(folder)) await rememberHandOver(folder, resolve(into));
        return {
          folderId: surroundings.paths.idOf(dirname(written[0]!)),
          written,
          warnings,
        };
      },
    });
    return id;
  }

  private asks(session: Session, standing: DebriefStanding): HandOverPlan["asks"] {
    const asks: HandOverPlan["asks"][number][] = [];
    const { document, clips, lineup } = standing;
    if (document.prepared) asks.push({ key: "prepared", because: null });
    const consent = mayHandOver({ ...document, prepared: false }, session.rider.athlete);
    if (consent !== null) asks.push({ key: "consent", because: consent.notice });
    const doubt = document.settings.acceptUnsure ? null : notUsable(clips, lineup);
    if (doubt !== null) asks.push({ key: "unsure", because: doubt.notice });
    return asks;
  }
}

/** Whose ride of which day a debrief tells of. */
function whose(
  { document, judged }: DebriefStanding,
  athlete: Athlete | null,
): {
  readonly rider: string | null;
  readonly dateText: string | null;
} {
  const { startUtcMs, utcOffsetMin } = judged.ride;
  return {
    rider: athlete?.name ?? document.plan.rider,
    dateText: startUtcMs === null ? null : rideDateText(startUtcMs, utcOffsetMin, "en"),
  };
}

function pixels(film: Film): number {
  return film.widthPx * film.heightPx * filmClock(film).frames;
}

function filmBytes(film: Film, preset: Preset): number {
  const { lengthS } = filmClock(film);
  const picture = (pixels(film) * BITS_A_PIXEL * 2 ** ((20 - preset.crf) / 6)) / 8;
  const whole = picture + (preset.audioKbps * 1000 * lengthS) / 8;
  return preset.sizeMb === null ? whole : Math.min(whole, preset.sizeMb * 1e6);
}

function filmS(film: Film, preset: Preset): number {
  return pixels(film) / PIXELS_A_SECOND[preset.speed];
}
