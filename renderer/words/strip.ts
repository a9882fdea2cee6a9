/** Text of the ride as one strip. */
export const strip = {
  title: "The whole ride",
  slider: "Place in the ride",
  sliderHint:
    "Click or drag to go there. Arrow keys move by 5 s, with Shift by a minute, Page up and down by 5 min. Ctrl and the wheel come closer.",
  nowhere: "not in the ride",
  moments: "moments",
  pressure: "pressure",
  onTheRoad: "on the road",
  power: "power",
  band: (range: string) => `band ${range}`,
  heart: "heart",
  bpm: "bpm",
  footage: "footage",
  closer: "Closer",
  wider: "Wider",
  whole: "Whole ride",
  countedStart: "Counted from",
  countedEnd: "Counted to",
  first: "First reading",
  last: "Last reading",
  onset: "Onset",
} as const;
