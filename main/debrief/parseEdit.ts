import type { DebriefDocument, Edit, EditablePart } from "../contract/debrief.ts";
import { Failure } from "../contract/failure.ts";
import { debriefSchema } from "./debriefDocument.ts";
import { leavesFolder } from "./mediaPath.ts";

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
  const refuse = (what: string): Failure =>
    new Failure("usage", `This edit cannot be made: ${what}.`, "Nothing was changed; try it another way.");
  if (NOT_BY_EDIT.has(part) || !Object.hasOwn(document, part)) throw refuse(`${part} is no part that is edited`);
  // Only the part itself is checked: the film of the document holds columns in their form for computing.
  const parsed = debriefSchema.safeParse({ ...document, film: null, [part]: edit.value ?? null });
  if (!parsed.success) {
    const issue = parsed.error.issues[0];
    throw refuse(`${issue?.path.join(".") ?? part}: ${issue?.message ?? "not as it should be"}`);
  }
  const value = parsed.data[part as EditablePart];
  for (const { commentPath } of parsed.data.film?.items ?? [])
    if (commentPath !== null && leavesFolder(commentPath))
      throw refuse("a comment's sound file lies outside the debrief's folder");
  return { part, value, label: label.slice(0, 200) } as Edit;
}
