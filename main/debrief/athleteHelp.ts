import { PRESETS_BY_USE, USUAL_PRESET } from "../contract/presets.ts";

const presets = PRESETS_BY_USE.map((name) => `"${name}"${name === USUAL_PRESET ? " (default)" : ""}`);

/** What `followcar athlete --help` says about the keys of `athlete.json`. */
export const athleteHelp = `athlete.json holds what lasts from ride to ride. Only "name" must be there; a plan and the command line win over it.

  "name"          text
  "language"      "en" (default) or "de"
  "units"         "metric" (default) or "imperial"
  "preset"        ${presets.slice(0, -1).join(", ")} or ${presets.at(-1)}
  "road",         { "targetW", "toleranceW", "meterOffsetW", "foundDate", "foundHow", "foundMeter", "meter", "earlier" }:
  "trainer"       power asked for and either side of it, W; W that the meter reads too low (8) or too high (-8); the day
                  the target was found ("2026-05-01"), how, and with which meter; the meter ridden with now; and targets
                  before it: [{ "date", "targetW", "toleranceW", "source", "meter" }]. A ride is judged by the target of
                  its day; one more than 8 weeks old, or from another meter, is said.
  "events"        [{ "name", "dateText", "durationS" }]: the next one is trained for; dates written "2026-06-14" are
                  known to be past
  "homeZone"      { "latDeg", "lonDeg", "radiusM" }: hidden from maps, pictures and files
  "lessonConsent" { "given": true, "dateText": "in May, by message" }: may lessons for others be made

Example:
  { "name": "Ines Falk",
    "road": { "targetW": 160, "toleranceW": 10, "foundDate": "2026-05-01", "foundHow": "two steady hours", "meter": "crank" },
    "events": [{ "name": "Three Valleys", "dateText": "2026-06-14", "durationS": 12600 }] }
`;
