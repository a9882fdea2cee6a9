/** Keys that take the tools of framing. */
export const FRAMING_KEYS = { cover: "h", closeUp: "k" } as const;
