import { readFile } from "node:fs/promises";
import { join } from "node:path";
import { afterAll, beforeAll, expect, it } from "vitest";
import { parseRide } from "../../main/ride/parseRide.ts";
import { gatherDemo } from "./gatherDemo.ts";
import { describeWindow, openWindow, type OpenedWindow } from "./openWindow.ts";

describeWindow("a clock that was filmed, in Line up", () => {
  let opened: OpenedWindow;
  beforeAll(async () => {
    opened = await openWindow();
    await gatherDemo(opened);
  });
  afterAll(() => opened.close());

  it("is offered the sharpest frames near the one that is shown; what is read in one is an anchor beside the first", async () => {
    const { page, demo, home } = opened;
    // Of a clip that is plainly sure the reason is told on wish.
    const why = page.locator(".place-more");
    await why.locator("summary").click();
    await why.getByText(/^one\sanchor/i).waitFor();
    await page.getByRole("button", { name: "Sharpest frames near here" }).click();
    const frames = page.getByRole("button", { name: /^Go to the sharp frame at/ });
    await frames.first().waitFor({ timeout: 90_000 });
    await page.getByText("read the clock in it and write it above").waitFor();
    const last = frames.nth((await frames.count()) - 1);
    const mediaS = (await last.textContent())!.split(":").reduce((sum, part) => sum * 60 + Number(part), 0);
    await last.click();
    await page.waitForFunction(
      (atS) => {
        const frame = Number(document.querySelector<HTMLElement>(".lineup .player")!.dataset.frame);
        return Math.abs(frame * (1001 / 30_000) - atS) < 0.02;
      },
      mediaS,
      { timeout: 30_000 },
    );
    await expect.poll(() => last.getAttribute("aria-pressed")).toBe("true");
    expect(await opened.faults()).toEqual([]);
    // What a clock in that frame would show, by the place that stands.
    const ride = parseRide(new Uint8Array(await readFile(join(home, "rides", demo.rideName))), demo.rideName);
    const rideS = Number(await page.getByRole("slider").getAttribute("aria-valuenow")) + mediaS;
    const local = new Date(ride.startUtcMs! + 60_000 * ride.utcOffsetMin! + 1000 * rideS);
    const field = page.getByLabel(/of the clip, the ride is at/);
    await field.fill(`clock ${local.toISOString().slice(11, 19)}`);
    await page.getByText(/^That is .* of the ride\.$/).waitFor();
    await field.press("Enter");
    await why.getByText(/2\sanchors, agreeing to\s0\.\d+\ss/).waitFor({ timeout: 60_000 });
    // A clock of whole seconds is read to a third of a second or so: the two are weighed by that.
    expect(await page.locator(".anchor-form ~ .rows li").count()).toBe(2);
  });
});
