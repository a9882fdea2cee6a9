import type { FailureData } from "../../contract/failure.ts";
import { failureData } from "./failureData.ts";

/** An edit is on disk this long after the last one, ms … */
const QUIET_MS = 1000;
/** … and, while edits keep coming, at the latest this long after the first that is not. */
const LATEST_MS = 1500;

/** What could not be saved is tried again after this, ms, until it is. */
const AGAIN_MS = 5000;

/** Saves what it is told about soon after the last change; never two saves at once. */
export class Saver {
  state: "saved" | "saving" | FailureData = "saved";
  private readonly save: () => Promise<void>;
  private readonly changed: () => void;
  private stopped = false;
  private timer: NodeJS.Timeout | null = null;
  private firstMs: number | null = null;
  private running: Promise<void> = Promise.resolve();

  /** The last try failed: what is in memory is not on disk. */
  private unsaved = false;

  /** `save` writes what there is now; `changed` is called when `state` changes. */
  constructor(save: () => Promise<void>, changed: () => void) {
    this.save = save;
    this.changed = changed;
  }

  /** There is something new to save. */
  touch(): void {
    const nowMs = performance.now();
    this.firstMs ??= nowMs;
    this.state = "saving";
    if (this.timer !== null) clearTimeout(this.timer);
    this.timer = setTimeout(() => void this.now(), Math.max(0, Math.min(QUIET_MS, this.firstMs + LATEST_MS - nowMs)));
  }

  /** Saves at once what is not saved; resolves when it is on disk or has failed (see `state`). */
  now(): Promise<void> {
    if (this.timer !== null) clearTimeout(this.timer);
    this.timer = null;
    if (this.firstMs === null && !this.unsaved) return this.running;
    this.firstMs = null;
    this.running = this.running.then(async () => {
      try {
        await this.save();
        this.unsaved = false;
        if (this.firstMs === null) this.state = "saved";
      } catch (error) {
        this.state = failureData(error);
        this.unsaved = true;
        this.tryAgain();
      }
      this.changed();
    });
    return this.running;
  }

  /** Ends the tries; nothing is saved any more. */
  stop(): void {
    this.stopped = true;
    if (this.timer !== null) clearTimeout(this.timer);
    this.timer = null;
  }

  private tryAgain(): void {
    if (this.timer !== null || this.stopped) return;
    this.timer = setTimeout(() => void this.now(), AGAIN_MS);
    this.timer.unref();
  }
}
