/** Big arrays by address, decoded; the form is written down in main/app/desk/columnsBytes.ts. */
import type { RideColumns, SensorColumn } from "../../overlay/instant/columns.ts";
import type { ClipSignals } from "../../main/contract/signals.ts";

/** The ride's columns as panels and thread need them, and the three that only the window draws. */
export interface WindowColumns extends RideColumns {
  readonly power30sW: Float64Array | null;
  readonly distanceM: Float64Array | null;
  readonly timerS: Float64Array | null;
}

/** Presentation time of each frame, s of clip time, and last the end of the last frame (frames + 1 entries). */
export type FrameStarts = Float64Array;

interface Header {
  readonly values: Readonly<Record<string, unknown>>;
  readonly columns: readonly {
    readonly name: string;
    readonly type: "float64" | "uint8";
    readonly offset: number;
    readonly count: number;
  }[];
}

/** Values and columns of one answer. Throws where the bytes are not of our form. */
export function unpackColumns(bytes: ArrayBuffer): {
  readonly values: Readonly<Record<string, unknown>>;
  readonly column: (name: string) => Float64Array | Uint8Array | null;
} {
  const length = new DataView(bytes).getUint32(0, true);
  const header = JSON.parse(new TextDecoder().decode(new Uint8Array(bytes, 4, length))) as Header;
  // Typed arrays read in the machine's own byte order; every machine that runs a desktop browser today is little endian.
  const columns = new Map(
    header.columns.map(
      ({ name, type, offset, count }) =>
        [
          name,
          type === "float64" ? new Float64Array(bytes, offset, count) : new Uint8Array(bytes, offset, count),
        ] as const,
    ),
  );
  return { values: header.values, column: (name) => columns.get(name) ?? null };
}

async function fetchColumns(address: string, signal?: AbortSignal): Promise<ReturnType<typeof unpackColumns>> {
  const response = await fetch(address, { signal });
  if (!response.ok) throw new Error(`The columns at ${address} were not there (${response.status}).`);
  return unpackColumns(await response.arrayBuffer());
}

/** The shown ride, from `DeskAddresses.columns`. */
export async function fetchRideColumns(address: string, signal?: AbortSignal): Promise<WindowColumns> {
  const { values, column } = await fetchColumns(address, signal);
  const numbers = (name: string) => column(name) as Float64Array | null;
  const bytes = (name: string) => column(name) as Uint8Array;
  const sensor = (name: string): SensorColumn | null => {
    const value = numbers(name);
    return value === null ? null : { value, state: bytes(`${name}.state`) };
  };
  return {
    ...(values as unknown as Pick<
      RideColumns,
      "seconds" | "mode" | "setting" | "bandW" | "countedStartS" | "countedEndS"
    >),
    power3s: sensor("power3s"),
    heartRate: sensor("heartRate"),
    cadence: sensor("cadence"),
    speed: sensor("speed"),
    gradientPercent: numbers("gradientPercent"),
    altitudeM: numbers("altitudeM"),
    latDeg: numbers("latDeg"),
    lonDeg: numbers("lonDeg"),
    pressureState: bytes("pressureState"),
    surge: bytes("surge"),
    countedS: numbers("countedS")!,
    likePowerBeats: numbers("likePowerBeats")!,
    power30sW: numbers("power30sW"),
    distanceM: numbers("distanceM"),
    timerS: numbers("timerS"),
  };
}

/** When each frame of a clip is shown, from `<DeskAddresses.frames>/<clipId>`. */
export async function fetchFrameStarts(address: string, signal?: AbortSignal): Promise<FrameStarts> {
  return (await fetchColumns(address, signal)).column("startS") as Float64Array;
}

/** What was seen and heard of a clip's motion, from `<DeskAddresses.signals>/<clipId>`. */
export async function fetchSignals(
  address: string,
  clipId: string,
  signal?: AbortSignal,
): Promise<ClipSignals & { readonly stepS: number }> {
  const { values, column } = await fetchColumns(address, signal);
  const { stepS, count, lacks } = values as {
    readonly stepS: number;
    readonly count: number;
    readonly lacks: ClipSignals["lacks"];
  };
  const series = (name: string) => column(name) as Float64Array | null;
  return {
    clipId,
    stepS,
    count,
    motion: series("motion"),
    sound: series("sound"),
    turning: series("turning"),
    bytesRead: null,
    lacks,
  };
}
