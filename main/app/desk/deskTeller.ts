import type { DeskState, JobView } from "../../contract/debriefApi.ts";
import type { Clip } from "../../contract/footage.ts";
import { columnsOf } from "../../journey/filmJob.ts";
import type { Surroundings } from "../surroundings.ts";
import { frameTimesBytes, rideColumnsBytes, signalsBytes } from "../../contract/columnBytes.ts";
import { debriefView, type ClipPictures, type ViewAddresses } from "./debriefView.ts";
import type { Session } from "./session.ts";

/** What the desk holds when the window is told. */
export interface DeskNow {
  readonly session: Session | null;
  readonly jobs: readonly JobView[];
  readonly pictures: (clip: Clip) => ClipPictures;
}

type ClipAddresses = Omit<ViewAddresses, "columns">;

/** Tells the window how the desk stands, and lends it the ride's columns, frame times and signals. */
export class DeskTeller {
  private readonly surroundings: Surroundings;
  private readonly now: () => DeskNow;
  /** What is lent of the clips of one debrief: their ids (`clip1` …) come again in the next one, an address must not. */
  private clips: { readonly of: Session; readonly addresses: ClipAddresses } | null = null;
  /** The reading whose columns are lent, and their address; the one before stays until the window has let go of it. */
  private columns: { readonly of: unknown; readonly address: string; readonly before: string | null } | null = null;
  private telling = false;

  constructor(surroundings: Surroundings, now: () => DeskNow) {
    this.surroundings = surroundings;
    this.now = now;
  }

  state(): DeskState {
    const { session, jobs, pictures } = this.now();
    if (session === null) return { debrief: null, jobs };
    const { paths, shelf } = this.surroundings;
    const { athleteDir } = session.rider;
    const debrief = debriefView(session, {
      addresses: { ...this.clipAddresses(session), columns: this.columnsAddress(session) },
      athleteId: athleteDir === null ? null : paths.idOf(athleteDir),
      pictures,
      lendSound: (path) => shelf.lendFile("media", path),
    });
    return { debrief, jobs };
  }

  tell(): void {
    this.telling = false;
    this.surroundings.events.state(this.state());
  }

  /** Tells the window once for all that changes now. */
  tellSoon(): void {
    if (this.telling) return;
    this.telling = true;
    setImmediate(() => {
      if (this.telling) this.tell();
    });
  }

  private clipAddresses(session: Session): ClipAddresses {
    if (this.clips?.of === session) return this.clips.addresses;
    const { shelf } = this.surroundings;
    for (const address of Object.values(this.clips?.addresses ?? {})) shelf.takeBack(address);
    const addresses = {
      frames: shelf.lendBytes((id) => {
        const clip = session.clips.get(id);
        return clip === undefined ? null : frameTimesBytes(clip.frames);
      }),
      signals: shelf.lendBytes((id) => {
        const signals = session.media.signals.get(id);
        return signals === undefined ? null : signalsBytes(signals);
      }),
    };
    this.clips = { of: session, addresses };
    return addresses;
  }

  private columnsAddress(session: Session): string {
    const { shelf } = this.surroundings;
    const judged = session.debrief.standing?.judged ?? null;
    if (this.columns === null || this.columns.of !== (judged?.reading ?? null)) {
      if (this.columns?.before) shelf.takeBack(this.columns.before);
      const address = shelf.lendBytes((name) =>
        judged === null || name !== "" ? null : rideColumnsBytes(columnsOf(judged), judged.ride.grid),
      );
      this.columns = { of: judged?.reading ?? null, address, before: this.columns?.address ?? null };
    }
    return this.columns.address;
  }
}
