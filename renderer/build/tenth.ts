/** Seconds as a field shows them, to a tenth. */
export const tenth = (valueS: number): number => Math.round(valueS * 10) / 10;
