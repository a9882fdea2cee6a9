import { z } from "zod";
import { GIVEN_REASONS, type Override } from "../contract/reading.ts";

const span = z.object({ startS: z.number(), endS: z.number() });
const old = z.object({ what: z.string(), set: z.unknown(), reason: z.string().nullable().catch(null) });

/** Middle of a time or a span that was set; null where it is neither. */
function middleOf(set: unknown): number | null {
  if (typeof set === "number") return set;
  const parsed = span.safeParse(set);
  return parsed.success ? (parsed.data.startS + parsed.data.endS) / 2 : null;
}

/** An override of schema 1, which named a break by a text with its start in it; null: one that never held for anything. */
function overrideFrom(value: unknown): Override | null {
  const parsed = old.safeParse(value);
  if (!parsed.success) return null;
  const { what, set, reason } = parsed.data;
  const atS = middleOf(set);
  switch (what) {
    case "counted": {
      const { data } = span.safeParse(set);
      return data === undefined ? null : { what, set: data, reason };
    }
    case "first":
    case "last":
      return atS === null ? null : { what, set: atS, reason };
    case "onset":
      return atS === null && set !== null ? null : { what, set: atS, reason };
  }
  const breakAt = /^break@(\d+(?:\.\d+)?)$/.exec(what)?.[1];
  if (breakAt === undefined || typeof set !== "string" || set.trim() === "") return null;
  const words = set.trim();
  const code = GIVEN_REASONS.find((one) => one === words);
  return { what: "break", startS: Number(breakAt), endS: null, set: code ?? { coach: words }, reason };
}

/**
 * The document of schema 1 in the form of schema 2: overrides by what they are about, choices with the end of their
 * moment (not known yet). An override that held for nothing in schema 1 is only in the copy of the old file.
 */
export function fromSchema1(document: Record<string, unknown>): Record<string, unknown> {
  const { overrides, choices } = document;
  return {
    ...document,
    overrides: Array.isArray(overrides) ? overrides.flatMap((one) => overrideFrom(one) ?? []) : overrides,
    choices: Array.isArray(choices) ? choices.map((one: object) => ({ endS: null, ...one })) : choices,
  };
}
