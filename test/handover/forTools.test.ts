import { parse } from "csv-parse/sync";
import { spawnSync } from "node:child_process";
import { mkdtemp, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import type { Film, Shot } from "../../main/contract/film.ts";
import type { Moment } from "../../main/contract/reading.ts";
import { chaptersTxt } from "../../main/handover/chaptersTxt.ts";
import { ffmetadata } from "../../main/handover/ffmetadata.ts";
import { filmCaptions, filmChapters } from "../../main/handover/filmText.ts";
import { momentsCsv } from "../../main/handover/momentsCsv.ts";
import { momentsJson, openMoments } from "../../main/handover/momentsJson.ts";
import { timelineOtio } from "../../main/handover/timelineOtio.ts";
import { webVtt } from "../../main/handover/webVtt.ts";
import { filmClock } from "../../overlay/instant/filmClock.ts";
import { debriefWords } from "../../overlay/words/debriefWords.ts";
import { testTools } from "../support/tools.ts";
import { madeHandover } from "./madeHandover.ts";

const data = madeHandover();
const words = debriefWords("en");
const chapters = filmChapters(data.film, data.reading.moments, words);

interface Cue {
  readonly startS: number;
  readonly endS: number;
  readonly text: string;
}

/**
 * A strict reader of the file form of WebVTT (W3C, WebVTT: The Web Video Text Tracks Format, section 4.1, file body and
 * cue timings; from memory): throws on anything that form does not allow.
 */
function readVtt(text: string): Cue[] {
  const lines = text.split("\n");
  if (!/^\uFEFF?WEBVTT(?:[ \t].*)?$/.test(lines[0] ?? "")) throw new Error("no signature");
  if (lines[1] !== "") throw new Error("no blank line after the header");
  const cues: Cue[] = [];
  for (const block of lines
    .slice(2)
    .join("\n")
    .split(/\n\n+/)
    .filter((one) => one.trim() !== "")) {
    const [first = "", ...rest] = block.replace(/\n$/, "").split("\n");
    const timing = first.includes("-->") ? first : (rest.shift() ?? "");
    if (!first.includes("-->") && first.includes("-->")) throw new Error("arrow in identifier");
    const match =
      /^(?:(\d{2,}):)?([0-5]\d):([0-5]\d)\.(\d{3})[ \t]+-->[ \t]+(?:(\d{2,}):)?([0-5]\d):([0-5]\d)\.(\d{3})$/.exec(
        timing,
      );
    if (match === null) throw new Error(`bad timing: ${timing}`);
    const at = (from: number): number =>
      Number(match[from] ?? 0) * 3600 +
      Number(match[from + 1]) * 60 +
      Number(match[from + 2]) +
      Number(match[from + 3]) / 1000;
    const [startS, endS] = [at(1), at(5)];
    if (endS <= startS) throw new Error("a cue ends before it starts");
    if ((cues.at(-1)?.startS ?? 0) > startS) throw new Error("cues out of order");
    const payload = rest.join("\n");
    if (payload.includes("-->") || payload === "") throw new Error("bad payload");
    if (/<(?!\/?[cbiuv]\b)|&(?!amp;|lt;|gt;|nbsp;|lrm;|rlm;|#)/.test(payload))
      throw new Error(`bad payload: ${payload}`);
    cues.push({ startS, endS, text: payload.replaceAll("&lt;", "<").replaceAll("&gt;", ">").replaceAll("&amp;", "&") });
  }
  return cues;
}

describe("captions and chapters", () => {
  test("are WebVTT by its grammar, within the film, and say what the film shows", () => {
    const captions = readVtt(webVtt(filmCaptions(data.film)));
    const shots = data.film.items.filter((item): item is Shot => item.type === "shot");
    for (const caption of shots.flatMap((shot) => shot.captions))
      expect(captions.map((cue) => cue.text)).toContain(caption.text);
    expect(captions.at(-1)!.endS).toBeLessThanOrEqual(filmClock(data.film).lengthS + 0.001);
    const read = readVtt(webVtt(chapters));
    expect(read).toHaveLength(data.film.items.length);
    expect(read[0]!.startS).toBe(0);
    read.slice(1).forEach((cue, index) => expect(cue.startS).toBe(read[index]!.endS));
  });

  test("text that would break a cue does not", () => {
    const cues = readVtt(
      webVtt([
        { startS: 0, endS: 3, text: "a --> b\n\n\n<c>d & e\r\nf" },
        { startS: 1, endS: 2, text: " \n" },
      ]),
    );
    expect(cues).toEqual([{ startS: 0, endS: 3, text: "a --> b\n<c>d & e\nf" }]);
    expect(webVtt([])).toBe("WEBVTT\n\n");
  });

  // ffmpeg is the second reader: it reads both forms and gives back the same times and titles.
  test("ffmpeg reads the captions, and the chapters from the metadata file", async () => {
    const folder = await mkdtemp(join(tmpdir(), "vtt "));
    const { ffmpeg, ffprobe } = testTools();
    await writeFile(join(folder, "c.vtt"), webVtt(filmCaptions(data.film)));
    const srt = spawnSync(ffmpeg, ["-v", "error", "-i", join(folder, "c.vtt"), "-f", "srt", "-"], { encoding: "utf8" });
    expect(srt.stderr).toBe("");
    expect(srt.stdout.match(/-->/g)).toHaveLength(filmCaptions(data.film).length);
    await writeFile(join(folder, "m.txt"), ffmetadata("A = title; \\ #1 \\", chapters));
    const made = spawnSync(
      ffmpeg,
      [
        "-v",
        "error",
        "-f",
        "lavfi",
        "-i",
        "testsrc=s=64x64:r=5:d=110",
        "-i",
        join(folder, "m.txt"),
        "-map_metadata",
        "1",
        "-y",
        join(folder, "m.mp4"),
      ],
      { encoding: "utf8" },
    );
    expect(made.stderr).toBe("");
    const probed = spawnSync(
      ffprobe,
      ["-v", "error", "-show_chapters", "-show_format", "-of", "json", join(folder, "m.mp4")],
      { encoding: "utf8" },
    );
    const found = JSON.parse(probed.stdout) as {
      chapters: { start_time: string; tags: { title: string } }[];
      format: { tags: { title: string } };
    };
    expect(found.format.tags.title).toBe("A = title; \\ #1 ");
    expect(found.chapters.map((one) => one.tags.title)).toEqual(chapters.map((one) => one.text));
    found.chapters.forEach((one, index) => expect(Number(one.start_time)).toBeCloseTo(chapters[index]!.startS, 2));
  });

  test("the plain list starts at 0:00 and goes up, a line each", () => {
    const lines = chaptersTxt(chapters).trimEnd().split("\n");
    expect(lines).toHaveLength(chapters.length);
    expect(lines[0]).toMatch(/^0:00 \S/);
    expect(chaptersTxt([{ startS: 3661.9, endS: 4000, text: "a\nb" }])).toBe("1:01:01 a b\n");
  });
});

describe("moments", () => {
  test("CSV by RFC 4180, read by csv-parse, has the reading's numbers", () => {
    const moments: Moment[] = [
      { ...data.reading.moments[0]!, reason: `=cmd, "x"\r\ny`, numbers: { coastS: 12.5, peakW: null } },
      { ...data.reading.moments[1]!, numbers: { beforeW: 3 } },
    ];
    const rows: Record<string, string>[] = parse(momentsCsv(moments), { columns: true, record_delimiter: "\r\n" });
    expect(rows).toHaveLength(2);
    expect(rows[0]).toMatchObject({
      kind: "riseThenOff",
      startS: "1800",
      coastS: "12.5",
      peakW: "",
      beforeW: "",
      reason: `'=cmd, "x"\r\ny`,
      excused: "false",
    });
    expect(rows[1]).toMatchObject({ beforeW: "3", coastS: "" });
    expect(momentsCsv([])).toBe("rank,kind,startS,endS,reason,excused,setBy\r\n");
  });

  test("JSON never holds NaN, nor an odd heart reading that nobody picked", () => {
    const open = openMoments(data.reading.moments, [], new Set());
    const json = JSON.parse(momentsJson([...open, { ...open[0]!, numbers: { x: Number.NaN } }])) as {
      moments: { kind: string; numbers: Record<string, unknown> }[];
    };
    expect(json.moments.at(-1)!.numbers["x"]).toBeNull();
    expect(json.moments.map((one) => one.kind)).not.toContain("oddHeart");
    expect(openMoments(data.reading.moments, [6], new Set()).map((one) => one.kind)).toContain("oddHeart");
    expect(openMoments(data.reading.moments, [], new Set([0]))).not.toContain(data.reading.moments[0]);
  });
});

/**
 * Schema names and fields as the reference implementation serialises them. Timeline.1, Stack.1, Track.1, Clip.2,
 * TimeRange.1, RationalTime.1, ExternalReference.1 with their fields: tests/sample_data/effects.otio of OpenTimelineIO
 * (commit 67a1b3ec); Marker.2, LinearTimeWarp.1, FreezeFrame.1: its docs/tutorials/otio-serialized-schema.md (commit
 * 0337f514). `enabled`, `comment` and `available_image_bounds` are later additions of the same project (from memory).
 */
const FIELDS: Readonly<Record<string, { must: readonly string[]; may?: readonly string[] }>> = {
  "Timeline.1": { must: ["metadata", "name", "tracks", "global_start_time"] },
  "Stack.1": { must: ["metadata", "name", "source_range", "effects", "markers", "enabled", "children"] },
  "Track.1": { must: ["metadata", "name", "source_range", "effects", "markers", "enabled", "children", "kind"] },
  "Clip.2": {
    must: [
      "metadata",
      "name",
      "source_range",
      "effects",
      "markers",
      "enabled",
      "media_references",
      "active_media_reference_key",
    ],
  },
  "TimeRange.1": { must: ["duration", "start_time"] },
  "RationalTime.1": { must: ["rate", "value"] },
  "ExternalReference.1": {
    must: ["metadata", "name", "available_range", "target_url"],
    may: ["available_image_bounds"],
  },
  "Marker.2": { must: ["metadata", "name", "color", "marked_range"], may: ["comment"] },
  "LinearTimeWarp.1": { must: ["metadata", "name", "effect_name", "time_scalar"], may: ["enabled"] },
  "FreezeFrame.1": { must: ["metadata", "name", "effect_name", "time_scalar"], may: ["enabled"] },
};

describe("the timeline", () => {
  type Node = Record<string, unknown>;
  const urls = new Map(data.clips.map((clip) => [clip.id, { url: `clips/${clip.fileName}`, name: clip.fileName }]));
  const write = (film: Film): Node =>
    JSON.parse(timelineOtio(film, data.clips, data.reading.moments, words, "Base ride", urls)) as Node;

  function walk(value: unknown, visit: (node: Node) => void): void {
    if (Array.isArray(value)) value.forEach((one) => walk(one, visit));
    else if (typeof value === "object" && value !== null) {
      if ("OTIO_SCHEMA" in value) visit(value);
      Object.entries(value).forEach(([key, one]) => (key === "metadata" ? undefined : walk(one, visit)));
    }
  }

  const held: Shot = {
    ...data.film.items.find((item): item is Shot => item.type === "shot")!,
    id: "held",
    speed: 2,
    mediaStartS: 10,
    mediaEndS: 30,
    freezes: [{ atMediaS: 16, durationS: 4 }],
    crossfadeS: 0.5,
  };

  test.each([
    ["the automatic film", data.film],
    [
      "a film with speed, freeze and crossfade",
      { ...data.film, items: [data.film.items[0]!, held, { ...data.film.items[2]!, crossfadeS: 1 }] },
    ],
  ])("%s has the schemas and fields of the reference implementation", (_name, film) => {
    const seen = new Set<string>();
    const timeline = write(film);
    walk(timeline, (node) => {
      const schema = node["OTIO_SCHEMA"] as string;
      const fields = FIELDS[schema]!;
      expect(fields, schema).toBeDefined();
      const keys = Object.keys(node).filter((key) => key !== "OTIO_SCHEMA");
      for (const key of fields.must) expect(keys, `${schema} lacks ${key}`).toContain(key);
      for (const key of keys) expect([...fields.must, ...(fields.may ?? [])], `${schema} has ${key}`).toContain(key);
      seen.add(schema);
    });
    expect(seen).toContain("Marker.2");
    // The track is as long as the film, frame for frame, and no span leaves its media.
    const track = ((timeline["tracks"] as Node)["children"] as Node[])[0]!;
    const children = track["children"] as Node[];
    const value = (node: unknown, key: string): number => ((node as Node)[key] as Node)["value"] as number;
    const total = children.reduce((sum, clip) => sum + value(clip["source_range"], "duration"), 0);
    expect(total).toBe(filmClock(film).frames);
    for (const clip of children) {
      const reference = (clip["media_references"] as Record<string, Node>)[
        clip["active_media_reference_key"] as string
      ]!;
      const available = reference["available_range"] as Node;
      expect(value(clip["source_range"], "start_time")).toBeGreaterThanOrEqual(0);
      if ((clip["effects"] as unknown[]).length === 0)
        expect(value(clip["source_range"], "start_time") + value(clip["source_range"], "duration")).toBeLessThanOrEqual(
          value(available, "duration") + 1,
        );
    }
  });

  test("a shot of which something is covered is a span of the film: its clip shows what is hidden", () => {
    const covers = [{ kind: "solid", keys: [{ atMediaS: 20, x: 0.4, y: 0.4, width: 0.2, height: 0.2 }] }] as const;
    const covered: Shot = { ...held, id: "covered", covers };
    // The same seconds, shown again in a shot that covers nothing itself.
    const again: Shot = { ...held, id: "again", freezes: [], crossfadeS: 0 };
    const elsewhere: Shot = { ...held, id: "elsewhere", mediaStartS: 40, mediaEndS: 50, freezes: [], crossfadeS: 0 };
    const tracks = write({ ...data.film, items: [covered, again, elsewhere] })["tracks"] as Node;
    const spans = ((tracks["children"] as Node[])[0]!["children"] as Node[]).map((clip) => {
      const reference = (clip["media_references"] as Record<string, Node>)[
        clip["active_media_reference_key"] as string
      ]!;
      return [reference["target_url"], (clip["effects"] as Node[]).length];
    });
    const clip = urls.get(held.clipId)!.url;
    expect(spans).toEqual([
      ["film.mp4", 0],
      ["film.mp4", 0],
      [clip, 1],
    ]);
  });

  test("speed is a time warp, a freeze is a freeze frame between two pieces", () => {
    const children = ((write({ ...data.film, items: [held] })["tracks"] as Node)["children"] as Node[])[0]![
      "children"
    ] as Node[];
    expect(children.map((clip) => (clip["effects"] as Node[])[0]!["OTIO_SCHEMA"])).toEqual([
      "LinearTimeWarp.1",
      "FreezeFrame.1",
      "LinearTimeWarp.1",
    ]);
    expect((children[0]!["effects"] as Node[])[0]!["time_scalar"]).toBe(2);
  });
});
