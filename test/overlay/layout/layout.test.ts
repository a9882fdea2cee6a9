import fc from "fast-check";
import { expect, test } from "vitest";
import { availableIn } from "../../../overlay/layout/availableIn.ts";
import {
  defaultLayoutOptions,
  defaultPanels,
  layoutFor,
  type AvailableChannels,
  type LayoutOptions,
} from "../../../overlay/layout/layout.ts";
import { textWidthPx } from "../../../overlay/drawText.ts";
import { panelValuesAt } from "../../../overlay/instant/panelValuesAt.ts";
import { panelTexts } from "../../../overlay/layout/panelTexts.ts";
import type { Rect } from "../../../overlay/surface.ts";
import { sampleRide } from "../support/sampleRide.ts";

const ALL = [...defaultPanels, "mainPart", "drift", "route"] as const;
const available = availableIn(sampleRide());

const apart = (a: Rect, b: Rect): boolean =>
  a.x + a.width <= b.x || b.x + b.width <= a.x || a.y + a.height <= b.y || b.y + b.height <= a.y;

const anyOptions: fc.Arbitrary<LayoutOptions> = fc.record({
  widthPx: fc.constantFrom(640, 854, 1280, 1920, 2560, 3840, 1080, 608),
  heightPx: fc.constantFrom(360, 480, 720, 1080, 1440, 2160, 1920),
  place: fc.constantFrom("bottom" as const, "top" as const, "left" as const, "right" as const),
  scale: fc.constantFrom(0.6, 1, 1.6),
  panels: fc.subarray([...ALL]),
  ink: fc.constantFrom("light" as const, "dark" as const),
  units: fc.constantFrom("metric" as const, "imperial" as const),
  language: fc.constantFrom("en" as const, "de" as const),
  showPlan: fc.boolean(),
  showThread: fc.boolean(),
  headLine: fc.boolean(),
  available: fc.record(
    Object.fromEntries(Object.keys(available).map((name) => [name, fc.boolean()])) as {
      [name in keyof AvailableChannels]: fc.Arbitrary<boolean>;
    },
  ),
});

test("whatever is asked for: even band in the picture, nothing overlaps, all text is title-safe (5 % of each edge, common practice)", () => {
  fc.assert(
    fc.property(anyOptions, (options) => {
      const { band, panels, thread, captionArea, scrim, type } = layoutFor(options);
      for (const length of [band.x, band.y, band.width, band.height]) expect(length % 2).toBe(0);
      expect(band.x + band.width).toBeLessThanOrEqual(options.widthPx);
      expect(band.y + band.height).toBeLessThanOrEqual(options.heightPx);
      expect(scrim.alpha.length).toBe(scrim.along === "rows" ? band.height : band.width);
      const rects = [
        ...panels.map((panel) => panel.rect),
        ...(thread === null ? [] : [thread]),
        ...(captionArea === null ? [] : [captionArea]),
      ];
      rects.forEach((rect, k) => {
        for (const value of [rect.x, rect.y, rect.width, rect.height]) expect(Number.isInteger(value)).toBe(true);
        expect(
          rect.x >= 0 && rect.y >= 0 && rect.x + rect.width <= band.width && rect.y + rect.height <= band.height,
        ).toBe(true);
        for (const other of rects.slice(k + 1)) expect(apart(rect, other)).toBe(true);
      });
      for (const panel of panels) {
        expect(band.x + panel.x).toBeGreaterThanOrEqual(Math.floor(options.widthPx * 0.05) - 1);
        expect(band.x + panel.x + panel.innerWidth).toBeLessThanOrEqual(options.widthPx * 0.95 + 2);
        expect(band.y + panel.labelY - type.labelPx).toBeGreaterThanOrEqual(options.heightPx * 0.05 - type.labelPx);
        expect(band.y + panel.baselineY).toBeLessThanOrEqual(options.heightPx * 0.95);
      }
    }),
    { numRuns: 150 },
  );
});

test("the longest time of a ride of any length keeps within the margin", () => {
  for (const seconds of [7800, 45_300]) {
    const columns = { ...sampleRide(), seconds };
    for (const [widthPx, heightPx] of [
      [1080, 1080],
      [1920, 1080],
      [1080, 1920],
    ] as const) {
      for (const place of ["bottom", "top", "left", "right"] as const) {
        for (const scale of [1, 1.3, 1.6]) {
          const usual = defaultLayoutOptions(widthPx, heightPx, availableIn(columns));
          const { band, panels, type, options } = layoutFor({ ...usual, place, scale });
          const time = panels.find(({ name }) => name === "time")!;
          const lastS = seconds - 1;
          const { figure, note } = panelTexts(
            "time",
            { ...panelValuesAt(columns, 0), rideS: lastS, countedS: lastS, phase: "main part" },
            options,
          );
          const figurePx = textWidthPx(figure, { sizePx: time.figurePx, weight: "strong", tabular: true });
          const notePx = textWidthPx(note, { sizePx: type.notePx, weight: "medium", tabular: true });
          const right = band.x + time.x + Math.max(figurePx, notePx);
          expect(right, `${seconds} s, ${widthPx} x ${heightPx}, ${place}, ${scale}`).toBeLessThanOrEqual(
            widthPx * 0.95 + 2,
          );
        }
      }
    }
  }
});

test("what the ride lacks is left out, with the reason, and the others close up", () => {
  const bare = layoutFor(
    defaultLayoutOptions(
      1280,
      720,
      availableIn(
        sampleRide({
          power3s: null,
          bandW: null,
          heartRate: null,
          likePowerBeats: new Float64Array(7800).fill(Number.NaN),
        }),
      ),
    ),
  );
  expect(bare.panels.map((panel) => panel.name)).toEqual(["cadence", "speed", "gradient", "time"]);
  expect(bare.hidden).toEqual([
    { panel: "heartRate", reason: "no heart rate" },
    { panel: "power", reason: "no power" },
  ]);
  expect(bare.panels[0]?.x).toBe(64);
  const trainer = layoutFor(defaultLayoutOptions(1280, 720, availableIn(sampleRide({ setting: "trainer" }))));
  expect(trainer.panels.map((panel) => panel.name)).toEqual(["heartRate", "cadence", "power", "time"]);
  const nothing = layoutFor({
    ...defaultLayoutOptions(1280, 720, available),
    panels: [],
    showThread: false,
    headLine: false,
  });
  expect(nothing.band).toEqual({ x: 0, y: 0, width: 0, height: 0 });
});

test("shapes: a row, two columns of three, three of two", () => {
  const grid = (width: number, height: number): number[] => {
    const { panels } = layoutFor(defaultLayoutOptions(width, height, available));
    const rows = [...new Set(panels.map((panel) => panel.rect.y))];
    return rows.map((y) => panels.filter((panel) => panel.rect.y === y).length);
  };
  expect(grid(1920, 1080)).toEqual([6]);
  expect(grid(1080, 1920)).toEqual([2, 2, 2]);
  expect(grid(1080, 1080)).toEqual([3, 3]);
});

test("720 to 2160 lines are the same layout, larger", () => {
  const small = layoutFor(defaultLayoutOptions(1280, 720, available));
  for (const times of [1.5, 2, 3]) {
    const large = layoutFor(defaultLayoutOptions(1280 * times, 720 * times, available));
    expect(large.type.figurePx).toBeCloseTo(small.type.figurePx * times, 9);
    large.panels.forEach((panel, k) => {
      const same = small.panels[k];
      expect(Math.abs(panel.x - (same?.x ?? 0) * times)).toBeLessThanOrEqual(times + 1);
      expect(
        Math.abs(panel.baselineY + large.band.y - ((same?.baselineY ?? 0) + small.band.y) * times),
      ).toBeLessThanOrEqual(2 * times + 1);
    });
  }
});

test("the scrim is full beneath all panels, rises smoothly and never falls back", () => {
  const { scrim, panels, theme } = layoutFor(defaultLayoutOptions(1920, 1080, available));
  // 0.54 of black gives white text 4.6:1 over snow by WCAG's formula.
  for (const { rect } of panels)
    for (let y = rect.y; y < rect.y + rect.height; y += 1) expect(scrim.alpha[y]).toBeGreaterThanOrEqual(0.54 * 255);
  expect(Math.max(...scrim.alpha)).toBe(Math.ceil(theme.scrimAlpha * 255));
  expect(scrim.alpha[0]).toBe(0);
  scrim.alpha.forEach((alpha, k) => k > 0 && expect(Math.abs(alpha - scrim.alpha[k - 1]!)).toBeLessThanOrEqual(3));
});
