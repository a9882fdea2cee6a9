import { readdir, writeFile } from "node:fs/promises";
import { join } from "node:path";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { lent, made, unpacked } from "./deskParts.ts";
import { type OpenDesk, openDeskWithRide } from "./openDesk.ts";
import { failureSaid } from "../../support/said.ts";

describe("a ride on the desk", () => {
  let open: OpenDesk;
  let rides: string;
  beforeEach(async () => {
    ({ open, rides } = await openDeskWithRide());
  });
  afterEach(() => open.close());

  it("is read and judged, and nothing is written beside it", async () => {
    const view = open.view();
    expect(view.files).toMatchObject([{ id: "ride1", kind: "ride", name: "sunday.fit", shown: true, failure: null }]);
    expect(view.files[0]!.holds).toContain("power");
    expect(view.reading?.moments.length).toBe(view.momentWords.length);
    expect(view.reading?.moments.length).toBeGreaterThan(0);
    expect(view.told?.lines.every((line) => line.length > 10)).toBe(true);
    expect(view.told?.rows.map(({ label }) => label)).toContain("Main part");
    expect(view.told?.inWords.flat()).not.toContain("");
    expect(view.film?.items.length).toBeGreaterThan(2);
    expect(view.folder).toBe(join(rides, "sunday-debrief"));
    expect(await readdir(rides)).toEqual(["sunday.fit"]);
  });

  it("lends its columns in the documented form, anew with each reading", async () => {
    const { address, bytes } = {
      address: open.view().addresses.columns,
      bytes: await lent(open, open.view().addresses.columns),
    };
    const { values, columns } = unpacked(bytes);
    const seconds = Number(values.seconds);
    for (const name of ["power3s", "heartRate", "power30sW", "distanceM", "timerS", "countedS"])
      expect(columns.get(name)?.length, name).toBe(seconds);
    expect(columns.get("power3s.state")).toBeInstanceOf(Uint8Array);
    expect(columns.get("pressureState")).toBeInstanceOf(Uint8Array);
    await made(
      { part: "plan", value: { ...open.view().document.plan, targetW: 150, toleranceW: 10 }, label: "target" },
      open,
    );
    expect(open.view().addresses.columns).not.toBe(address);
    expect(unpacked(await lent(open, open.view().addresses.columns)).values.bandW).toMatchObject({ target: 150 });
  });

  it("lists a file it can't use, and the rest stays usable", async () => {
    const wrong = join(rides, "notes.fit");
    await writeFile(wrong, "not a ride at all");
    await writeFile(join(rides, "empty.mp4"), "");
    await open.api.addFiles([open.id(wrong), open.id(join(rides, "empty.mp4"))]);
    const unusable = open.view().files.filter(({ kind }) => kind === "unusable");
    expect(unusable.map(({ name }) => name)).toEqual(["notes.fit", "empty.mp4"]);
    for (const { failure } of unusable) {
      expect(failureSaid(failure).sentence).toMatch(/notes\.fit|empty\.mp4/);
      expect(failureSaid(failure).remedy.length).toBeGreaterThan(5);
    }
    await open.api.removeFile(unusable[0]!.id);
    expect(open.view().files.map(({ name }) => name)).toEqual(["sunday.fit", "empty.mp4"]);
    expect(open.view().reading).not.toBeNull();
  });

  it("takes a second ride, shows it on wish, and takes files off again, all undone", async () => {
    const csv = join(rides, "other.csv");
    await writeFile(
      csv,
      [
        "time,power,heart_rate",
        ...Array.from(
          { length: 1200 },
          (_, i) =>
            `${new Date(Date.UTC(2026, 4, 16, 8, 0, i)).toISOString()},${180 + (i % 7)},${130 + Math.floor(i / 200)}`,
        ),
      ].join("\n"),
    );
    await open.api.addFiles([open.id(csv)]);
    expect(open.view().files.map(({ id, shown }) => [id, shown])).toEqual([
      ["ride1", true],
      ["ride2", false],
    ]);
    await open.api.showRide("ride2");
    expect(open.view().files.find(({ shown }) => shown)?.name).toBe("other.csv");
    await open.api.removeFile("ride2");
    expect(open.view().files.map(({ id, shown }) => [id, shown])).toEqual([["ride1", true]]);
    await open.api.undo();
    await open.api.undo();
    expect(open.view().files.map(({ id, shown }) => [id, shown])).toEqual([
      ["ride1", true],
      ["ride2", false],
    ]);
    await expect(open.api.showRide("clip9")).rejects.toMatchObject({ code: "usage" });
  });

  it("tells ride times as typed", async () => {
    expect(await open.api.parseRideTime("0:10:00")).toMatchObject({ rideS: 600 });
    await expect(open.api.parseRideTime("99:00:00")).rejects.toMatchObject({ code: "anchor-not-valid" });
  });
});
