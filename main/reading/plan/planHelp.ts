/** What `followcar plan --help` says about the keys of a plan file. */
export const planHelp = `A plan is a JSON file. Every key may be left out; what is missing is said by the reading where it matters.
A duration is a number of minutes (90), or text: "10:00" (10 min), "1:30:00", "90 min", "2 h 30".

  "title"        text, e.g. "Long base ride"
  "rider"        text
  "setting"      "road" (default), "trainer" or "group"
  "target"       power asked for, W
  "tolerance"    either side of it, W (default 12)
  "range"        [low, high] in W, instead of target and tolerance
  "heartBand"    [low, high] in beats a minute, where the ride is steered by heart rate
  "warmUp"       duration that does not count at the start
  "coolDown"     duration that does not count at the end
  "length"       duration of the whole ride, warm-up and cool-down in it; the athlete's page says and draws it
  "blocks"       [{ "from", "to", "kind", "target", "tolerance" }]: durations from the first record, in order;
                 kind "steady" (default), "effort" (no surge in it) or "rest" (no break in it, not judged)
  "skills"       [{ "skill", "repeats", "done" }]: to practise, "drops", "one hand", "breathing" or "corners"; done is
                 the coach's tick after the ride (also: followcar judge DEBRIEF --skill drops=3)
  "event"        { "name", "duration", "date" }: what the rider trains for; the date as 2026-09-06
  "floor"        power below which there is no pressure on the pedals, W (default 20, or 10 % of the target if more)
  "excuses"      reasons that excuse a break: "stopped", "corner", "braking", "steep descent" (the default four),
                 "slowed, cause not in the data"
  "limits"       { "leastFactor": 1.2, "aimFactor": 1.25, "leastCap": "4:00:00", "aimCap": "5:00:00", "drift": 5 }:
                 time without drift asked for, as multiples of the event, and where more is no use; the drift
                 at the same power that is acceptable, in beats
  "meterOffset"  W that the meter reads too low (8) or too high (-8): moves the band, never the watts shown
  "units"        "metric" (default) or "imperial"
  "note"         the rider's own words: { "feel", "heat", "foodAndDrink", "sleep", "illness", "medicine", "kit" }

Example:
  { "title": "Long base ride", "target": 160, "tolerance": 10, "warmUp": "18:00", "coolDown": "14:00",
    "event": { "name": "Three Valleys", "duration": "3 h 30" } }
`;
