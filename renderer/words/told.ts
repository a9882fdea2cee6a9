/** Text of what the ride says, on Files as beside the picture. */
export const told = {
  title: "What the ride says",
  lines: ["What was held", "To change", "Next ride"],
  planAndRide: "The plan and the ride",
  columns: { what: "", plan: "Plan", ride: "Ridden" },
  nothingAsked: "\u2013",
  heart: "The heart",
  chart: "Heart rate over the ride; said in words above.",
  chartKey: "Rings: first and last reading. Hatched: when the drift began.",
  sharesKey: { in: "at the plan", below: "below it", above: "above it", off: "no pressure", unknown: "not known" },
  pressedKey: { in: "pressure on the pedals", off: "no pressure", unknown: "not known" },
  byTheHour: "By the hour",
  inWords: "All of it in words",
} as const;
