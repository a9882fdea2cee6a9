import type { DebriefDocument, Edit } from "../contract/debrief.ts";

/** Edits that a person made as one: done, undone and redone together. At least one; the first one's label names it. */
export type EditGroup = readonly Edit[];

/** A document with what can be undone and redone; in memory only. Edits hold no copies, only the parts they replaced. */
export interface EditHistory {
  readonly document: DebriefDocument;
  /** Inverse edits, the newest last. */
  readonly undo: readonly EditGroup[];
  readonly redo: readonly EditGroup[];
}

/** A document just opened: nothing to undo. */
export function editHistory(document: DebriefDocument): EditHistory {
  return { document, undo: [], redo: [] };
}

function apply(document: DebriefDocument, edits: EditGroup): { document: DebriefDocument; inverse: EditGroup } {
  const inverse = edits.map(({ part, label }) => ({ part, value: document[part], label }) as Edit);
  const changed = Object.fromEntries(edits.map(({ part, value }) => [part, value]));
  return { document: { ...document, ...changed }, inverse };
}

/** The document with the edits made as one; what was undone before can no longer be redone. */
export function doEdits(history: EditHistory, edits: EditGroup): EditHistory {
  const { document, inverse } = apply(history.document, edits);
  return { document, undo: [...history.undo, inverse], redo: [] };
}

/** The last edit taken back; the same history where there is none. */
export function undoEdit(history: EditHistory): EditHistory {
  const edits = history.undo.at(-1);
  if (edits === undefined) return history;
  const { document, inverse } = apply(history.document, edits);
  return { document, undo: history.undo.slice(0, -1), redo: [...history.redo, inverse] };
}

/** The last undone edit made again; the same history where there is none. */
export function redoEdit(history: EditHistory): EditHistory {
  const edits = history.redo.at(-1);
  if (edits === undefined) return history;
  const { document, inverse } = apply(history.document, edits);
  return { document, undo: [...history.undo, inverse], redo: history.redo.slice(0, -1) };
}
