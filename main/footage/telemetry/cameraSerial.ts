import { klvItems, klvText, type Klv } from "./klv.ts";

/** Keys of the settings that a camera writes beside its telemetry: its serial number, and its firmware (as real files hold them). */
const KEYS = ["CASN", "FMWR"] as const;

/**
 * What tells a camera from another of its model, from the settings in a clip's user data (GPMF): its serial number, else its
 * firmware's. Null where they state neither.
 */
export function cameraSerial(settings: Uint8Array | null): string | null {
  if (!settings) return null;
  const all: Klv[] = [];
  const walk = (view: DataView): void => {
    for (const item of klvItems(view)) {
      if (item.type === "\0") walk(item.value);
      else all.push(item);
    }
  };
  walk(new DataView(settings.buffer, settings.byteOffset, settings.byteLength));
  for (const key of KEYS) {
    const item = all.find((one) => one.key === key && one.type === "c");
    const text = item ? klvText(item) : "";
    if (text !== "") return text;
  }
  return null;
}
