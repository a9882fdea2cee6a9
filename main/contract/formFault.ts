/** What is wrong with a file that has a form: a plan, an athlete's file, a debrief. */

/** Rules beyond types and bounds; a schema gives the rule itself where others give a message. */
const FORM_RULES = [
  "duration",
  "lower number first",
  "to after from",
  "target or range",
  "range without tolerance",
  "tolerance needs target",
  "tolerance below target",
  "event under 10 minutes",
  "blocks in order",
  "length of its parts",
  "day",
] as const;
export type FormRule = (typeof FORM_RULES)[number];

/** `path`: keys with points between them; empty for the whole. */
export type FormFault =
  /** `at`: where the parser stopped, in its own words; null where it said nothing. */
  | { readonly kind: "not JSON"; readonly at: string | null }
  | { readonly kind: "unknown keys"; readonly path: string; readonly keys: readonly string[] }
  | { readonly kind: "rule"; readonly path: string; readonly rule: FormRule }
  | { readonly kind: "type"; readonly path: string; readonly wanted: string }
  | { readonly kind: "too small"; readonly path: string; readonly least: number }
  | { readonly kind: "too big"; readonly path: string; readonly most: number }
  | { readonly kind: "not one of"; readonly path: string; readonly choices: readonly string[] }
  | { readonly kind: "other"; readonly path: string };

/** What is used of an issue as the checker gives it. */
interface Issue {
  readonly code?: string | undefined;
  readonly path: readonly PropertyKey[];
  readonly params?: Readonly<Record<string, unknown>> | undefined;
  readonly keys?: readonly string[];
  readonly expected?: unknown;
  readonly minimum?: number | bigint;
  readonly maximum?: number | bigint;
  readonly values?: readonly unknown[];
}

/** The first fault that a checker of forms found. */
export function formFault(issues: readonly Issue[]): FormFault {
  const issue = issues[0];
  if (issue === undefined) return { kind: "other", path: "" };
  const path = issue.path.map(String).join(".");
  const rule = FORM_RULES.find((one) => one === issue.params?.rule);
  if (rule !== undefined) return { kind: "rule", path, rule };
  switch (issue.code) {
    case "unrecognized_keys":
      return { kind: "unknown keys", path, keys: issue.keys ?? [] };
    case "invalid_type":
      return { kind: "type", path, wanted: String(issue.expected) };
    case "too_small":
      return { kind: "too small", path, least: Number(issue.minimum) };
    case "too_big":
      return { kind: "too big", path, most: Number(issue.maximum) };
    case "invalid_value":
      return { kind: "not one of", path, choices: (issue.values ?? []).map(String) };
    default:
      return { kind: "other", path };
  }
}
