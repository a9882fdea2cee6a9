import type { DebriefDocument, Edit, EditablePart } from "../contract/debrief.ts";
import { Failure } from "../contract/failure.ts";
import { debriefSchema } from "./debriefDocument.ts";
import { leavesFolder } from "./mediaPath.ts";
import { formFault } from "../contract/formFault.ts";
import type { EditFault } from "../contract/notices/debrief.ts";

/** What a person edits by other calls only: a path or a figure that the window made up is never taken. */
const NOT_BY_EDIT: ReadonlySet<string> = new Set([
  "schema",
  "revision",
  "media",
  "shownRideId",
  "figures",
  "athletePath",
  "prepared",
]);

/**
 * One edit from the window, checked against the form of `debrief.json`. `document` is the one it is made on. Failure
 * `usage` says what is wrong; a sound file outside the debrief's folder is refused.
 */
export function parseEdit(
  edit: { readonly part: string; readonly value?: unknown; readonly label: string },
  document: DebriefDocument,
): Edit {
  const { part, label } = edit;
  const refuse = (fault: EditFault): Failure => new Failure("edit-refused", { fault });
  if (NOT_BY_EDIT.has(part) || !Object.hasOwn(document, part)) throw refuse({ kind: "no such part", part });
  // Only the part itself is checked: the film of the document holds columns in their form for computing.
  const parsed = debriefSchema.safeParse({ ...document, film: null, [part]: edit.value ?? null });
  if (!parsed.success) throw refuse(formFault(parsed.error.issues));
  const value = parsed.data[part as EditablePart];
  for (const { commentPath } of parsed.data.film?.items ?? [])
    if (commentPath !== null && leavesFolder(commentPath)) throw refuse({ kind: "comment outside" });
  return { part, value, label: label.slice(0, 200) } as Edit;
}
