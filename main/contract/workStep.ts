/** What is being worked on; `overlay/words/workWords.ts` says it. */
export type WorkStep =
  | { readonly what: "file"; readonly name: string }
  | { readonly what: "signals"; readonly fileName: string }
  | { readonly what: "shot" | "card"; readonly number: number; readonly count: number }
  | { readonly what: "clip"; readonly fileName: string | null; readonly number: number; readonly count: number }
  | { readonly what: "joining" | "placing" | "pages" | "handed over" | "demo made" }
  | { readonly what: "demo clips"; readonly count: number }
  | { readonly what: "ride"; readonly number: number; readonly count: number; readonly step: WorkStep };
