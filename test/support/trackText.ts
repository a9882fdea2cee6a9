/** Texts of track files for tests. Every builder takes the inside of its points, so that a test shows what matters. */
export function gpxText(points: readonly string[], options: { head?: string; open?: string } = {}): string {
  const {
    head = '<?xml version="1.0" encoding="UTF-8"?>',
    open = '<gpx version="1.1" xmlns="http://www.topografix.com/GPX/1/1">',
  } = options;
  return `${head}\n${open}<trk><trkseg>${points.join("\n")}</trkseg></trk></gpx>`;
}

/** ISO time `s` seconds after 2026-05-17T08:00:00Z. */
export function isoAt(s: number): string {
  return new Date(Date.UTC(2026, 4, 17, 8) + s * 1000).toISOString();
}

/** A track point on a way north at 8 m/s, with whatever stands in `inside`. */
export function trkpt(s: number, inside = ""): string {
  return `<trkpt lat="${(47 + (s * 8) / 111_177).toFixed(7)}" lon="11"><time>${isoAt(s)}</time>${inside}</trkpt>`;
}

export function tcxText(laps: readonly string[], sport: "Running" | "Biking" | "Other" = "Biking"): string {
  return (
    `<?xml version="1.0"?><TrainingCenterDatabase ` +
    `xmlns="http://www.garmin.com/xmlschemas/TrainingCenterDatabase/v2"><Activities><Activity ` +
    `Sport="${sport}"><Id>${isoAt(0)}</Id>${laps.join("")}</Activity></Activities></TrainingCenterDatabase>`
  );
}

export function trackpoint(s: number, inside = ""): string {
  return `<Trackpoint><Time>${isoAt(s)}</Time>${inside}</Trackpoint>`;
}

export const bytesOf = (text: string): Uint8Array => new TextEncoder().encode(text);

export const range = (n: number, from = 0): number[] => Array.from({ length: n }, (_, i) => from + i);
