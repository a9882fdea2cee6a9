/** Big arrays by address, in the form of `main/contract/columnBytes.ts`. */
import { frameStartsFrom, rideColumnsFrom, signalsFrom } from "../../main/contract/columnBytes.ts";
import type { FrameStarts, WindowColumns } from "../../main/contract/columnBytes.ts";
import type { ClipSignals } from "../../main/contract/signals.ts";

async function fetchBytes(address: string): Promise<ArrayBuffer> {
  const response = await fetch(address);
  if (!response.ok) throw new Error(`The columns at ${address} were not there (${response.status}).`);
  return response.arrayBuffer();
}

/** The shown ride, from `DeskAddresses.columns`. */
export async function fetchRideColumns(address: string): Promise<WindowColumns> {
  return rideColumnsFrom(await fetchBytes(address));
}

/** When each frame of a clip is shown, from `<DeskAddresses.frames>/<clipId>`. */
export async function fetchFrameStarts(address: string): Promise<FrameStarts> {
  return frameStartsFrom(await fetchBytes(address));
}

/** What was seen and heard of a clip's motion, from `<DeskAddresses.signals>/<clipId>`. */
export async function fetchSignals(address: string, clipId: string): Promise<ClipSignals & { readonly stepS: number }> {
  return signalsFrom(await fetchBytes(address), clipId);
}
