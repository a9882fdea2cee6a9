/** FNV-1a, 32 bits (Fowler, Noll and Vo; IETF draft-eastlake-fnv), of UTF-16 code units. Not for secrets. */
function fnv1a(text: string, start: number): number {
  let hash = start;
  for (let at = 0; at < text.length; at++) hash = Math.imul(hash ^ text.charCodeAt(at), 0x01000193) >>> 0;
  return hash;
}

/** A short mark of a text, 16 hexadecimal digits, by which it is known again: two hashes with different starts. */
export function textMark(text: string): string {
  return [0x811c9dc5, 0x050c5d1f].map((start) => fnv1a(text, start).toString(16).padStart(8, "0")).join("");
}

/** 0 to 1, always the same for a text. */
export function textChance(text: string): number {
  return fnv1a(text, 0x811c9dc5) / 0xffffffff;
}
