import { mkdtemp, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, expect, test } from "vitest";
import { chapterFile } from "../../main/render/joinParts.edge.ts";
import { testTools } from "../support/tools.ts";
import { runProgram } from "../support/video.ts";

let folder = "";
beforeAll(async () => (folder = await mkdtemp(join(tmpdir(), "chapters "))));
afterAll(() => rm(folder, { recursive: true, force: true }));

test("chapters come through ffmpeg whole, whatever their titles end in or hold", async () => {
  const titles = [
    "plain",
    "ends in \\",
    "two\rlines",
    "two\r\nlines",
    "a=b;c#d\\e",
    "[CHAPTER]",
    "\\",
    "nought\0in it",
    "last",
  ];
  const path = join(folder, "chapters.txt");
  await writeFile(path, chapterFile(titles.map((title, k) => ({ startS: k, endS: k + 1, title }))));
  await runProgram(testTools().ffmpeg, [
    ...["-v", "error", "-f", "lavfi", "-i", "sine=d=9", "-f", "ffmetadata", "-i", path],
    ...["-map", "0:a", "-map_chapters", "1", "-c:a", "aac", "-f", "mp4", join(folder, "film.mp4")],
  ]);
  const answer = await runProgram(testTools().ffprobe, [
    ...["-v", "error", "-of", "json", "-show_chapters", join(folder, "film.mp4")],
  ]);
  const { chapters } = JSON.parse(Buffer.from(answer).toString("utf8")) as {
    chapters: { tags: { title: string }; start_time: string }[];
  };
  expect(chapters.map(({ tags }) => tags.title.trimEnd())).toEqual(
    titles.map((title) =>
      title
        .replace("\0", "")
        .replace(/[\r\n]+/g, " ")
        .trimEnd(),
    ),
  );
  expect(chapters.map(({ start_time: start }) => Number(start))).toEqual(titles.map((_, k) => k));
});
