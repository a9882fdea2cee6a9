import type { Clip } from "../../contract/footage.ts";
import { klvItems, klvText, type Klv } from "./klv.ts";

/**
 * What tells a camera from others, from the settings in a clip's user data (GPMF, keys as real files hold them): its
 * serial number, which is its own, and its firmware, which it shares with others of its model. Each is absent where they do not state it.
 */
export function cameraMarks(settings: Uint8Array | null): Pick<Clip, "serial" | "firmware"> {
  if (!settings) return {};
  const all: Klv[] = [];
  const walk = (view: DataView): void => {
    for (const item of klvItems(view)) {
      if (item.type === "\0") walk(item.value);
      else all.push(item);
    }
  };
  walk(new DataView(settings.buffer, settings.byteOffset, settings.byteLength));
  const textOf = (key: string) => {
    const item = all.find((one) => one.key === key && one.type === "c");
    return item ? klvText(item) : "";
  };
  const [serial, firmware] = [textOf("CASN"), textOf("FMWR")];
  return { ...(serial === "" ? {} : { serial }), ...(firmware === "" ? {} : { firmware }) };
}
