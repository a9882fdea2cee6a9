import { mkdir } from "node:fs/promises";
import { basename, dirname, join } from "node:path";
import type { Edit } from "../../contract/debrief.ts";
import type { DebriefApi, DeskState } from "../../contract/debriefApi.ts";
import { Failure } from "../../contract/failure.ts";
import type { FilmItem } from "../../contract/film.ts";
import { newDebrief } from "../../debrief/debriefDocument.ts";
import { loadAthlete } from "../../debrief/athleteStore.edge.ts";
import { leavesFolder } from "../../debrief/mediaPath.ts";
import { parseEdit } from "../../debrief/parseEdit.ts";
import { writeAtomic } from "../../debrief/writeAtomic.edge.ts";
import { soundLengthS } from "../../footage/soundLength.edge.ts";
import { parseAnchor } from "../../lineup/parseAnchor.ts";
import { parseRideTime } from "../../lineup/parseRideTime.ts";
import { athletePathFrom } from "../../journey/athleteFolder.ts";
import { filmItemFor } from "../../journey/automaticFilm.ts";
import { cacheFolder } from "../../journey/cacheFolder.ts";
import { filmWishes } from "../../journey/debriefStanding.ts";
import { defaultPlan } from "../../reading/plan/defaultPlan.ts";
import { rideColumns } from "../../reading/rideColumns.ts";
import type { Desk, MakeDesk, Surroundings } from "../surroundings.ts";
import { athleteFolderOf, athletesDesk } from "./athletesDesk.ts";
import { athleteDefaults } from "./athleteDefaults.ts";
import { ClipMedia } from "./clipMedia.ts";
import { frameTimesBytes, rideColumnsBytes, signalsBytes } from "./columnsBytes.ts";
import { commentFile } from "./commentFile.ts";
import { debriefView, type ViewAddresses } from "./debriefView.ts";
import type { DeskContext } from "./deskContext.ts";
import { gatherFiles, removeFromDesk } from "./gatherFiles.ts";
import { HandOverDesk } from "./handOverDesk.ts";
import { JobQueue } from "./jobQueue.ts";
import { hearClips } from "./hearClips.ts";
import { cacheBytes, MEDIA_CACHE_LIMIT_BYTES } from "./mediaCache.ts";
import { folderOfDebrief, lookForMissing, openSession, placesBelow } from "./openSession.ts";
import { recentDebriefs } from "./recentDebriefs.ts";
import { RideReader } from "./rideReader.ts";
import { Session } from "./session.ts";
import { remember } from "./userLists.ts";

/** The desk of one window: one debrief at a time, its jobs, and a handler for every call. */
export const makeDesk: MakeDesk = (surroundings) => new DeskOfOne(surroundings);

class DeskOfOne implements Desk {
  readonly api: DebriefApi;
  private readonly desk: DeskContext;
  private readonly media: ClipMedia;
  private readonly handOvers: HandOverDesk;
  private readonly addresses: Omit<ViewAddresses, "columns">;
  private session: Session | null = null;
  /** The reading whose columns are lent, and their address; the one before stays until the window has let go of it. */
  private columns: { readonly of: unknown; readonly address: string; readonly before: string | null } | null = null;
  private turn: Promise<unknown> = Promise.resolve();
  private telling = false;

  constructor(surroundings: Surroundings) {
    const { shelf, events } = surroundings;
    const changed = (): void => this.tellSoon();
    this.desk = {
      surroundings,
      reader: new RideReader(),
      jobs: new JobQueue({ changed, progressed: (jobId, progress) => events.progress(jobId, progress) }),
      changed,
    };
    this.media = new ClipMedia(this.desk);
    this.handOvers = new HandOverDesk(this.desk);
    this.addresses = {
      frames: shelf.lendBytes((id) => {
        const clip = this.session?.clips.get(id);
        return clip === undefined ? null : frameTimesBytes(clip.frames);
      }),
      signals: shelf.lendBytes((id) => {
        const signals = this.session?.signals.get(id);
        return signals === undefined ? null : signalsBytes(signals);
      }),
    };
    this.api = this.calls();
  }

  async close(): Promise<void> {
    await this.desk.jobs.cancelAll();
    await this.turn.catch(() => undefined);
    await this.session?.close();
    await this.desk.reader.close();
  }

  private calls(): DebriefApi {
    const { surroundings, jobs } = this.desk;
    const { paths, picker } = surroundings;
    const athletes = athletesDesk(this.desk, {
      saved: async (folder, athlete) => {
        if (this.session?.athleteDir !== folder) return;
        this.session.athlete = athlete;
        await this.session.refresh({ ...this.session.outcome, judged: null });
        this.tellSoon();
      },
      gone: async (folder) => {
        if (typeof this.session?.folder === "string" && !leavesFolder(athletePathFrom(folder, this.session.folder))) await this.put(null);
      },
      picturesGone: () => this.media.deleted(this.session),
    });
    return {
      ...athletes,
      places: () => picker.places(),
      listFolder: (id) => picker.listFolder(id),
      idsOfDropped: (tokens) => picker.idsOfDropped(tokens),
      about: async () => ({
        version: surroundings.version,
        shell: surroundings.shell,
        tools: await surroundings.toolWords(),
        cache: { path: cacheFolder(), bytes: await cacheBytes(), limitBytes: MEDIA_CACHE_LIMIT_BYTES },
      }),
      state: () => Promise.resolve(this.state()),
      recent: () => recentDebriefs(paths),

      addFiles: (ids) =>
        this.inTurn(async () => {
          const files = ids.map((id) => paths.pathOf(id));
          const session = this.session ?? (await this.put(this.blank()));
          session.mayEdit();
          await gatherFiles(session, files, this.desk);
        }),
      removeFile: (mediaId) => this.withSession((session) => removeFromDesk(session, mediaId)),
      showRide: (mediaId) =>
        this.withSession(async (session) => {
          const ride = session.rides.get(mediaId);
          if (ride === undefined || !session.document.media.some(({ id }) => id === mediaId)) throw new Failure("usage", "That is no ride on the desk.", "Choose one of the rides that are listed.");
          await session.arrange([{ part: "shownRideId", value: mediaId, label: `show ${ride.ride.fileName}` }]);
        }),
      useAthlete: (id) => this.inTurn(() => this.useAthlete(id === null ? null : athleteFolderOf(paths.pathOf(id)))),
      openDebrief: (id, trustPaths) =>
        this.inTurn(async () => {
          const path = paths.pathOf(id);
          // Opened again, it must let go of itself first; another that can't be opened leaves the desk as it is.
          if (this.session?.folder === folderOfDebrief(path)) await this.put(null);
          const session = await this.put(await openSession(path, trustPaths, this.desk));
          if (session.folder !== null) await remember("debriefs", session.folder);
        }),
      lookForMedia: (folder) =>
        this.withSession(async (session) => {
          const place = paths.pathOf(folder);
          const found = await lookForMissing(session, await placesBelow(place), this.desk);
          if (found === 0) throw new Failure("file-unreadable", `None of the missing files is in ${place} or right below it.`, "Choose the folder that holds them, or the file itself.");
          await session.refresh();
        }),
      closeDebrief: () => this.inTurn(async () => void (await this.put(null))),

      lineUp: (withSignals) =>
        withSignals
          ? this.lineUpWithSignals()
          : this.withSession((session) => session.lineUpAnew()),
      parseRideTime: (text) => Promise.resolve().then(() => this.rideTimeOf(text)),

      edit: (edit, madeOn) =>
        this.withSession(async (session) => {
          if (madeOn !== session.edit) throw new Failure("usage", "The debrief had changed before this edit came.", "Look at it as it is now and make the edit again.");
          const checked = parseEdit(edit, session.document);
          await session.change(checked.part === "film" ? [checked, setBy("coach", checked.label)] : [checked]);
          if (session.folder !== null) await remember("debriefs", session.folder);
        }),
      undo: () => this.withSession((session) => session.undo()),
      redo: () => this.withSession((session) => session.redo()),
      pickFilm: (lengthS) =>
        this.withSession(async (session) => {
          const label = "automatic film";
          const { settings } = session.document;
          await session.change([{ part: "settings", value: { ...settings, lengthS: Math.min(1800, Math.max(20, lengthS)) }, label }, { part: "film", value: null, label }, setBy("computed", label)]);
        }),
      addMomentToFilm: (moment) => this.withSession((session) => this.addMoment(session, moment)),
      saveNow: () => this.withSession((session) => session.saver.now()),

      makeProxy: async (clipId) => {
        const clip = this.need().clips.get(clipId);
        if (clip === undefined) throw new Failure("usage", "That is no clip on the desk.", "Choose one of the clips that are listed.");
        const { failure } = await this.media.whole(clip);
        if (failure !== null) throw new Failure(failure.code, failure.sentence, failure.remedy);
      },
      setComment: (itemId, wavBase64) => this.withSession((session) => this.setComment(session, itemId, wavBase64)),

      planHandOver: (choices) => this.handOvers.plan(this.need(), choices),
      handOver: async (choices) => ({ jobId: await this.withSession((session) => this.handOvers.start(session, choices)) }),
      cancelJob: (jobId) => jobs.cancel(jobId),
      openFolder: (id) => {
        const path = paths.pathOf(id);
        return surroundings.openFolder(/\.[a-z0-9]{2,5}$/i.test(basename(path)) ? dirname(path) : path);
      },
    };
  }

  /** As typed: a ride time, or a whole anchor. */
  private rideTimeOf(text: string): number {
    const session = this.need();
    const { ride } = this.shown(session);
    return text.includes("@") ? parseAnchor(text, session.clipsInUse(), ride).rideS : parseRideTime(text, ride).rideS;
  }

  private blank(): Session {
    return new Session(newDebrief(defaultPlan(), [], ""), { folder: null, onDisk: false }, this.desk.reader, this.desk.changed);
  }

  /** Another debrief on the desk, or none; the one before is saved and let go. */
  private async put<T extends Session | null>(session: T): Promise<T> {
    await this.desk.jobs.cancelAll(["gather", "lineup", "signals", "proxies", "filmstrip"]);
    await this.session?.close();
    this.media.forget();
    await this.desk.reader.keep([...(session?.rides.values() ?? [])].map(({ path }) => path));
    this.session = session;
    return session;
  }

  private need(): Session {
    if (this.session === null) throw new Failure("usage", "There is no debrief on the desk.", "Add a ride file, or open a debrief.");
    return this.session;
  }

  private shown(session: Session) {
    const shown = session.rides.get(session.document.shownRideId);
    if (shown === undefined) throw new Failure("usage", "There is no ride on the desk yet.", "Add a ride file first.");
    return shown;
  }

  private withSession<T>(run: (session: Session) => Promise<T>): Promise<T> {
    return this.inTurn(() => run(this.need()));
  }

  /** Calls that change the desk are done one after the other, and the window is told before each answers. */
  private inTurn<T>(run: () => Promise<T>): Promise<T> {
    const mine = this.turn.catch(() => undefined).then(async () => {
      try {
        return await run();
      } finally {
        if (this.session !== null) {
          await this.media.meet(this.session.clipsInUse());
          this.media.follow(this.session);
        }
        this.tell();
      }
    });
    this.turn = mine;
    return mine;
  }

  private async useAthlete(folder: string | null): Promise<void> {
    const athlete = folder === null ? null : await loadAthlete(folder);
    if (folder !== null && athlete === null) throw new Failure("file-unreadable", `${folder} holds no athlete.json.`, "Choose an athlete's folder, or make an athlete.");
    const session = this.session ?? (await this.put(this.blank()));
    session.mayEdit();
    session.athleteDir = folder;
    session.athlete = athlete;
    if (folder !== null) await remember("athletes", folder);
    const path = folder === null || session.folder === null ? null : athletePathFrom(session.folder, folder);
    const rideUtcMs = session.rides.get(session.document.shownRideId)?.ride.startUtcMs ?? null;
    const label = athlete === null ? "no athlete" : `athlete ${athlete.name}`;
    const edits: Edit[] = [{ part: "athletePath", value: path, label }, ...(athlete === null ? [] : athleteDefaults(athlete, session.document, rideUtcMs, label))];
    await session.arrange(edits);
  }

  private async addMoment(session: Session, moment: number): Promise<void> {
    const { standing } = session.outcome;
    if (standing === null) throw new Failure("usage", "There is no ride on the desk yet.", "Add a ride file first.");
    const made = filmItemFor(filmWishes(standing), moment);
    if (made === null) throw new Failure("usage", "There is no such moment in the reading as it is now.", "Choose one of the moments that are listed.");
    const { items } = standing.film;
    const item: FilmItem = { ...made, id: freeItemId(items, made.id) };
    const last = items.at(-1);
    const closing = last?.type === "card" && last.card.kind === "closing";
    const at = closing ? items.length - 1 : items.length;
    const label = "add a moment to the film";
    await session.change([
      { part: "film", value: { ...standing.film, items: [...items.slice(0, at), item, ...items.slice(at)] }, label },
      setBy("coach", label),
    ]);
  }

  private async setComment(session: Session, itemId: string, wavBase64: string | null): Promise<void> {
    const { standing } = session.outcome;
    const film = standing?.film;
    if (film === undefined || !film.items.some(({ id }) => id === itemId)) throw new Failure("usage", "That part is no longer in the film.", "Choose one of its shots or cards.");
    const folder = await session.settle();
    let comment: { commentPath: string | null; commentS?: number } = { commentPath: null };
    if (wavBase64 !== null) {
      const file = commentFile(itemId, wavBase64);
      await mkdir(join(folder, dirname(file.path)), { recursive: true });
      await writeAtomic(join(folder, file.path), file.bytes);
      comment = { commentPath: file.path, commentS: await soundLengthS(join(folder, file.path), this.desk.surroundings.tools) };
    }
    const label = wavBase64 === null ? "remove a comment" : "record a comment";
    const items = film.items.map((item) => (item.id === itemId ? { ...withoutComment(item), ...comment } : item));
    await session.change([
      { part: "film", value: { ...film, items }, label },
      setBy("coach", label),
    ]);
  }

  private async lineUpWithSignals(): Promise<void> {
    const session = this.need();
    this.shown(session);
    const heard = await hearClips(session, this.desk);
    if (heard && this.session === session) await this.inTurn(() => session.lineUpAnew());
  }

  private state(): DeskState {
    const { session } = this;
    if (session === null) return { debrief: null, jobs: this.desk.jobs.views() };
    const { paths, shelf } = this.desk.surroundings;
    const { athleteDir } = session;
    const view = debriefView(session, {
      addresses: { ...this.addresses, columns: this.columnsAddress(session) },
      athleteId: athleteDir === null ? null : paths.idOf(athleteDir),
      pictures: (clip) => this.media.pictures(clip),
      lendSound: (path) => shelf.lendFile("media", path),
    });
    return { debrief: view, jobs: this.desk.jobs.views() };
  }

  private columnsAddress(session: Session): string {
    const { shelf } = this.desk.surroundings;
    const judged = session.outcome.standing?.judged ?? null;
    if (this.columns === null || this.columns.of !== (judged?.reading ?? null)) {
      if (this.columns?.before) shelf.takeBack(this.columns.before);
      const address = shelf.lendBytes((name) => (judged === null || name !== "" ? null : rideColumnsBytes(rideColumns(judged.ride, judged.reading), judged.ride.grid)));
      this.columns = { of: judged?.reading ?? null, address, before: this.columns?.address ?? null };
    }
    return this.columns.address;
  }

  /** Tells the window once for all that changes now. */
  private tellSoon(): void {
    if (this.telling) return;
    this.telling = true;
    setImmediate(() => {
      if (this.telling) this.tell();
    });
  }

  private tell(): void {
    this.telling = false;
    this.desk.surroundings.events.state(this.state());
  }
}

function withoutComment(item: FilmItem): FilmItem {
  const { commentS: _length, ...rest } = item;
  return rest;
}

function setBy(value: "coach" | "computed", label: string): Edit {
  return { part: "filmSetBy", value, label };
}

function freeItemId(items: readonly FilmItem[], wished: string): string {
  let id = wished;
  for (let n = 2; items.some((item) => item.id === id); n++) id = `${wished}-${n}`;
  return id;
}
