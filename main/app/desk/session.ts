import { dirname, resolve } from "node:path";
import type { DebriefDocument, Edit, MediaRef } from "../../contract/debrief.ts";
import type { GatheredFile } from "../../contract/debriefApi.ts";
import type { KeptPlace } from "../../contract/keptPlace.ts";
import type { Plan } from "../../contract/plan.ts";
import { Failure } from "../../contract/failure.ts";
import type { Clip } from "../../contract/footage.ts";
import { doEdits, editHistory, redoEdit, undoEdit, type EditHistory } from "../../debrief/editHistory.ts";
import {
  clipsOf,
  type Debrief,
  type DebriefStanding,
  type LoadedRide,
  type Media,
  type Rider,
  unreadDebrief,
} from "../../journey/debrief.ts";
import { type GatheredClip, withClip, withRide } from "../../journey/gather.ts";
import type { Host } from "../../journey/host.ts";
import {
  defaultFolder,
  freeFolder,
  lockFolder,
  makeDebriefFolder,
  referTo,
  saveMade,
} from "../../journey/savedDebrief.ts";
import { athleteDirOf, athleteOf } from "../../journey/openDebrief.ts";
import { stand } from "../../journey/stand.ts";
import { noticeOf } from "./failureData.ts";
import { Saver } from "./saver.ts";
import { unsavedFailure } from "../../journey/unsavedCopy.ts";
import type { ReadOnlyReason } from "../../contract/notices/debrief.ts";
import { type Notice, note } from "../../contract/notice.ts";

/**
 * The debrief on the desk: its document with undo, its files in memory, what follows from them, and where it is saved.
 * Nothing is written beside the user's files before the first edit (`touched`).
 */
export class Session {
  history: EditHistory;
  /** Grows with every change of the document. */
  edit = 0;
  /** As it was last made to stand. */
  debrief: Debrief;
  /** Its files in memory and its athlete by now: what follows from them is made by the next change. */
  media: Media;
  rider: Rider;
  readOnly: ReadOnlyReason | null = null;
  /** Files that could not be used, as they are listed. */
  readonly unusable: { readonly path: string; readonly view: GatheredFile }[] = [];
  missing: readonly MediaRef[] = [];
  readonly notes: Notice[] = [];
  /** Where it was left; not part of the debrief. */
  place: KeptPlace = {};
  readonly saver: Saver;
  private readonly host: Host;
  private folderPath: string | null;
  private onDisk: boolean;
  /** The person was told that what is unsaved up to this edit is lost with the next closing. */
  private leftAtEdit: number | null = null;
  private release: (() => Promise<void>) | null = null;

  /** `debrief` as gathered; its folder is not known before there is a ride. `onDisk`: it was opened from there. */
  constructor(debrief: Debrief, onDisk: boolean, host: Host, changed: () => void) {
    this.history = editHistory(debrief.document);
    this.debrief = unreadDebrief(debrief.document, debrief.folder);
    this.media = debrief.media;
    this.rider = debrief.rider;
    this.folderPath = debrief.folder;
    this.onDisk = onDisk;
    this.host = host;
    this.saver = new Saver(() => this.write(), changed);
  }

  get document(): DebriefDocument {
    return this.history.document;
  }

  get rides(): ReadonlyMap<string, LoadedRide> {
    return this.media.rides;
  }

  get clips(): ReadonlyMap<string, Clip> {
    return this.media.clips;
  }

  /** Where the debrief is or will be; null while there is no ride. */
  get folder(): string | null {
    return this.folderPath;
  }

  get isOnDisk(): boolean {
    return this.onDisk;
  }

  /** Takes the lock of a debrief that was opened. Says why it is read-only. */
  async lock(): Promise<void> {
    if (this.folderPath === null || this.readOnly !== null) return;
    const lock = await lockFolder(this.folderPath);
    if (!lock.held) {
      const mine = lock.by.pid === process.pid;
      this.readOnly = mine
        ? { kind: "folder not writable" }
        : { kind: "open elsewhere", pid: lock.by.pid, host: lock.by.host };
      return;
    }
    this.release = lock.release;
  }

  /** Makes the folder and takes its lock, once. @throws Failure */
  async settle(): Promise<string> {
    this.mayEdit();
    if (this.folderPath === null) throw new Failure("desk-without-ride", {});
    if (this.onDisk) return this.folderPath;
    await makeDebriefFolder(this.folderPath);
    await this.lock();
    this.mayEdit();
    this.onDisk = true;
    return this.folderPath;
  }

  mayEdit(): void {
    if (this.readOnly !== null) throw new Failure("debrief-read-only", { reason: this.readOnly });
  }

  /** A person's edits, made as one and saved soon. */
  async change(edits: readonly Edit[]): Promise<void> {
    await this.settle();
    await this.move(doEdits(this.history, edits));
  }

  /** Files put on or off the desk: can be undone, but makes no folder by itself. */
  async arrange(edits: readonly Edit[]): Promise<void> {
    this.mayEdit();
    await this.move(doEdits(this.history, edits));
  }

  /** Another plan: can be undone once there is a ride, and makes no folder by itself. */
  async plan(plan: Plan, label: string): Promise<void> {
    if (this.folderPath === null) await this.note({ plan });
    else await this.arrange([{ part: "plan", value: plan, label }]);
  }

  /** What the program found out by itself: not to be undone. */
  async note(changed: Partial<DebriefDocument>): Promise<void> {
    const with_ = (document: DebriefDocument): DebriefDocument => ({ ...document, ...changed });
    await this.move({ ...this.history, document: with_(this.history.document) });
  }

  async undo(): Promise<void> {
    this.mayEdit();
    await this.move(undoEdit(this.history));
  }

  async redo(): Promise<void> {
    this.mayEdit();
    await this.move(redoEdit(this.history));
  }

  /** Places the clips anew from all that is known of them by now; the film follows. */
  async lineUpAnew(): Promise<void> {
    await this.refresh();
    this.edit += 1;
    if (this.onDisk && this.readOnly === null) this.saver.touch();
  }

  /** Makes what follows from the files in memory and the athlete as they are by now. */
  async refresh(): Promise<void> {
    this.debrief = await this.stood(this.document);
  }

  private stood(document: DebriefDocument): Promise<Debrief> {
    const { folder, media, rider } = this;
    return stand({ ...this.debrief, document, folder, media, rider }, this.host, { before: this.debrief });
  }

  /** How the debrief would stand with other values; nothing is changed. @throws Failure without a ride */
  async standingWith(changed: Partial<DebriefDocument>): Promise<DebriefStanding> {
    const { standing } = await this.stood({ ...this.document, ...changed });
    if (standing === null) throw new Failure("desk-without-ride", {});
    return standing;
  }

  /** A reference for a file, by its path from the folder of the debrief. */
  refer(path: string, id: string, kind: MediaRef["kind"]): Promise<MediaRef> {
    return referTo(this.folderPath ?? dirname(path), path, id, kind);
  }

  /** Chooses the folder beside a ride or in the athlete's folder, once: one that holds no other debrief. References made before are made anew by the caller. */
  async choosePlace(ridePath: string, athleteDir: string | null): Promise<void> {
    if (this.folderPath !== null) return;
    const wished = defaultFolder(ridePath, athleteDir);
    const folder = await freeFolder(ridePath, athleteDir);
    if (folder !== wished) this.notes.push(note("debrief-there-already", { wished, folder }));
    this.folderPath = folder;
  }

  takeRide(id: string, ride: LoadedRide): void {
    this.media = withRide(this.media, id, ride);
  }

  takeClip(id: string, clip: GatheredClip): void {
    this.media = withClip(this.media, id, clip);
  }

  clipsInUse(): Clip[] {
    return clipsOf({ document: this.document, media: this.media });
  }

  /**
   * Saves what is not yet saved and gives the lock back. @throws Failure `debrief-not-saved`, once, where it can't be: a
   * copy was then kept where it could, and the debrief stays open for another try
   */
  async close(): Promise<void> {
    await this.saver.now();
    if (typeof this.saver.state === "object" && this.leftAtEdit !== this.edit) {
      this.leftAtEdit = this.edit;
      throw await unsavedFailure(this.document, this.folderPath ?? "", this.saver.state.code === "disk-full");
    }
    this.saver.stop();
    await this.release?.();
    this.release = null;
  }

  private async move(next: EditHistory): Promise<void> {
    if (next === this.history) return;
    await this.riderFollows(next.document);
    const debrief = await this.stood(next.document);
    // A save may have ended while all was computed anew: its count stands.
    this.history = { ...next, document: { ...next.document, revision: this.document.revision } };
    this.debrief = debrief;
    this.edit += 1;
    if (this.onDisk && this.readOnly === null) this.saver.touch();
  }

  /** Whose debrief it is stands in the document: undone there, it is undone here. */
  private async riderFollows(document: DebriefDocument): Promise<void> {
    const { folderPath } = this;
    if (folderPath === null || document.athletePath === this.document.athletePath) return;
    const athleteDir = athleteDirOf(folderPath, document);
    if (athleteDir === null) this.rider = { athlete: null, athleteDir: null };
    else if (this.rider.athleteDir === null || resolve(athleteDir) !== resolve(this.rider.athleteDir)) {
      const athlete = await athleteOf(folderPath, document, true).catch((error: unknown) => {
        this.notes.push(noticeOf(error));
        return null;
      });
      this.rider = { athlete, athleteDir };
    }
  }

  private async write(): Promise<void> {
    if (this.folderPath === null) return;
    const { revision } = await saveMade({ ...this.debrief, document: this.document }, this.folderPath);
    // Only the counter: the film of the document stays the coach's or none.
    this.history = { ...this.history, document: { ...this.history.document, revision } };
  }
}
