/** What is kept of where a person was in a debrief: the step, the part of the film, the moment of the ride, which other ride is drawn. */
export const PLACE_NAMES = ["step", "part", "moment", "otherRide"] as const;
export type PlaceName = (typeof PLACE_NAMES)[number];

/** Where a person was, as texts of the window's own; what is not there is not known. Kept on this computer, never in a debrief. */
export type KeptPlace = Readonly<Partial<Record<PlaceName, string>>>;
