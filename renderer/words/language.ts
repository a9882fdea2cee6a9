/** Language of the window's own words; those of film and page are the debrief's. */
export const WINDOW_LANGUAGE = "en";
