import { mkdir, readFile } from "node:fs/promises";
import { dirname, join } from "node:path";
import { z } from "zod";
import { PLACE_NAMES, type KeptPlace } from "../contract/keptPlace.ts";
import { stateFolder } from "./stateFolder.edge.ts";
import { writeAtomic } from "./writeAtomic.edge.ts";

/** So many of each are remembered. */
const KEPT = 100;

const place = z.object({ folder: z.string(), place: z.partialRecord(z.enum(PLACE_NAMES), z.string()) });
const handedOver = z.object({ folder: z.string(), into: z.string() });
const form = z.object({
  debriefs: z.array(z.string()).default([]),
  athletes: z.array(z.string()).default([]),
  places: z.array(place).catch([]).default([]),
  handedOver: z.array(handedOver).catch([]).default([]),
});
type Known = z.infer<typeof form>;
type Lists = Pick<Known, "debriefs" | "athletes">;

function listPath(): string {
  return join(stateFolder(), "known.json");
}

/** Folders of debriefs and athletes that were used, the last used first. Empty where nothing is remembered. */
export async function knownFolders(): Promise<Known> {
  try {
    return form.parse(JSON.parse(await readFile(listPath(), "utf8")));
  } catch {
    return { debriefs: [], athletes: [], places: [], handedOver: [] };
  }
}

let writing: Promise<void> = Promise.resolve();

/**
 * Puts a folder first on one of the lists, or takes it off with all that is known of it. Best effort: what can't be
 * remembered is asked again.
 */
export function remember(list: keyof Lists, folder: string, keep = true): Promise<void> {
  return change((known) => {
    const rest = known[list].filter((one) => one !== folder);
    if (keep) return { ...known, [list]: [folder, ...rest].slice(0, KEPT) };
    return {
      ...known,
      [list]: rest,
      places: others(known.places, folder),
      handedOver: others(known.handedOver, folder),
    };
  });
}

/** Where debriefs were handed over to, a folder of a person's choice. The same place once. */
export function rememberHandOver(folder: string, into: string): Promise<void> {
  return change((known) => {
    const rest = known.handedOver.filter((one) => one.folder !== folder || one.into !== into);
    return { ...known, handedOver: [{ folder, into }, ...rest].slice(0, KEPT) };
  });
}

/** Places that are to be written: of many that follow soon, the last. */
const leftAt = new Map<string, KeptPlace>();

/** Where a debrief was left. */
export function rememberPlace(folder: string, place: KeptPlace): Promise<void> {
  const begun = leftAt.size > 0;
  leftAt.set(folder, place);
  if (begun) return writing;
  return change((known) => {
    const come = [...leftAt].map(([of, at]) => ({ folder: of, place: at }));
    leftAt.clear();
    return {
      ...known,
      places: [...come, ...known.places.filter((one) => !come.some((new_) => new_.folder === one.folder))].slice(
        0,
        KEPT,
      ),
    };
  });
}

/** Where a debrief was left; empty where that is not known. */
export async function rememberedPlace(folder: string): Promise<KeptPlace> {
  return leftAt.get(folder) ?? (await knownFolders()).places.find((one) => one.folder === folder)?.place ?? {};
}

/** Resolves once all that was to be remembered is written. */
export function allRemembered(): Promise<void> {
  return writing;
}

function others<T extends { readonly folder: string }>(list: readonly T[], folder: string): T[] {
  return list.filter((one) => one.folder !== folder);
}

function change(by: (known: Known) => Known): Promise<void> {
  writing = writing.then(async () => {
    try {
      const next = by(await knownFolders());
      await mkdir(dirname(listPath()), { recursive: true, mode: 0o700 });
      await writeAtomic(listPath(), `${JSON.stringify(next, null, 1)}\n`);
    } catch {
      // Nothing of the user's is lost.
    }
  });
  return writing;
}
