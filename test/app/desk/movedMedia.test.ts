import { mkdir, rename } from "node:fs/promises";
import { join } from "node:path";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { made } from "./deskParts.ts";
import { type OpenDesk, openDeskWithRide } from "./openDesk.ts";

describe("a debrief opened elsewhere than it was made", () => {
  let open: OpenDesk;
  let rides: string;
  beforeEach(async () => {
    ({ open, rides } = await openDeskWithRide());
  });
  afterEach(() => open.close());

  it("asks for missing media once and finds them by content", async () => {
    await made({ part: "deviceDelayS", value: 0.5, label: "delay" }, open);
    await open.api.saveNow();
    await open.api.closeDebrief();
    const away = open.path("moved");
    await mkdir(join(away, "deep"), { recursive: true });
    await rename(join(rides, "sunday.fit"), join(away, "deep", "renamed.fit"));
    const folder = join(rides, "sunday-debrief");
    await open.api.openDebrief(open.id(folder), false);
    expect(open.view().missingMedia).toEqual([{ id: "ride1", name: "sunday.fit" }]);
    expect(open.view().reading).toBeNull();
    await expect(open.api.lookForMedia(open.id(rides))).rejects.toMatchObject({ code: "file-unreadable" });
    await open.api.lookForMedia(open.id(away));
    expect(open.view()).toMatchObject({
      missingMedia: [],
      document: { media: [{ path: "../../moved/deep/renamed.fit" }] },
    });
    expect(open.view().reading?.moments.length).toBeGreaterThan(0);
  });

  it("opens what was made elsewhere only when the person trusts its paths", async () => {
    await made({ part: "deviceDelayS", value: 0.5, label: "delay" }, open);
    await open.api.saveNow();
    await open.api.closeDebrief();
    const copied = join(rides, "from-someone");
    await rename(join(rides, "sunday-debrief"), copied);
    await expect(open.api.openDebrief(open.id(copied), false)).rejects.toMatchObject({ code: "debrief-not-trusted" });
    expect(open.states.at(-1)?.debrief).toBeNull();
    await open.api.openDebrief(open.id(copied), true);
    expect(open.view().reading).not.toBeNull();
  });
});
