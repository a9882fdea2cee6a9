import { noticeTexts } from "../../overlay/words/notices/noticeText.ts";
import { join } from "node:path";
import { expect, test } from "vitest";
import { chooseEncoder } from "../../main/render/chooseEncoder.edge.ts";
import { encodingFor, leastSizeMb, pictureKbps } from "../../main/render/encoding.ts";
import { PRESETS, filmSizeFor, fitFor } from "../../main/contract/presets.ts";
import { testTools } from "../support/tools.ts";

test("hardware is used only after it has encoded a test, and what failed is said", async () => {
  const deaf = { ...testTools(), ffmpeg: join(process.cwd(), "test", "fixtures", "standins", "die.mjs") };
  const { encoder, notes } = await chooseEncoder("hardware", deaf);
  expect({ encoder, notes: noticeTexts(notes, "en", "command") }).toEqual({
    encoder: "libx264",
    notes: [
      "The encoder h264_nvenc does not work here.",
      "The encoder h264_videotoolbox does not work here.",
      "libx264 is used instead.",
    ],
  });
  expect((await chooseEncoder("hevc", deaf)).encoder).toBe("libx264");
  expect(await chooseEncoder("x264", deaf)).toEqual({ encoder: "libx264", notes: [] });
  await expect(chooseEncoder("auto", deaf)).rejects.toMatchObject({ code: "tool-failed" });
  expect(await chooseEncoder("auto", testTools())).toEqual({ encoder: "libx264", notes: [] });
});

test("HEVC comes with the tag that phones ask for", async () => {
  const { encoder } = await chooseEncoder("hevc", testTools());
  expect(["libx265", "libx264"]).toContain(encoder);
  expect(encodingFor(PRESETS.archive, "libx265", 60).options.join(" ")).toContain("-tag:v hvc1");
});

test("a phone film keeps its size by a ceiling over constant quality, or at its mean rate where that is not to be had", () => {
  const kbps = Math.floor((30 * 8000 * 0.98) / 120 - 160);
  const [phone, share] = [PRESETS.phone, PRESETS.share].map((preset) =>
    encodingFor(preset, "libx264", 120, preset.sizeMb === null ? null : 1500).options.join(" "),
  );
  expect(phone).toContain("-crf 20 -maxrate 1500k -bufsize 1500k");
  expect(share).not.toContain("maxrate");
  expect(encodingFor(PRESETS.phone, "libx265", 120).options.join(" ")).toContain(`-b:v ${kbps}k`);
  const least = leastSizeMb(PRESETS.phone, 120);
  expect(pictureKbps(PRESETS.phone, least, 120)).toBeGreaterThanOrEqual(300);
  expect((least - 1) * 8000 * 0.98).toBeLessThan((300 + 160) * 120);
});

test("sizes of presets are even and hold the preset's lines", () => {
  const footage = { widthPx: 3840, heightPx: 2160 };
  expect(filmSizeFor(PRESETS.draft, footage)).toEqual({ widthPx: 960, heightPx: 540 });
  expect(filmSizeFor(PRESETS.share, footage)).toEqual({ widthPx: 1920, heightPx: 1080 });
  expect(filmSizeFor(PRESETS.archive, footage)).toEqual(footage);
  expect(filmSizeFor(PRESETS.phone, footage)).toEqual({ widthPx: 1080, heightPx: 1920 });
  expect(filmSizeFor(PRESETS.phone, footage, "as filmed")).toEqual({ widthPx: 1920, heightPx: 1080 });
  expect(filmSizeFor(PRESETS.share, footage, "1:1")).toEqual({ widthPx: 1080, heightPx: 1080 });
  expect(filmSizeFor(PRESETS.archive, footage, "9:16")).toEqual({ widthPx: 2160, heightPx: 3840 });
  expect(filmSizeFor(PRESETS.share, { widthPx: 1081, heightPx: 721 })).toEqual({ widthPx: 1082, heightPx: 722 });
  expect(filmSizeFor(PRESETS.draft, { widthPx: 1080, heightPx: 1920 })).toEqual({ widthPx: 540, heightPx: 960 });
  // Small footage is scaled up so that the figures are sharp; a draft is not.
  expect(filmSizeFor(PRESETS.share, { widthPx: 848, heightPx: 480 })).toEqual({ widthPx: 1272, heightPx: 720 });
  expect(filmSizeFor(PRESETS.draft, { widthPx: 640, heightPx: 360 })).toEqual({ widthPx: 640, heightPx: 360 });
});

test("a chosen shape is filled, the footage's own keeps its whole picture", () => {
  expect(fitFor(PRESETS.phone, null, null)).toBe("crop");
  expect(fitFor(PRESETS.phone, "as filmed", null)).toBe("pad");
  expect(fitFor(PRESETS.share, "1:1", null)).toBe("crop");
  expect(fitFor(PRESETS.share, "1:1", "pad")).toBe("pad");
});
