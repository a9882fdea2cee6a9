import { writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { probeClip } from "../../../main/footage/probeClip.edge.ts";
import { iso6709Place, toldPlace } from "../../../main/footage/telemetry/placeText.ts";
import { readTelemetry } from "../../../main/footage/telemetry/readTelemetry.edge.ts";
import { testTools } from "../../support/tools.ts";
import { ffmpeg, scratchFolder } from "../makeClip.ts";

describe("a point as ISO 6709 writes it", () => {
  // Examples of ISO 6709:2008, annex H (from memory): one place in degrees, in degrees and minutes, and with seconds too.
  it.each([
    ["+40.20361-075.00417/", 40.20361, -75.00417],
    ["+4012.22-07500.25/", 40.20367, -75.00417],
    ["+401213.1-0750015.1/", 40.20364, -75.00419],
    ["+40-075CRSxxxx/", 40, -75],
    ["-90+000/", -90, 0],
    ["+27.5916+086.5640+8850CRSWGS_84/", 27.5916, 86.564],
    ["+47.6000+007.6000/", 47.6, 7.6],
  ])("%s", (text, latDeg, lonDeg) => {
    const place = iso6709Place(text)!;
    expect(place.latDeg).toBeCloseTo(latDeg, 4);
    expect(place.lonDeg).toBeCloseTo(lonDeg, 4);
  });

  it("is none where there is no fix, or no such place", () => {
    for (const text of ["+00.0000+000.0000/", "", "47.6, 7.6", "+95.0000+007.6000/", "20240601"])
      expect(iso6709Place(text)).toBeNull();
  });
});

describe("a line of text beside a film", () => {
  // The sentences that descriptions of NMEA 0183 print as their example, with their sums.
  it("tells a place by NMEA 0183", () => {
    const rmc = "$GPRMC,123519,A,4807.038,N,01131.000,E,022.4,084.4,230394,003.1,W*6A";
    expect(toldPlace(rmc)!.good).toBe(true);
    expect(toldPlace(rmc)!.speedMps).toBeCloseTo((22.4 * 1852) / 3600, 9);
    expect(toldPlace(rmc)!.latDeg).toBeCloseTo(48.1173, 4);
    expect(toldPlace(rmc)!.lonDeg).toBeCloseTo(11.516667, 5);
    const gga = "$GPGGA,123519,4807.038,N,01131.000,E,1,08,0.9,545.4,M,46.9,M,,*47";
    expect(toldPlace(gga)).toMatchObject({ good: true, utcMs: null });
    expect(toldPlace(`${gga}\r\n${rmc}`)!.speedMps).toBeGreaterThan(0);
  });

  it("tells none where the sentence's sum is wrong, and no good one without a fix", () => {
    expect(toldPlace("$GPRMC,123519,A,4807.038,N,01131.000,E,022.4,084.4,230394,003.1,W*6B")).toBeNull();
    const lost = "GPRMC,123519,V,4807.038,N,01131.000,E,022.4,084.4,230394,003.1,W";
    const sum = [...lost].reduce((x, c) => x ^ c.charCodeAt(0), 0).toString(16);
    expect(toldPlace(`$${lost}*${sum.padStart(2, "0")}`)).toMatchObject({ good: false });
  });

  it("tells a place by its names, and none in other words", () => {
    expect(toldPlace("speed 21 km/h, latitude: 47.61234 longitude: -7.59001")).toMatchObject({
      latDeg: 47.61234,
      lonDeg: -7.59001,
      good: true,
    });
    for (const text of ["", "Chapter 1", "Lap 3 at 47.6 km", "flat: 3.5 long: 4.5 hours"])
      expect(toldPlace(text)).toBeNull();
  });
});

describe("a clip's own words about where it was filmed", () => {
  const folder = scratchFolder();
  const picture = ["-f", "lavfi", "-i", "testsrc2=size=64x36:rate=30:duration=30"];
  const x264 = ["-c:v", "libx264", "-preset", "ultrafast", "-pix_fmt", "yuv420p"];
  const clock = (s: number) => `00:00:${String(s).padStart(2, "0")}`;
  /** Timed text by ffmpeg's own writer, a line a second. */
  const withLines = (name: string, line: (s: number) => string): string => {
    const srt = join(folder, `${name}.srt`);
    writeFileSync(
      srt,
      Array.from({ length: 29 }, (_, s) => `${s + 1}\n${clock(s)},000 --> ${clock(s + 1)},000\n${line(s)}\n`).join(
        "\n",
      ),
    );
    const path = join(folder, `${name}.mp4`);
    ffmpeg(...picture, "-i", srt, "-map", "0:v", "-map", "1:s", ...x264, "-c:s", "mov_text", path);
    return path;
  };
  const rmcAt = (s: number, status = "A") => {
    // North at 8 m/s from 47.5, 7.5, at noon.
    const lat = 47.5 + (8 * s) / 111_195;
    const minutes = ((lat - 47) * 60).toFixed(5).padStart(8, "0");
    const words = `GPRMC,1200${String(s).padStart(2, "0")},${status},47${minutes},N,00730.00000,E,15.551,0.0,010624,,`;
    const sum = [...words].reduce((x, c) => x ^ c.charCodeAt(0), 0);
    return `$${words}*${sum.toString(16).toUpperCase().padStart(2, "0")}`;
  };

  it("reads places, speeds and time of a text track in NMEA 0183", async () => {
    const clip = await probeClip(withLines("nmea", rmcAt), "1", testTools());
    expect(clip.hasTelemetry).toBe(true);
    const found = (await readTelemetry(clip))!;
    expect(found.lacks).toEqual([]);
    expect(found.positions!.mediaS).toHaveLength(29);
    expect(found.positions!.mediaS[20]).toBeCloseTo(20, 3);
    expect(found.positions!.latDeg[20]).toBeCloseTo(47.5 + 160 / 111_195, 6);
    expect(found.positions!.speedMps[3]).toBeCloseTo(8, 2);
    expect(found.utc!.source).toBe("NMEA");
    expect(Math.abs(found.utc!.startUtcMs - Date.UTC(2024, 5, 1, 12, 0, 0))).toBeLessThan(50);
  });

  it("reads places by ISO 6709 and by their names", async () => {
    const iso = (s: number) => `+${(47.5 + s * 1e-4).toFixed(5)}+007.50000+300/`;
    const named = (s: number) => `lat: ${(47.5 + s * 1e-4).toFixed(5)} lon: 7.50000`;
    for (const [name, line] of [
      ["iso", iso],
      ["named", named],
    ] as const) {
      const { positions } = (await readTelemetry(await probeClip(withLines(name, line), "1", testTools())))!;
      expect(positions!.latDeg).toHaveLength(29);
      expect(positions!.latDeg[10]).toBeCloseTo(47.501, 6);
      expect(positions!.speedMps[0]).toBeNaN();
    }
  });

  it("is no telemetry where the words are words, and says where there is no fix", async () => {
    const plain = await probeClip(
      withLines("plain", (s) => `Lap ${s}, well ridden`),
      "1",
      testTools(),
    );
    expect(plain.hasTelemetry).toBe(false);
    const lost = await probeClip(
      withLines("lost", (s) => rmcAt(s, "V")),
      "1",
      testTools(),
    );
    expect(await readTelemetry(lost)).toMatchObject({ positions: null, utc: null, lacks: [{ kind: "no fix" }] });
  });

  it("has the one point that a phone writes, from either place where phones write it", async () => {
    // The user data box of QuickTime (xyz after the copyright sign), and its metadata keys, by ffmpeg's own writer.
    const box = join(folder, "box.mp4");
    ffmpeg(...picture, ...x264, "-metadata", "location=+47.6000+007.6000/", box);
    expect((await probeClip(box, "1", testTools())).filmedAt).toEqual({ latDeg: 47.6, lonDeg: 7.6 });
    const keys = join(folder, "keys.mov");
    const key = "com.apple.quicktime.location.ISO6709=+47.6000+007.6000+300.1/";
    ffmpeg(...picture, ...x264, "-movflags", "use_metadata_tags", "-metadata", key, keys);
    expect((await probeClip(keys, "1", testTools())).filmedAt).toEqual({ latDeg: 47.6, lonDeg: 7.6 });
    const without = join(folder, "without.mp4");
    ffmpeg(...picture, ...x264, without);
    expect(await probeClip(without, "1", testTools())).not.toHaveProperty("filmedAt");
  });
});
