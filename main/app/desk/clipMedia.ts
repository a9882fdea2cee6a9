import type { ClipView, JobTitle, JobView } from "../../contract/debriefApi.ts";
import type { Clip } from "../../contract/footage.ts";
import { Cancelled, type JobContext } from "../../contract/job.ts";
import { pruneMediaCache } from "../../host/mediaCache.edge.ts";
import { filmstripFolder, filmstripStepS, makeFilmstrip, proxyOf } from "../../journey/clipPictures.ts";
import type { DeskContext } from "./deskContext.ts";
import type { ClipPictures } from "./debriefView.ts";
import { pieceOf, proxyPlan, spanOf, type ProxyPiece } from "./proxyPlan.ts";
import type { Session } from "./session.ts";

/** Codecs that a browser's video element plays on every system; others wait for a proxy. */
const PLAYABLE = new Set(["h264", "vp8", "vp9", "av1"]);

interface Strip {
  readonly address: string;
  readonly count: number;
}

/** The pictures of clips for the window: proxies, small pictures, and where the clips themselves play from. */
export class ClipMedia {
  private readonly desk: DeskContext;
  private readonly spans = new Map<string, ClipView["proxySpans"][number][]>();
  private readonly strips = new Map<string, Strip>();
  private readonly inUse = new Set<string>();
  /** The camera's own small clip of each clip that has one that plays; it is shown as it is. */
  private companions: ReadonlyMap<string, Clip> = new Map();
  private planned = "";
  private job: string | null = null;

  constructor(desk: DeskContext) {
    this.desk = desk;
  }

  /** What the window can see of a clip by now. */
  pictures(clip: Clip): ClipPictures {
    const { shelf } = this.desk.surroundings;
    const proxySpans = this.spans.get(clip.fingerprint) ?? [];
    const whole = proxySpans.find(({ startS, endS }) => startS <= firstS(clip) && endS >= clip.durationS - 1e-6);
    const companion = this.companions.get(clip.id) ?? null;
    const original =
      companion !== null
        ? shelf.lendFile("media", companion.path)
        : plays(clip)
          ? shelf.lendFile("media", clip.path)
          : null;
    const strip = this.strips.get(clip.fingerprint);
    return {
      picture:
        whole !== undefined
          ? "proxy"
          : companion !== null
            ? "companion"
            : original !== null
              ? "original"
              : proxySpans.length > 0
                ? "proxy"
                : "none",
      proxySpans,
      address: original,
      filmstrip:
        strip === undefined
          ? null
          : { address: strip.address, everyS: filmstripStepS(clip.durationS), count: strip.count },
    };
  }

  /** Makes what is missing of the pictures around the moments, then the small ones. Called after every change. */
  follow(session: Session): void {
    this.companions = new Map([...session.media.companions].filter(([, { videoCodec }]) => PLAYABLE.has(videoCodec)));
    const { lineup, standing } = session.debrief;
    if (lineup === null || standing === null) return;
    const clips = session.clipsInUse();
    const { jobs, surroundings } = this.desk;
    const wanted = proxyPlan({
      moments: standing.judged.reading.moments,
      clips: clips.filter(({ id }) => !this.companions.has(id)),
      lineup,
      film: standing.film,
    });
    const plan = wanted.map(nameOf).join(" ");
    if (plan !== this.planned) {
      this.planned = plan;
      if (this.job !== null) void jobs.cancel(this.job);
      const pieces = wanted.filter((piece) => !this.has(piece));
      this.job = pieces.length === 0 ? null : jobs.add(this.proxyOrder({ of: "small films" }, pieces, true)).id;
    }
    for (const clip of clips) {
      if (this.strips.has(clip.fingerprint)) continue;
      this.strips.set(clip.fingerprint, {
        address: surroundings.shelf.lendPictures(filmstripFolder(clip.fingerprint)),
        count: 0,
      });
      jobs.add({
        what: "filmstrip",
        title: { of: "small pictures", fileName: clip.fileName },
        background: true,
        run: (context) => this.makeStrip(clip, context),
      });
    }
  }

  /** Another debrief comes on the desk: what was made stays lent. */
  forget(): void {
    this.planned = "";
    this.job = null;
    // Strips that were broken off are begun again.
    for (const [fingerprint, { count }] of this.strips) if (count === 0) this.strips.delete(fingerprint);
  }

  /** The pictures were deleted with an athlete's files: none of them is lent any more, and those still wanted are made again. */
  async deleted(session: Session | null): Promise<void> {
    const { jobs, surroundings } = this.desk;
    if (this.job !== null) await jobs.cancel(this.job);
    for (const { address } of [...this.spans.values()].flat()) surroundings.shelf.takeBack(address);
    for (const { address } of this.strips.values()) surroundings.shelf.takeBack(address);
    this.spans.clear();
    this.strips.clear();
    this.inUse.clear();
    this.forget();
    this.desk.changed();
    if (session !== null) this.follow(session);
  }

  /** A proxy of the whole clip, as a person wished. */
  async whole(clip: Clip): Promise<JobView> {
    const piece = pieceOf(clip, 0, clip.durationS);
    return this.desk.jobs.add(this.proxyOrder({ of: "small film", fileName: clip.fileName }, [piece], false)).settled;
  }

  private has(piece: ProxyPiece): boolean {
    const { startS, endS } = spanOf(piece);
    return (this.spans.get(piece.clip.fingerprint) ?? []).some((span) => span.startS <= startS && span.endS >= endS);
  }

  private proxyOrder(title: JobTitle, pieces: readonly ProxyPiece[], background: boolean) {
    return {
      what: "proxies" as const,
      title,
      background,
      soon: true,
      run: (context: JobContext) => this.makeProxies(pieces, context),
    };
  }

  private async makeProxies(pieces: readonly ProxyPiece[], context: JobContext): Promise<void> {
    const total = pieces.reduce((sum, { frames }) => sum + frames, 0);
    let done = 0;
    for (const piece of pieces) {
      if (context.signal.aborted) throw new Cancelled();
      const { clip, frames } = piece;
      if (!this.has(piece)) {
        const onFrames = (made: number): void =>
          context.report({ done: (done + made) / total, leftS: null, step: { what: "file", name: clip.fileName } });
        this.lend(piece, await proxyOf(piece, this.desk.host, context.signal, onFrames));
      }
      done += frames;
    }
    await pruneMediaCache(this.inUse);
  }

  private lend(piece: ProxyPiece, path: string): void {
    this.inUse.add(path);
    const { fingerprint } = piece.clip;
    const address = this.desk.surroundings.shelf.lendFile("proxy", path);
    this.spans.set(fingerprint, [...(this.spans.get(fingerprint) ?? []), { ...spanOf(piece), address }]);
    this.desk.changed();
  }

  private async makeStrip(clip: Clip, context: JobContext): Promise<void> {
    const folder = filmstripFolder(clip.fingerprint);
    const { address } = this.strips.get(clip.fingerprint)!;
    this.inUse.add(folder);
    const there = (count: number): void => {
      if (this.strips.get(clip.fingerprint)?.count === count) return;
      this.strips.set(clip.fingerprint, { address, count });
      this.desk.changed();
    };
    await makeFilmstrip(clip, this.companions.get(clip.id) ?? null, this.desk.host, context, there);
    await pruneMediaCache(this.inUse);
  }
}

function plays({ videoCodec, colour }: Clip): boolean {
  return PLAYABLE.has(videoCodec) && colour.bitDepth === 8;
}

function firstS({ frames }: Clip): number {
  return (frames.ticks[0] ?? NaN) / frames.timescale;
}

function nameOf({ clip, firstFrame, frames }: ProxyPiece): string {
  return `${clip.fingerprint}-${firstFrame}-${frames}`;
}
