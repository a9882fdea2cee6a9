import { commonEn } from "./commonEn.ts";

/** All text of the window, English; one part for each screen. */
export const en = {
  common: commonEn,
} as const;
