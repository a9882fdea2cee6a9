import { readFile } from "node:fs/promises";
import { basename, dirname } from "node:path";
import type { DebriefApi } from "../../contract/debriefApi.ts";
import { Failure } from "../../contract/failure.ts";
import type { Clip } from "../../contract/footage.ts";
import type { PlaceName } from "../../contract/keptPlace.ts";
import type { RideInstant } from "../../contract/lineup.ts";
import { leavesFolder } from "../../debrief/mediaPath.ts";
import { parseEdit } from "../../debrief/parseEdit.ts";
import { athletePathFrom } from "../../debrief/athleteFolder.edge.ts";
import type { Desk, MakeDesk, Surroundings } from "../surroundings.ts";
import { athleteFolderOf, athletesDesk } from "./athletesDesk.ts";
import { ClipMedia } from "./clipMedia.ts";
import type { DeskContext } from "./deskContext.ts";
import { DeskTeller } from "./deskTeller.ts";
import { chooseMoment, coachFilmEdits, pickFilm, setComment, speakAt } from "./filmEdits.ts";
import { showBeside } from "./besideEdits.ts";
import { gatherFiles, removeFromDesk } from "./gatherFiles.ts";
import { HandOverDesk } from "./handOverDesk.ts";
import { JobQueue } from "./jobQueue.ts";
import { hearClips } from "./hearClips.ts";
import { cacheBytes, MEDIA_CACHE_LIMIT_BYTES } from "../../host/mediaCache.edge.ts";
import { RidesApart } from "../../journey/apart/ridesApart.edge.ts";
import { sharpInstants } from "../../journey/clockFrames.ts";
import { earlierPlan, earlierPlans } from "../../journey/earlierPlans.ts";
import { debriefsElsewhere, debriefsOfAthletes } from "../../journey/listedDebriefs.ts";
import { emptyDebrief } from "../../journey/debrief.ts";
import { hostWith } from "../../journey/host.ts";
import { rideTimeOf } from "../../journey/linedUpClips.ts";
import { folderOfDebrief } from "../../journey/openDebrief.ts";
import { lookForMissing, openSession, placesBelow } from "./openSession.ts";
import { exampleFiles, openBegunExample, putExample } from "./openExample.ts";
import { batchEntries } from "./batchEntries.ts";
import { recentDebriefs } from "./recentDebriefs.ts";
import { Session } from "./session.ts";
import { settleOnDesk } from "./settleOnDesk.ts";
import { useAthlete } from "./useAthlete.ts";
import { allRemembered, knownFolders, remember, rememberPlace } from "../../host/knownFolders.edge.ts";
import { logFolder } from "../../host/log.edge.ts";
import { projectFile } from "../../host/projectFile.edge.ts";

/** The desk of one window: one debrief at a time, its jobs, and a handler for every call. */
export const makeDesk: MakeDesk = (surroundings) => new DeskOfOne(surroundings);

class DeskOfOne implements Desk {
  readonly api: DebriefApi;
  private readonly desk: DeskContext;
  private readonly media: ClipMedia;
  private readonly handOvers: HandOverDesk;
  private readonly teller: DeskTeller;
  private session: Session | null = null;
  private turn: Promise<unknown> = Promise.resolve();
  private sharpening = new AbortController();

  constructor(surroundings: Surroundings) {
    const { events } = surroundings;
    const changed = (): void => this.teller.tellSoon();
    const rides = new RidesApart();
    this.desk = {
      surroundings,
      host: hostWith(surroundings, rides),
      rides,
      jobs: new JobQueue({ changed, progressed: (jobId, progress) => events.progress(jobId, progress) }),
      changed,
    };
    this.media = new ClipMedia(this.desk);
    this.handOvers = new HandOverDesk(this.desk);
    this.teller = new DeskTeller(surroundings, () => ({
      session: this.session,
      jobs: this.desk.jobs.views(),
      pictures: (clip) => this.media.pictures(clip),
    }));
    this.api = this.calls();
  }

  async close(): Promise<void> {
    await this.desk.jobs.cancelAll();
    await this.turn.catch(() => undefined);
    try {
      await this.session?.close();
    } catch (error) {
      // The program ends all the same: the copy stands, the lock goes, and whoever started it is told.
      await this.session?.close();
      throw error;
    } finally {
      await allRemembered();
      await this.desk.rides.close();
    }
  }

  private calls(): DebriefApi {
    const { surroundings, jobs } = this.desk;
    const { paths, picker } = surroundings;
    const athletes = athletesDesk(this.desk, {
      saved: async (folder, athlete) => {
        if (this.session?.rider.athleteDir !== folder) return;
        this.session.rider = { athlete, athleteDir: folder };
        await this.session.refresh();
        this.teller.tellSoon();
      },
      gone: async (folder) => {
        if (typeof this.session?.folder === "string" && !leavesFolder(athletePathFrom(folder, this.session.folder)))
          await this.put(null);
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
        logFolder: logFolder(),
        cache: { path: this.desk.host.cacheDir, bytes: await cacheBytes(), limitBytes: MEDIA_CACHE_LIMIT_BYTES },
      }),
      packageNotices: () => readFile(projectFile("dist", "packages.txt"), "utf8"),
      state: () => Promise.resolve(this.teller.state()),
      recent: () => recentDebriefs(paths),
      batch: (id) => batchEntries(paths.pathOf(id), paths),

      addFiles: (ids) =>
        this.inTurn(async () => {
          const files = ids.map((id) => paths.pathOf(id));
          const session = await this.begun();
          session.mayEdit();
          await gatherFiles(session, files, this.desk);
        }),
      earlierPlans: async () => {
        const { rider, folder } = this.need();
        const { athleteDir } = rider;
        const known = athleteDir === null ? [] : await debriefsOfAthletes((await knownFolders()).debriefs);
        const elsewhere = athleteDir === null ? [] : debriefsElsewhere(athleteDir, known);
        return (await earlierPlans(athleteDir, folder, elsewhere)).map(({ folder: of, ...plan }) => ({
          id: paths.idOf(of),
          ...plan,
        }));
      },
      takePlan: (id) =>
        this.withSession(async (session) => {
          const { plan, dateText } = await earlierPlan(paths.pathOf(id), session.document.plan);
          await session.plan(plan, dateText === null ? "plan of an earlier ride" : `plan of ${dateText}`);
        }),
      removeFile: (mediaId) => this.withSession((session) => removeFromDesk(session, mediaId)),
      showRide: (mediaId) =>
        this.withSession(async (session) => {
          const ride = session.rides.get(mediaId);
          if (ride === undefined || !session.document.media.some(({ id }) => id === mediaId))
            throw new Failure("desk-no-such-ride", {});
          await session.arrange([{ part: "shownRideId", value: mediaId, label: `show ${ride.ride.fileName}` }]);
        }),
      beginDebrief: (athlete) =>
        this.inTurn(() => useAthlete(athleteFolderOf(paths.pathOf(athlete)), () => this.put(this.blank()))),
      useAthlete: (id) =>
        this.inTurn(() => useAthlete(id === null ? null : athleteFolderOf(paths.pathOf(id)), () => this.begun())),
      openDebrief: (id, trustPaths) =>
        this.inTurn(async () => {
          const path = paths.pathOf(id);
          // Opened again, it must let go of itself first; another that can't be opened leaves the desk as it is.
          if (this.session?.folder === (await folderOfDebrief(path))) await this.put(null);
          const session = await this.put(await openSession(path, trustPaths, this.desk));
          if (session.folder !== null) await remember("debriefs", session.folder);
          const { athlete, athleteDir } = session.rider;
          if (athlete !== null && athleteDir !== null) await remember("athletes", athleteDir);
        }),
      lookForMedia: (folder) =>
        this.withSession(async (session) => {
          const place = paths.pathOf(folder);
          const found = await lookForMissing(session, await placesBelow(place), this.desk);
          if (found === 0) throw new Failure("media-still-missing", { place });
          await session.refresh();
        }),
      closeDebrief: () => this.inTurn(async () => void (await this.put(null))),
      openExample: () => this.openExample(),

      lineUp: (withSignals) =>
        withSignals ? this.lineUpWithSignals() : this.withSession((session) => session.lineUpAnew()),
      parseRideTime: (text) => Promise.resolve().then(() => this.rideTimeOf(text)),
      sharpFrames: async (clipId, mediaS) => {
        const clip = this.clipNamed(clipId);
        // Who asks again no longer waits for what was asked before.
        this.sharpening.abort();
        this.sharpening = new AbortController();
        return sharpInstants(clip, mediaS, this.desk.host, this.sharpening.signal);
      },

      edit: (edit, madeOn) =>
        this.change(madeOn, async (session) => {
          const checked = parseEdit(edit, session.document);
          await session.change(
            checked.part === "film" ? coachFilmEdits(session, checked.value, checked.label) : [checked],
          );
        }),
      settleAsked: (asked, to, madeOn) => this.change(madeOn, (session) => settleOnDesk(session, asked, to)),
      undo: () => this.withSession((session) => session.undo()),
      redo: () => this.withSession((session) => session.redo()),
      pickFilm: (lengthS) => this.withSession((session) => pickFilm(session, lengthS)),
      chooseMoment: (choices, moment, madeOn) =>
        this.change(madeOn, async (session) => {
          const checked = parseEdit(choices, session.document);
          if (checked.part !== "choices") throw new Failure("desk-no-such-moment", {});
          await chooseMoment(session, checked, moment);
        }),
      showBeside: (ask, madeOn) => this.change(madeOn, (session) => showBeside(session, ask)),
      saveNow: () => this.withSession((session) => session.saver.now()),
      keepPlace: (folder, name, text) => this.keepPlace(folder, name, text),

      makeProxy: async (clipId) => {
        const clip = this.clipNamed(clipId);
        const { failure } = await this.media.whole(clip);
        if (failure !== null) throw Failure.from(failure);
      },
      setComment: (itemId, wavBase64) =>
        this.withSession((session) => setComment(session, itemId, wavBase64, this.desk.host)),

      speakAt: (rideS, wavBase64) => this.withSession((session) => speakAt(session, rideS, wavBase64, this.desk.host)),

      planHandOver: (choices) => this.handOvers.plan(this.need(), choices),
      handOverPage: (choices, pictures) => this.handOvers.page(this.need(), choices, pictures),
      handOver: async (choices) => ({
        jobId: await this.withSession((session) => this.handOvers.start(session, choices)),
      }),
      cancelJob: (jobId) => jobs.cancel(jobId),
      openFolder: (id) => {
        const path = paths.pathOf(id);
        return surroundings.openFolder(/\.[a-z0-9]{2,5}$/i.test(basename(path)) ? dirname(path) : path);
      },
    };
  }

  /** A place in a debrief that has left the desk meanwhile is nobody's. */
  private keepPlace(folder: string, name: PlaceName, text: string | null): Promise<void> {
    const { session } = this;
    if (session === null || session.folder !== folder || folder === "") return Promise.resolve();
    const { [name]: _before, ...rest } = session.place;
    session.place = text === null ? rest : { ...rest, [name]: text };
    void rememberPlace(folder, session.place);
    return Promise.resolve();
  }

  /** As typed: a ride time, or a whole anchor. */
  private rideTimeOf(text: string): RideInstant {
    const session = this.need();
    const { ride } = this.shown(session);
    return rideTimeOf(text, session.clipsInUse(), ride);
  }

  /** The debrief on the desk, or a new one. */
  private async begun(): Promise<Session> {
    return this.session ?? (await this.put(this.blank()));
  }

  private blank(): Session {
    return new Session(emptyDebrief(), false, this.desk.host, this.desk.changed);
  }

  /** Another debrief on the desk, or none; the one before is saved and let go. */
  private async put<T extends Session | null>(session: T): Promise<T> {
    await this.desk.jobs.cancelAll(["gather", "lineup", "signals", "proxies", "filmstrip"]);
    await this.session?.close();
    this.media.forget();
    await this.desk.rides.keep([...(session?.rides.values() ?? [])].map(({ path }) => path));
    this.session = session;
    return session;
  }

  private need(): Session {
    if (this.session === null) throw new Failure("desk-without-debrief", {});
    return this.session;
  }

  private clipNamed(clipId: string): Clip {
    const clip = this.need().clips.get(clipId);
    if (clip === undefined) throw new Failure("desk-no-such-clip", {});
    return clip;
  }

  private shown(session: Session) {
    const shown = session.rides.get(session.document.shownRideId);
    if (shown === undefined) throw new Failure("desk-without-ride", {});
    return shown;
  }

  private withSession<T>(run: (session: Session) => Promise<T>): Promise<T> {
    return this.inTurn(() => run(this.need()));
  }

  /** A person's change of the debrief as the window saw it. @throws Failure `usage` where it is not so any more */
  private change(madeOn: number, make: (session: Session) => Promise<void>): Promise<void> {
    return this.withSession(async (session) => {
      if (madeOn !== session.edit) throw new Failure("desk-moved-on", {});
      await make(session);
      if (session.folder !== null) await remember("debriefs", session.folder);
    });
  }

  /** Calls that change the desk are done one after the other, and the window is told before each answers. */
  private inTurn<T>(run: () => Promise<T>): Promise<T> {
    const mine = this.turn
      .catch(() => undefined)
      .then(async () => {
        try {
          return await run();
        } finally {
          if (this.session !== null) {
            this.media.follow(this.session);
          }
          this.teller.tell();
        }
      });
    this.turn = mine;
    return mine;
  }

  /** Made beside whatever else is done; where a debrief has come onto the desk meanwhile, that stays. */
  private async openExample(): Promise<void> {
    const example = await exampleFiles(this.desk);
    if (example === null) return;
    await this.inTurn(async () => {
      if (this.session !== null) return;
      const begun = await openBegunExample(example, this.desk);
      if (begun !== null) await this.put(begun);
      else await putExample(await this.begun(), example, this.desk);
    });
  }

  private async lineUpWithSignals(): Promise<void> {
    const session = this.need();
    this.shown(session);
    const heard = await hearClips(session, this.desk);
    if (heard && this.session === session) await this.inTurn(() => session.lineUpAnew());
  }
}
