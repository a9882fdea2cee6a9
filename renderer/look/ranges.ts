/** What may be asked in fields that several forms have, for `NumberField`. */
export const TARGET_POWER = { unit: "W", least: 20, most: 1000 } as const;
export const TOLERANCE = { unit: "W", least: 1, most: 300 } as const;
export const METER_OFFSET = { unit: "W", least: -200, most: 200 } as const;
