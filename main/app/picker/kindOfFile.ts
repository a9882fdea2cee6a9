import { basename } from "node:path";
import type { Listing } from "../../contract/debriefApi.ts";
import { openToRead } from "../../host/openToRead.edge.ts";

type Kind = Listing["entries"][number]["kind"];

const RIDE_NAMES = /\.(fit|gpx|tcx|csv)(\.gz)?$/i;
const PLAN_NAMES = /\.json$/i;
const CLIP_NAMES = /\.(mp4|mov|m4v)$/i;
/** What is surely neither, so that it need not be opened. */
const OTHER_NAMES =
  /\.(jpe?g|png|heic|webp|gif|pdf|txt|md|html?|zip|gz|7z|docx?|xlsx?|pptx?|mp3|m4a|wav|flac|db|xmp|thm|log|ini|exe|dmg|pkg|deb)$/i;

const HEAD_BYTES = 512;

/** What a file is for the picker: by its name where that says it, else by how it begins. */
export async function kindOfFile(path: string): Promise<Kind> {
  const name = basename(path);
  if (name === "debrief.json") return "debrief";
  if (name === "athlete.json") return "athlete";
  // What a plan is called nobody can know: any JSON may be one.
  if (PLAN_NAMES.test(name)) return "plan";
  if (RIDE_NAMES.test(name)) return "ride";
  if (CLIP_NAMES.test(name)) return "clip";
  if (OTHER_NAMES.test(name)) return "other";
  return kindOfHead(await headOf(path));
}

async function headOf(path: string): Promise<string> {
  const file = await openToRead(path).catch(() => null);
  if (file === null) return "";
  try {
    const { buffer, bytesRead } = await file.read(Buffer.alloc(HEAD_BYTES), 0, HEAD_BYTES, 0);
    return buffer.toString("latin1", 0, bytesRead);
  } catch {
    return "";
  } finally {
    await file.close();
  }
}

/** FIT protocol: `.FIT` at byte 8; ISO/IEC 14496-12: a box type at byte 4; XML: the root's name. */
function kindOfHead(head: string): Kind {
  if (head.slice(8, 12) === ".FIT") return "ride";
  if (["ftyp", "moov", "mdat", "wide"].includes(head.slice(4, 8))) return "clip";
  return /<(gpx|TrainingCenterDatabase)[\s>]/.test(head) ? "ride" : "other";
}
