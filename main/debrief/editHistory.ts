import type { DebriefDocument, Edit } from "../contract/debrief.ts";

/** A document with what can be undone and redone; in memory only. Edits hold no copies, only the parts they replaced. */
export interface EditHistory {
  readonly document: DebriefDocument;
  /** Inverse edits, the newest last. */
  readonly undo: readonly Edit[];
  readonly redo: readonly Edit[];
}

/** A document just opened: nothing to undo. */
export function editHistory(document: DebriefDocument): EditHistory {
  return { document, undo: [], redo: [] };
}

function apply(document: DebriefDocument, edit: Edit): { document: DebriefDocument; inverse: Edit } {
  const inverse = { part: edit.part, value: document[edit.part], label: edit.label } as Edit;
  return { document: { ...document, [edit.part]: edit.value }, inverse };
}

/** The document with the edit made; what was undone before can no longer be redone. */
export function doEdit(history: EditHistory, edit: Edit): EditHistory {
  const { document, inverse } = apply(history.document, edit);
  return { document, undo: [...history.undo, inverse], redo: [] };
}

/** The last edit taken back; the same history where there is none. */
export function undoEdit(history: EditHistory): EditHistory {
  const edit = history.undo.at(-1);
  if (edit === undefined) return history;
  const { document, inverse } = apply(history.document, edit);
  return { document, undo: history.undo.slice(0, -1), redo: [...history.redo, inverse] };
}

/** The last undone edit made again; the same history where there is none. */
export function redoEdit(history: EditHistory): EditHistory {
  const edit = history.redo.at(-1);
  if (edit === undefined) return history;
  const { document, inverse } = apply(history.document, edit);
  return { document, undo: [...history.undo, inverse], redo: history.redo.slice(0, -1) };
}
