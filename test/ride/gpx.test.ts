import { describe, expect, test } from "vitest";
import { parseRide } from "../../main/ride/parseRide.ts";
import { bytesOf, gpxText, isoAt, range, trkpt } from "../support/trackText.ts";
import { panelValuesAt } from "../../overlay/instant/panelValuesAt.ts";
import { shownColumns } from "../support/shownColumns.ts";
import { said, refused } from "../support/said.ts";

const read = (text: string) => parseRide(bytesOf(text), "ride.gpx");

describe("GPX", () => {
  test("sensors are found under any prefix and in any number of extensions", () => {
    const inside = (i: number) =>
      `<ele>400</ele><extensions><ns9:TrackPointExtension><ns9:hr>14${i}` +
      "</ns9:hr><ns9:cad>90</ns9:cad><ns9:atemp>21</ns9:atemp></ns9:TrackPointExtension></extensions>" +
      `<extensions><x:PowerExtension><x:PowerInWatts>${200 + i}</x:PowerInWatts></x:PowerExtension></extensions>`;
    const { raw, warnings } = read(gpxText(range(10).map((i) => trkpt(i * 2, inside(i)))));
    expect([...raw.heartRateBpm]).toEqual(range(10, 140));
    expect([...raw.powerW]).toEqual(range(10, 200));
    expect(raw.cadenceRpm[0]).toBe(90);
    expect(raw.temperatureC[0]).toBe(21);
    expect(said(warnings)).toContain("Speed is not in the file; it is worked out from the distance between places.");
  });

  test("plain power without any prefix, and speed of GPX 1.0", () => {
    const text = gpxText(
      range(20).map((i) => trkpt(i, `<speed>7.5</speed><extensions><power>250</power></extensions>`)),
      {
        open: '<gpx version="1.0" xmlns="http://www.topografix.com/GPX/1/0">',
      },
    );
    const { raw, warnings } = read(text);
    expect(raw.powerW[3]).toBe(250);
    expect(raw.speedMps[3]).toBe(7.5);
    expect(said(warnings)).toEqual([]);
  });

  test.each([
    ["a byte-order mark", (t: string) => `\uFEFF${t}`],
    ["blanks before the declaration", (t: string) => `\n   ${t}`],
    ["no declaration", (t: string) => t.replace(/<\?xml.*\?>\n/, "")],
    ["a prefix on every element", (t: string) => t.replace(/<(\/?)(gpx|trk|trkseg|trkpt|time)\b/g, "<$1g:$2")],
    ["blanks inside the time", (t: string) => t.replace(/<time>(.*?)<\/time>/g, "<time>\n  $1 \t</time>")],
    ["an undeclared encoding name", (t: string) => t.replace("UTF-8", "no-such-set")],
  ])("%s does no harm", (_, change) => {
    expect(read(change(gpxText(range(20).map((i) => trkpt(i))))).raw.count).toBe(20);
  });

  test("UTF-16 with its mark is read", () => {
    const text = gpxText(
      range(5).map((i) => trkpt(i)),
      { head: '<?xml version="1.0" encoding="UTF-16"?>' },
    );
    expect(parseRide(Uint8Array.from(Buffer.from(`\uFEFF${text}`, "utf16le")), "wide.gpx").raw.count).toBe(5);
  });

  test.each([
    ["2026-05-17T10:00:00+02:00", Date.UTC(2026, 4, 17, 8), 120],
    ["2026-05-17T04:30:00-0330", Date.UTC(2026, 4, 17, 8), -210],
    // UTC says nothing of the rider's clock: the place does.
    ["2026-05-17T08:00:00.250Z", Date.UTC(2026, 4, 17, 8) + 250, 120],
    ["2026-05-17T08:00:00,5Z", Date.UTC(2026, 4, 17, 8) + 500, 120],
    ["2026-05-17 08:00:00", Date.UTC(2026, 4, 17, 8), 120],
  ])("the time %s", (time, ms, offset) => {
    const ride = read(gpxText([`<trkpt lat="47" lon="11"><time>${time}</time><ele>1</ele></trkpt>`]));
    expect(ride.startUtcMs).toBe(ms);
    expect(ride.utcOffsetMin).toBe(offset);
  });

  test("a time without a zone is taken as UTC and said", () => {
    const ride = read(gpxText(range(20).map((i) => trkpt(i).replace("Z<", "<"))));
    expect(ride.startUtcMs).toBe(Date.UTC(2026, 4, 17, 8));
    expect(said(ride.warnings)).toContain("Times in the file name no zone; they are taken as UTC.");
  });

  test("where a segment ends all figures go at once, a speed worked out from places too", () => {
    const sensors = "<ele>400</ele><extensions><hr>140</hr><cad>90</cad><power>200</power></extensions>";
    const points = (from: number, until: number) =>
      range(until - from, from)
        .map((i) => trkpt(i, sensors))
        .join("");
    const ride = read(gpxText([`${points(0, 60)}</trkseg><trkseg>${points(64, 200)}`]));
    const columns = shownColumns(ride);
    const figures = (s: number) => {
      const { powerW, heartRateBpm, cadenceRpm, speedMps, gradientPercent } = panelValuesAt(columns, s);
      return [powerW, heartRateBpm, cadenceRpm, speedMps, gradientPercent];
    };
    expect(figures(40.5).every((value) => value !== null)).toBe(true);
    for (const s of [60.5, 61.5, 62.5, 63.5]) expect(figures(s), `${s}`).toEqual([null, null, null, null, null]);
    // The way between the segments was not recorded: at 8 m/s before, and again at once after.
    for (const s of [57, 58, 59, 64, 65, 66]) expect(panelValuesAt(columns, s).speedMps, `${s}`).toBeCloseTo(8, 1);
  });

  test("over a hole figures stand for 3 s, a gradient and a speed worked out for none of it", () => {
    const points = range(200)
      .filter((i) => i < 60 || i >= 65)
      .map((i) => trkpt(i, "<ele>400</ele><extensions><hr>140</hr></extensions>"));
    const columns = shownColumns(read(gpxText(points)));
    const at = (s: number) => panelValuesAt(columns, s);
    expect([at(62.5).heartRateBpm, at(63.5).heartRateBpm]).toEqual([140, null]);
    expect([at(62.5).speedMps !== null, at(63.5).speedMps]).toEqual([true, null]);
    expect([at(59.5).gradientPercent, at(60.5).gradientPercent, at(64.5).gradientPercent]).toEqual([0, null, null]);
  });

  test("a record between whole seconds is shown from its own time on", () => {
    // 0, 1.4, 2.3, 3.4, ...: each a beat more than the one before.
    const at = (i: number) => i + (i === 0 ? 0 : i % 2 === 1 ? 0.4 : 0.3);
    const points = range(60).map((i) => trkpt(at(i), `<extensions><hr>${100 + i}</hr></extensions>`));
    const columns = shownColumns(read(gpxText(points)));
    for (let i = 1; i < 59; i++) {
      expect(panelValuesAt(columns, at(i) - 0.02).heartRateBpm, `before ${at(i)}`).toBe(100 + i - 1);
      expect(panelValuesAt(columns, at(i)).heartRateBpm, `at ${at(i)}`).toBe(100 + i);
    }
  });

  test("segments are parted by pauses over which no distance is counted", () => {
    const first = range(60)
      .map((i) => trkpt(i))
      .join("");
    const second = range(60, 600)
      .map((i) => trkpt(i))
      .join("");
    const ride = read(gpxText([`${first}</trkseg><trkseg>${second}`]));
    expect(ride.gaps).toEqual([{ startS: 59, endS: 600, kind: "pause" }]);
    expect(ride.grid.distanceM![659]).toBeCloseTo(2 * 59 * 8, -1);
    expect(ride.grid.timerS[659]).toBe(118);
  });

  test("points without a time are left out and counted; most of them without is a refusal", () => {
    const points = range(30).map((i) => (i % 3 ? trkpt(i) : `<trkpt lat="47" lon="11"/>`));
    expect(said(read(gpxText(points)).warnings)).toContain("10 of 30 points have no time and are left out.");
    const few = range(30).map((i) => (i % 3 ? `<trkpt lat="47" lon="11"/>` : trkpt(i)));
    expect(refused(() => read(gpxText(few)))).toContain("Only 10 of the 30 points of ride.gpx have a time.");
  });

  test("a position at exactly 0,0 is none, and neither is one off the globe", () => {
    const at = (lat: string, lon: string, s: number) =>
      `<trkpt lat="${lat}" lon="${lon}"><time>${isoAt(s)}</time></trkpt>`;
    const ride = read(
      gpxText([
        trkpt(0),
        at("0", "0", 1),
        at("91", "0", 2),
        at("undefined", "undefined", 3),
        at("12", "200", 4),
        trkpt(5),
      ]),
    );
    expect([...ride.raw.latDeg].map((v) => v === v)).toEqual([true, false, false, false, false, true]);
    expect(said(ride.warnings)).toContain("1 position lies at exactly 0,0, where nobody rides: left out.");
  });

  test("damage inside costs the points it hit", () => {
    const points = range(30).map((i) => trkpt(i));
    points[10] = points[10]!.replace("</trkpt>", "</trkp");
    points[20] = "<<&&" + points[20];
    const ride = read(gpxText(points));
    expect(ride.raw.count).toBe(29);
    expect(said(ride.warnings).some((w) => w.startsWith("The file is damaged"))).toBe(true);
  });

  test("an ampersand that was not escaped costs nothing, on every point", () => {
    const ride = read(gpxText(range(3000).map((i) => trkpt(i, "<name>Pass & back</name><power>200</power>"))));
    expect(ride.raw.count).toBe(3000);
    expect(ride.raw.powerW.every((w) => w === 200)).toBe(true);
  });

  test.each(["<!-- no end", "<![CDATA[ no end", "<?no end", "<name a='no end>"])(
    "what is opened and never closed (%s) costs its point, again and again",
    (open) => {
      const ride = read(gpxText(range(2000).map((i) => trkpt(i, i % 100 === 50 ? open : ""))));
      expect(ride.raw.count).toBeGreaterThanOrEqual(1960);
    },
  );

  test("cut anywhere, it gives points that were whole or a refusal", () => {
    const text = gpxText(range(8).map((i) => trkpt(i, "<extensions><hr>150</hr></extensions>")));
    const whole = read(text);
    for (let cut = 1; cut < text.length; cut += 3) {
      let ride;
      try {
        ride = read(text.slice(0, cut));
      } catch (error) {
        expect((error as Error).message).toContain("ride.gpx");
        continue;
      }
      for (let i = 0; i < ride.raw.count; i++) {
        expect(ride.raw.timeS[i]).toBe(whole.raw.timeS[i]);
        expect([150, NaN]).toContain(ride.raw.heartRateBpm[i]);
      }
    }
  });

  test("two tracks are one ride, and said", () => {
    const part = (from: number) =>
      range(30, from)
        .map((i) => trkpt(i))
        .join("");
    const ride = read(gpxText([`${part(0)}</trkseg></trk><trk><trkseg>${part(100)}`]));
    expect(ride.raw.count).toBe(60);
    expect(said(ride.warnings)).toContain("The file holds 2 tracks; they are read as one ride.");
  });
});
