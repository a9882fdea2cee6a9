import { readdir, rm, stat } from "node:fs/promises";
import { dirname, join } from "node:path";
import type { DebriefDocument, Edit, MediaRef } from "../../contract/debrief.ts";
import type { GatheredFile } from "../../contract/debriefApi.ts";
import { Failure } from "../../contract/failure.ts";
import type { Clip } from "../../contract/footage.ts";
import type { ClipSignals } from "../../contract/signals.ts";
import type { Athlete } from "../../debrief/athlete.ts";
import { DEBRIEF_FILE, lockDebrief, saveDebrief } from "../../debrief/debriefStore.edge.ts";
import { doEdits, editHistory, redoEdit, undoEdit, type EditHistory } from "../../debrief/editHistory.ts";
import { mediaRef } from "../../debrief/findMedia.edge.ts";
import { rideFigures } from "../../debrief/rideFigures.ts";
import { fingerprintFile } from "../../footage/fingerprint.edge.ts";
import { clipSignalsKept } from "../../journey/heardClips.ts";
import type { DebriefStanding } from "../../journey/standing.ts";
import { defaultFolder } from "../../journey/preparedDebrief.ts";
import { noteMadeHere } from "../../debrief/madeHere.edge.ts";
import { makeFolder } from "../../host/makeFolder.edge.ts";
import { clipsOf, NO_OUTCOME, recompute, type LoadedRide, type Outcome } from "./recompute.ts";
import type { RideReader } from "./rideReader.ts";
import { Saver } from "./saver.ts";

/**
 * The debrief on the desk: its document with undo, its files in memory, what follows from them, and where it is saved.
 * Nothing is written beside the user's files before the first edit (`touched`).
 */
export class Session {
  history: EditHistory;
  /** Grows with every change of the document. */
  edit = 0;
  outcome: Outcome = NO_OUTCOME;
  readOnly: string | null = null;
  readonly rides = new Map<string, LoadedRide>();
  readonly clips = new Map<string, Clip>();
  readonly signals = new Map<string, ClipSignals>();
  /** Files that could not be used, as they are listed. */
  readonly unusable: { readonly path: string; readonly view: GatheredFile }[] = [];
  missing: readonly MediaRef[] = [];
  athlete: Athlete | null = null;
  readonly notes: string[] = [];
  readonly saver: Saver;
  /** Folder of the athlete's file; null: no athlete. */
  athleteDir: string | null = null;
  private readonly reader: RideReader;
  private folderPath: string | null;
  private onDisk: boolean;
  private release: (() => Promise<void>) | null = null;

  /** `folder` null: not known before there is a ride. `onDisk`: it was opened from there. */
  constructor(
    document: DebriefDocument,
    place: { readonly folder: string | null; readonly onDisk: boolean },
    reader: RideReader,
    changed: () => void,
  ) {
    this.history = editHistory(document);
    this.folderPath = place.folder;
    this.onDisk = place.onDisk;
    this.reader = reader;
    this.saver = new Saver(() => this.write(), changed);
  }

  get document(): DebriefDocument {
    return this.history.document;
  }

  /** Where the debrief is or will be; null while there is no ride. */
  get folder(): string | null {
    return this.folderPath;
  }

  get isOnDisk(): boolean {
    return this.onDisk;
  }

  /** Takes the lock of a debrief that was opened, and clears away what a crash left. Says why it is read-only. */
  async lock(): Promise<void> {
    if (this.folderPath === null || this.readOnly !== null) return;
    const lock = await lockDebrief(this.folderPath);
    if (!lock.held) {
      const mine = lock.by.pid === process.pid;
      this.readOnly = mine
        ? "This folder cannot be written to"
        : `Another window has it open (process ${lock.by.pid} on ${lock.by.host})`;
      return;
    }
    this.release = lock.release;
    for (const name of await readdir(this.folderPath))
      if (/^\.debrief\.json\.\d+\.[0-9a-f]+\.part$/.test(name)) await rm(join(this.folderPath, name), { force: true });
  }

  /** Makes the folder and takes its lock, once. @throws Failure */
  async settle(): Promise<string> {
    this.mayEdit();
    if (this.folderPath === null)
      throw new Failure("usage", "There is no ride on the desk yet.", "Add a ride file first.");
    if (this.onDisk) return this.folderPath;
    await makeFolder(this.folderPath);
    await this.lock();
    this.mayEdit();
    await noteMadeHere(this.folderPath);
    this.onDisk = true;
    return this.folderPath;
  }

  mayEdit(): void {
    if (this.readOnly !== null)
      throw new Failure(
        "debrief-not-usable",
        `${this.readOnly}: this debrief may only be looked at.`,
        "Close it there, or work on a copy of its folder.",
      );
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
    await this.refresh({ ...this.outcome, lineup: null });
    this.edit += 1;
    if (this.onDisk && this.readOnly === null) this.saver.touch();
  }

  /** Reads everything anew from the files in memory. */
  async refresh(outcome: Outcome | null = null): Promise<void> {
    this.outcome = await recompute(
      this.document,
      outcome && { document: this.document, outcome },
      this,
      this,
      this.reader,
    );
  }

  /** How the debrief would stand with other values; nothing is changed. @throws Failure without a ride */
  async standingWith(changed: Partial<DebriefDocument>): Promise<DebriefStanding> {
    const before = { document: this.document, outcome: this.outcome };
    const { standing } = await recompute({ ...this.document, ...changed }, before, this, this, this.reader);
    if (standing === null) throw new Failure("usage", "There is no ride on the desk yet.", "Add a ride file first.");
    return standing;
  }

  /** A reference for a file, by its path from the folder of the debrief. */
  refer(path: string, id: string, kind: MediaRef["kind"]): Promise<MediaRef> {
    return mediaRef(this.folderPath ?? dirname(path), path, id, kind, fingerprintFile);
  }

  /** Chooses the folder beside a ride or in the athlete's folder, once: one that holds no other debrief. References made before are made anew by the caller. */
  async choosePlace(ridePath: string, athleteDir: string | null): Promise<void> {
    if (this.folderPath !== null) return;
    const wished = defaultFolder(ridePath, athleteDir);
    let folder = wished;
    for (
      let n = 2;
      await stat(join(folder, DEBRIEF_FILE)).then(
        () => true,
        () => false,
      );
      n++
    )
      folder = `${wished}-${n}`;
    if (folder !== wished) this.notes.push(`A debrief is there already (${wished}); this one goes to ${folder}.`);
    this.folderPath = folder;
  }

  /** Takes a clip into memory, with what was seen and heard of it before. */
  async takeClip(clip: Clip): Promise<void> {
    this.clips.set(clip.id, clip);
    const kept = await clipSignalsKept(clip);
    if (kept !== null) this.signals.set(clip.id, kept);
  }

  clipsInUse(): Clip[] {
    return clipsOf(this.document, this);
  }

  /** Saves what is not yet saved and gives the lock back. */
  async close(): Promise<void> {
    await this.saver.now();
    await this.release?.();
    this.release = null;
  }

  private async move(next: EditHistory): Promise<void> {
    if (next === this.history) return;
    const before = { document: this.document, outcome: this.outcome };
    const outcome = await recompute(next.document, before, this, this, this.reader);
    // A save may have ended while all was computed anew: its count stands.
    this.history = { ...next, document: { ...next.document, revision: this.document.revision } };
    this.outcome = outcome;
    this.edit += 1;
    if (this.onDisk && this.readOnly === null) this.saver.touch();
  }

  private async write(): Promise<void> {
    if (this.folderPath === null) return;
    const { document } = this;
    const { judged, standing } = this.outcome;
    const figures = judged === null ? document.figures : rideFigures(judged.ride, judged.plan, judged.reading);
    // The coach's film is saved as the coach left it: what a lesson leaves out is not lost.
    const film =
      document.filmSetBy === "coach" && document.film !== null ? document.film : (standing?.film ?? document.film);
    const { revision } = await saveDebrief(this.folderPath, { ...document, film, figures });
    // Only the counter: the film of the document stays the coach's or none.
    this.history = { ...this.history, document: { ...this.history.document, revision } };
  }
}
