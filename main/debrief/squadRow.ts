import { z } from "zod";
import { LANGUAGES } from "../contract/languageAndUnits.ts";
import type { FailureNotice } from "../contract/notice.ts";
import type { SquadKept } from "../contract/squad.ts";

const text = z.string().max(20_000);
const px = z.number().int().positive();

const told = z.object({
  revision: z.number().int().nonnegative(),
  language: z.enum(LANGUAGES),
  rider: text.nullable(),
  title: text.nullable(),
  dateText: text.nullable(),
  elapsedS: z.number(),
  lines: z.tuple([text, text, text]),
  looks: z.array(
    z.discriminatedUnion("what", [
      z.object({ what: z.literal("note") }),
      z.object({ what: z.literal("heart"), startS: z.number() }),
      z.object({ what: z.literal("clips"), fileNames: z.array(text) }),
      z.object({ what: z.literal("asked"), count: z.number() }),
      z.object({ what: z.literal("no target") }),
      z.object({ what: z.literal("target") }),
      z.object({ what: z.literal("short"), elapsedS: z.number() }),
    ]),
  ),
  message: text,
  pictures: z.array(
    z.object({
      type: z.enum(["image/svg+xml", "image/jpeg", "image/png"]),
      base64: z.base64(),
      widthPx: px,
      heightPx: px,
      alt: text,
    }),
  ),
});
/** Of a failure the form alone is known: `keptFailureText` looks at its code and facts. */
const failure = z
  .object({ code: text, facts: z.record(z.string(), z.json()) })
  .transform((notice) => notice as unknown as FailureNotice);
const kept: z.ZodType<SquadKept> = z.union([
  z.object({ told, failure: z.null() }),
  z.object({ told: z.null(), failure }),
]);

/** What a batch kept beside a debrief, from its text; null where it is not of this form: it is told anew. */
export function parseSquadRow(json: string): SquadKept | null {
  try {
    return kept.safeParse(JSON.parse(json)).data ?? null;
  } catch {
    return null;
  }
}
