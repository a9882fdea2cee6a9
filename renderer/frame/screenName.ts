/** The steps of a debrief in their order. */
export const STEPS = ["lineup", "skim", "build", "handover"] as const;

/** What the window shows: the files on the desk, a step, or the pages about athletes. */
export type ScreenName = "gather" | (typeof STEPS)[number] | "athletes";
