import type { ClipView } from "../../main/contract/debriefApi.ts";
import type { FrameStarts } from "../../main/contract/columnBytes.ts";
import { frameAt, frameNearest, middleOf } from "./frameTimes.ts";
import { type PictureSource, pictureSource } from "./pictureSource.ts";
import { EvenGaps, SteadyBeat } from "./steadySteps.ts";

/** `none`: no file here shows this clip; small pictures of it have to be made first. */
export type PictureState = "loading" | "shown" | "none";

/** What a clip's video tells. */
export interface ClipVideoEvents {
  /** A frame stands on the screen, or (picture `none`) would stand there. */
  readonly onFrame: (frame: number) => void;
  readonly onState: (state: PictureState) => void;
  /** Playing went past the last frame. */
  readonly onEnd: () => void;
}

/** How long after a seek the browser may be silent where the frame was on screen already, ms. */
const SAME_FRAME_MS = 120;
/** And where it was not: on a busy machine the picture comes later than the word that the seek has ended, ms. */
const LATE_FRAME_MS = 2000;
/** Sound is played up to this speed; faster it is noise. */
const MOST_SOUND_SPEED = 2;
/** The shortest beat of single frames, ms: faster ones are seen no better, and a busy machine does not hold them. */
const LEAST_BEAT_MS = 80;

/**
 * One clip on one video element. One seek is under way at a time and the latest wish wins; every seek aims at the middle
 * of a frame; what is told is the frame that the browser says is on the screen. Where a browser that plays fast leaves
 * out frames unevenly, every nth frame is gone to instead, on a steady beat.
 */
export class ClipVideo {
  private readonly video: HTMLVideoElement;
  private readonly events: ClipVideoEvents;
  private clip: ClipView | null = null;
  private starts: FrameStarts | null = null;
  private source: PictureSource | null = null;
  private ready = false;
  private target: number | null = null;
  private next: number | null = null;
  private shown = 0;
  /** Address of the file whose picture was told last. */
  private shownOf: string | null = null;
  private speed: number | null = null;
  private sound = true;
  private callback = 0;
  /** While the browser plays it fast. */
  private gaps: EvenGaps | null = null;
  /** Once that was uneven, for as long as the same clip is played at the same speed. */
  private beat: SteadyBeat | null = null;
  private beatSpeed: number | null = null;
  private stepTimer: ReturnType<typeof setTimeout> | undefined;
  /** When the step that is under way was due, and when it was begun; null: none was. */
  private stepDueMs = 0;
  private stepBegunMs: number | null = null;
  private timer: ReturnType<typeof setTimeout> | undefined;
  private readonly ends = new AbortController();

  constructor(video: HTMLVideoElement, events: ClipVideoEvents) {
    this.video = video;
    this.events = events;
    const on = (name: keyof HTMLMediaElementEventMap, run: () => void) =>
      video.addEventListener(name, run, { signal: this.ends.signal });
    on("loadeddata", () => this.loaded());
    on("error", () => this.source !== null && this.unshown());
    on("seeked", () => this.seeked());
    on("ended", () => this.sourceEnded());
    this.listen();
  }

  /** Frames of the clip that is shown; 0 without one. */
  get frames(): number {
    return this.starts === null ? 0 : this.starts.length - 1;
  }

  get frame(): number {
    return this.next ?? this.target ?? this.shown;
  }

  get playing(): boolean {
    return this.speed !== null;
  }

  /** The clip to show; the same clip again where only its proxies have changed. */
  setClip(clip: ClipView, starts: FrameStarts): void {
    const other = clip.id !== this.clip?.id;
    this.clip = clip;
    this.starts = starts;
    if (other) {
      this.pause();
      this.beat = null;
      this.target = null;
      this.next = null;
      this.shown = 0;
    } else if (this.source === null && pictureSource(clip, starts[this.frame]!) !== null) this.seek(this.frame);
  }

  /** Goes to a frame; while another seek is under way the latest wish waits for it. */
  seek(frame: number): void {
    if (this.starts === null) return;
    clearTimeout(this.stepTimer);
    this.stepBegunMs = null;
    const wished = Math.max(0, Math.min(this.frames - 1, frame));
    if (this.target !== null) this.next = wished;
    else this.start(wished);
  }

  seekTime(mediaS: number): void {
    if (this.starts !== null) this.seek(frameAt(this.starts, mediaS));
  }

  play(speed: number): void {
    if (speed !== this.beatSpeed) this.beat = null;
    this.speed = speed;
    if (this.ready && this.target === null) this.run();
  }

  pause(): void {
    clearTimeout(this.stepTimer);
    this.speed = null;
    this.video.pause();
  }

  setSound(on: boolean): void {
    this.sound = on;
    this.video.muted = !on || (this.speed ?? 1) > MOST_SOUND_SPEED;
  }

  dispose(): void {
    this.ends.abort();
    clearTimeout(this.timer);
    clearTimeout(this.stepTimer);
    this.video.cancelVideoFrameCallback(this.callback);
    this.video.pause();
    this.video.removeAttribute("src");
    this.video.load();
  }

  private start(frame: number): void {
    this.target = frame;
    const source = pictureSource(this.clip!, this.starts![frame]!);
    if (source === null) return this.unshown();
    if (source.address !== this.source?.address) {
      this.source = source;
      this.ready = false;
      this.events.onState("loading");
      this.video.src = source.address;
      return;
    }
    this.source = source;
    if (this.ready) this.aim();
  }

  private loaded(): void {
    if (this.source === null) return;
    // A picture that this browser can't decode may still play its sound, with no error.
    if (this.video.videoWidth === 0) return this.unshown();
    this.ready = true;
    if (this.target !== null) this.aim();
  }

  private aim(): void {
    this.video.pause();
    this.video.currentTime = middleOf(this.starts!, this.target!) - this.source!.startS;
  }

  /**
   * While it plays the browser tells of frames late where the machine is busy: by then another one is on the screen, and
   * that one is told.
   */
  private listen(): void {
    this.callback = this.video.requestVideoFrameCallback((_now, { mediaTime }) => {
      this.listen();
      if (this.source === null || this.starts === null || !this.ready) return;
      const onScreenS = this.speed === null ? mediaTime : (currentS(this.video) ?? mediaTime);
      const frame = frameNearest(this.starts, onScreenS + this.source.startS);
      // While a seek is under way only its own frame counts; an older one may still come by.
      if (this.target !== null && frame !== this.target) return;
      const plays = this.target === null && this.speed !== null && this.beat === null;
      this.arrived(frame);
      if (plays && this.gaps?.uneven(performance.now(), frame) === true) this.stepInstead();
    });
  }

  /** The frame may have stood there before the seek; then no new one is told. */
  private seeked(): void {
    clearTimeout(this.timer);
    const { target } = this;
    if (target === null) return;
    const stood = target === this.shown && this.shownOf === this.source?.address;
    this.timer = setTimeout(
      () => this.target === target && !this.video.seeking && this.arrived(target),
      stood ? SAME_FRAME_MS : LATE_FRAME_MS,
    );
  }

  private arrived(frame: number): void {
    this.shown = frame;
    this.shownOf = this.source?.address ?? null;
    const seeking = this.target !== null;
    this.target = null;
    this.events.onState("shown");
    this.events.onFrame(frame);
    if (!seeking) return;
    const { next } = this;
    this.next = null;
    if (next !== null && next !== frame) this.start(next);
    else if (this.speed !== null) this.run();
  }

  private run(): void {
    if (this.beat !== null) return this.stepOn(this.beat);
    this.gaps = (this.speed ?? 1) > MOST_SOUND_SPEED ? new EvenGaps(this.framesAMs()) : null;
    this.video.playbackRate = Math.max(0.0625, Math.min(16, this.speed ?? 1));
    this.setSound(this.sound);
    void this.video.play().catch(() => undefined);
  }

  /** Frames that go by in a millisecond at the speed that was asked for. */
  private framesAMs(): number {
    const starts = this.starts!;
    return (((this.speed ?? 1) * this.frames) / (starts[this.frames]! - starts[0]!)) * 1e-3;
  }

  private stepInstead(): void {
    this.video.pause();
    this.gaps = null;
    this.beat = new SteadyBeat(this.framesAMs(), LEAST_BEAT_MS);
    this.beatSpeed = this.speed;
    this.stepBegunMs = null;
    this.stepDueMs = performance.now();
    this.stepOn(this.beat);
  }

  /** Goes to the next frame of the beat once it is due; a frame that came late moves the beat on, and lengthens it. */
  private stepOn(beat: SteadyBeat): void {
    const nowMs = performance.now();
    if (this.stepBegunMs === null) this.stepDueMs = nowMs;
    else beat.took(nowMs - this.stepBegunMs);
    const dueMs = Math.max(nowMs, this.stepDueMs + beat.beatMs);
    clearTimeout(this.stepTimer);
    this.stepTimer = setTimeout(() => {
      if (this.speed === null || this.starts === null || this.target !== null) return;
      if (this.shown >= this.frames - 1) {
        this.pause();
        return this.events.onEnd();
      }
      this.stepDueMs = dueMs;
      this.stepBegunMs = performance.now();
      this.start(Math.min(this.frames - 1, this.shown + beat.stride));
    }, dueMs - nowMs);
  }

  private unshown(): void {
    this.source = null;
    this.ready = false;
    this.video.removeAttribute("src");
    const frame = this.next ?? this.target ?? this.shown;
    this.next = null;
    this.target = null;
    this.shown = frame;
    this.speed = null;
    this.events.onState("none");
    this.events.onFrame(frame);
  }

  /** A proxy has ended; the clip may go on. A late word of an end that was left since says nothing. */
  private sourceEnded(): void {
    if (!this.video.ended || this.speed === null || this.source === null || this.starts === null) return;
    const following = frameAt(this.starts, this.source.endS);
    if (following > this.shown && following < this.frames && this.source.endS < this.starts[this.frames]! - 1e-6)
      this.start(following);
    else {
      this.pause();
      this.events.onEnd();
    }
  }
}

/** Media time of the frame that is on the screen now, s; null where that can't be read. */
function currentS(video: HTMLVideoElement): number | null {
  try {
    const frame = new VideoFrame(video);
    const { timestamp } = frame;
    frame.close();
    return timestamp / 1e6;
  } catch {
    return null;
  }
}
