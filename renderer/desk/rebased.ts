import type { DebriefDocument, Edit, EditablePart } from "../../main/contract/debrief.ts";
import { mergedItems } from "../film/mergedItems.ts";

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
 * settings, the words), a film's parts one by one; null where both changed the same.
 */
export function rebased(
  edit: Edit,
  seen: Pick<DebriefDocument, EditablePart>,
  now: Pick<DebriefDocument, EditablePart>,
): Edit | null {
  if (same(seen[edit.part], now[edit.part])) return edit;
  if (edit.part !== "film" || seen.film === null || now.film === null || edit.value === null)
    return byField(edit, seen[edit.part], now[edit.part]);
  const items = mergedItems(seen.film.items, now.film.items, edit.value.items);
  if (items === null) return null;
  return byField({ ...edit, value: { ...edit.value, items } }, seen.film, { ...now.film, items });
}

function byField(edit: Edit, before: unknown, current: unknown): Edit | null {
  if (!isFields(before) || !isFields(current) || !isFields(edit.value)) return null;
  const wished: Fields = edit.value;
  const keys = [...new Set([...Object.keys(before), ...Object.keys(current), ...Object.keys(wished)])];
  const mine = keys.filter((key) => !same(wished[key], before[key]));
  if (mine.some((key) => !same(current[key], before[key]) && !same(current[key], wished[key]))) return null;
  const value = { ...current, ...Object.fromEntries(mine.map((key) => [key, wished[key]])) };
  return { ...edit, value } as unknown as Edit;
}
