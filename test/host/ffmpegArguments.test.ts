import { expect, test } from "vitest";
import { ffmpegArguments } from "../../main/host/ffmpegArguments.edge.ts";

test("options stand before the input or output that they are for, and names are files whatever they look like", () => {
  const list = ffmpegArguments({
    inputs: [
      { source: "-odd: 50%.mp4", options: ["-ss", "1.5"] },
      { source: "testsrc2=s=16x16", options: ["-f", "lavfi"] },
      { source: "pipe:0", options: [] },
    ],
    filterGraph: "[0:v]null[v]",
    outputOptions: ["-map", "[v]", "-metadata", "title=two words"],
    output: "a b.mp4.part",
  });
  expect(list).toEqual([
    ...["-hide_banner", "-nostdin", "-nostats", "-loglevel", "warning", "-progress", "pipe:1", "-y"],
    ...["-protocol_whitelist", "file,pipe", "-format_whitelist", "mov,matroska,wav"],
    ...["-ss", "1.5", "-i", "file:-odd: 50%.mp4"],
    ...["-protocol_whitelist", "file,pipe", "-f", "lavfi", "-i", "testsrc2=s=16x16"],
    ...["-protocol_whitelist", "file,pipe", "-format_whitelist", "mov,matroska,wav", "-i", "pipe:0"],
    ...["-filter_complex", "[0:v]null[v]", "-map", "[v]", "-metadata", "title=two words", "file:a b.mp4.part"],
  ]);
});

test("where stdout carries what is read, no progress is written into it", () => {
  const list = ffmpegArguments({
    inputs: [{ source: "a.mp4", options: [] }],
    filterGraph: null,
    outputOptions: ["-f", "s16le"],
    output: "-",
    log: "verbose",
  });
  expect(list).not.toContain("-progress");
  expect(list.slice(3, 5)).toEqual(["-loglevel", "verbose"]);
  expect(list.at(-1)).toBe("-");
});
