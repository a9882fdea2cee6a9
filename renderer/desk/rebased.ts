import type { DebriefDocument, Edit, EditablePart } from "../../main/contract/debrief.ts";

type Fields = Readonly<Record<string, unknown>>;

function isFields(value: unknown): value is Fields {
  return typeof value === "object" && value !== null && !Array.isArray(value);
}

function same(a: unknown, b: unknown): boolean {
  return JSON.stringify(a) === JSON.stringify(b);
}

/**
 * An edit as it is to be made on the document as it stands now, when others were made since the person saw it: as it is,
 * where its part is still the same; put together field by field, where each changed other fields (of the plan, the
 * settings, the words); null where both changed the same.
 */
export function rebased(
  edit: Edit,
  seen: Pick<DebriefDocument, EditablePart>,
  now: Pick<DebriefDocument, EditablePart>,
): Edit | null {
  const before: unknown = seen[edit.part];
  const current: unknown = now[edit.part];
  if (same(before, current)) return edit;
  if (!isFields(before) || !isFields(current) || !isFields(edit.value)) return null;
  const wished: Fields = edit.value;
  const keys = [...new Set([...Object.keys(before), ...Object.keys(current), ...Object.keys(wished)])];
  const mine = keys.filter((key) => !same(wished[key], before[key]));
  if (mine.some((key) => !same(current[key], before[key]) && !same(current[key], wished[key]))) return null;
  const value = { ...current, ...Object.fromEntries(mine.map((key) => [key, wished[key]])) };
  return { ...edit, value } as unknown as Edit;
}
