import { join } from "node:path";
import { expect, test } from "vitest";
import { chooseEncoder } from "../../main/render/chooseEncoder.edge.ts";
import { encodingFor } from "../../main/render/encoding.ts";
import { PRESETS, filmSizeFor } from "../../main/render/presets.ts";
import { testTools } from "../support/tools.ts";

test("hardware is used only after it has encoded a test, and what failed is said", async () => {
  const deaf = { ...testTools(), ffmpeg: join(process.cwd(), "test", "fixtures", "standins", "die.mjs") };
  const chosen = await chooseEncoder({ codec: "h264", hardware: true }, deaf);
  expect(chosen.encoder).toBe("libx264");
  expect(chosen.notes).toEqual(["The encoder h264_nvenc does not work here.", "The encoder h264_videotoolbox does not work here."]);
  expect(await chooseEncoder({ codec: "h264", hardware: false }, deaf)).toEqual({ encoder: "libx264", notes: [] });
});

test("HEVC comes with the tag that phones ask for", async () => {
  const { encoder } = await chooseEncoder({ codec: "hevc", hardware: false }, testTools());
  expect(["libx265", "libx264"]).toContain(encoder);
  expect(encodingFor(PRESETS.archive, "libx265", 60).options.join(" ")).toContain("-tag:v hvc1");
});

test("a phone film hits its size by two passes: 30 MB less sound, never more than 8 Mbit/s", () => {
  expect(encodingFor(PRESETS.phone, "libx264", 120).twoPassKbps).toBe(Math.floor((30 * 8000 * 0.97) / 120 - 160));
  expect(encodingFor(PRESETS.phone, "libx264", 5).twoPassKbps).toBe(8000);
  expect(encodingFor(PRESETS.share, "libx264", 120).twoPassKbps).toBeNull();
});

test("sizes of presets are even and never above the footage, but for a shape of their own", () => {
  const footage = { widthPx: 3840, heightPx: 2160 };
  expect(filmSizeFor(PRESETS.draft, footage)).toEqual({ widthPx: 960, heightPx: 540 });
  expect(filmSizeFor(PRESETS.share, footage)).toEqual({ widthPx: 1920, heightPx: 1080 });
  expect(filmSizeFor(PRESETS.archive, footage)).toEqual(footage);
  expect(filmSizeFor(PRESETS.phone, footage)).toEqual({ widthPx: 1080, heightPx: 1920 });
  expect(filmSizeFor(PRESETS.phone, footage, true)).toEqual(footage);
  expect(filmSizeFor(PRESETS.share, { widthPx: 1081, heightPx: 721 })).toEqual({ widthPx: 1082, heightPx: 722 });
  expect(filmSizeFor(PRESETS.draft, { widthPx: 1080, heightPx: 1920 })).toEqual({ widthPx: 540, heightPx: 960 });
});
