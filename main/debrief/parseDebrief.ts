import { z } from "zod";
import { Failure } from "../contract/failure.ts";
import type { DebriefDocument } from "../contract/debrief.ts";
import { DEBRIEF_SCHEMA, debriefSchema } from "./debriefDocument.ts";
import { filmMark } from "./filmMark.ts";
import { columnsAsLists } from "./filmSchema.ts";
import { fromSchema1 } from "./fromSchema1.ts";
import { withFormerKinds } from "./momentKind.ts";
import { formFault } from "../contract/formFault.ts";
import type { DebriefFault, ReadOnlyReason } from "../contract/notices/debrief.ts";

/** Turns the document of one schema version into that of the next; pure. */
export type Migration = (old: Record<string, unknown>) => Record<string, unknown>;

/** `MIGRATIONS[n]` takes version n to n + 1. */
const MIGRATIONS: Readonly<Record<number, Migration>> = { 1: fromSchema1 };

export interface OpenedDebrief {
  readonly document: DebriefDocument;
  /** Version of the form that the text has. */
  readonly schema: number;
  /** Why it may only be looked at; null when it may be changed. */
  readonly readOnly: ReadOnlyReason | null;
}

/** The document brought up from its own version to the newest by the migrations given. */
export function migrate(
  old: Record<string, unknown>,
  from: number,
  to: number,
  migrations: Readonly<Record<number, Migration>>,
): Record<string, unknown> {
  let document = old;
  for (let version = from; version < to; version++) {
    const step = migrations[version];
    if (step === undefined) throw new Error(`no migration from schema ${version}`);
    document = { ...step(document), schema: version + 1 };
  }
  return document;
}

/**
 * A debrief from the text of `debrief.json`. A newer schema opens read-only where what this program knows of it is
 * there. Failure `debrief-not-usable` names the file and the first thing wrong.
 */
export function parseDebrief(text: string, fileName: string): OpenedDebrief {
  const refuse = (fault: DebriefFault, cause?: unknown): Failure =>
    new Failure("debrief-unusable", { fileName, fault }, cause);
  let json: unknown;
  try {
    json = JSON.parse(text);
  } catch (error) {
    throw refuse({ kind: "not JSON", at: null }, error);
  }
  const head = z.object({ schema: z.number().int().positive() }).loose().safeParse(json);
  if (!head.success) throw refuse({ kind: "no schema" });
  const { schema } = head.data;
  const newer = schema > DEBRIEF_SCHEMA;
  const current: unknown = newer
    ? { ...head.data, schema: DEBRIEF_SCHEMA }
    : migrate(head.data, schema, DEBRIEF_SCHEMA, MIGRATIONS);
  const parsed = debriefSchema.safeParse(current);
  if (parsed.success)
    return {
      document: noticingEdits(parsed.data),
      schema,
      readOnly: newer ? { kind: "newer version", fileName } : null,
    };
  if (newer) throw new Failure("debrief-newer", { fileName, schema }, parsed.error);
  throw refuse(formFault(parsed.error.issues), parsed.error);
}

/** A film that was changed in the file itself is the coach's from then on. */
function noticingEdits(document: DebriefDocument): DebriefDocument {
  const { film, filmMark: written } = document;
  if (film === null || written === null || document.filmSetBy === "coach") return document;
  const marks = [film, withFormerKinds(film)].map(filmMark);
  if (marks.includes(written)) return document;
  return { ...document, filmSetBy: "coach", filmMark: null };
}

/** The text of `debrief.json`, a line per value so that two versions can be compared; ends in a line break. */
export function debriefText(document: DebriefDocument): string {
  return `${JSON.stringify(document, columnsAsLists, 1)}\n`;
}
