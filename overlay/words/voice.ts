/**
 * Whom the words speak to: the athlete (`you`), or, in a lesson, others about the rider (`rider`). Each sentence gives
 * both its forms.
 */
export type Voice = (you: string, rider: string) => string;

/** To the athlete. */
export const toAthlete: Voice = (you) => you;

/** About the rider, to others. */
export const aboutRider: Voice = (_you, rider) => rider;
