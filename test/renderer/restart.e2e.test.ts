// The program ends and is started again, as on another day: the debrief comes back to the step, the part and the moment.
import { rm } from "node:fs/promises";
import { expect, it } from "vitest";
import { demoFiles } from "./demoFiles.ts";
import { gatherDemo } from "./gatherDemo.ts";
import { describeWindow, openWindow, temporaryHome, type OpenedWindow } from "./openWindow.ts";

describeWindow("a program that is started again", () => {
  const chosenPart = (opened: OpenedWindow) =>
    opened.page
      .locator(".build-part")
      .evaluateAll((parts) => parts.findIndex((one) => one.getAttribute("aria-current") === "true"));
  const chosenMoment = (opened: OpenedWindow) =>
    opened.page.locator('.skim-moment[aria-current="true"]').first().textContent();

  it("comes back to the step, the part and the moment of the debrief that is opened again", async () => {
    const home = await temporaryHome(await demoFiles());
    const first = await openWindow({ home });
    let moment: string | null = null;
    try {
      const { page } = first;
      await gatherDemo(first);
      await page.locator(".frame-step", { hasText: "Skim" }).click();
      await page.locator(".skim-moment").nth(3).click();
      await page.locator(".frame-saved", { hasText: "Saved" }).waitFor();
      moment = await chosenMoment(first);
      await page.keyboard.press("3");
      await page.locator(".build-part").nth(2).click();
      expect(await chosenPart(first)).toBe(2);
      await first.idle();
    } finally {
      await first.close();
    }
    const again = await openWindow({ home });
    try {
      const { page } = again;
      // Nothing opens by itself: it stands among the recent ones.
      await page.locator(".start-open").first().click();
      await page.locator(".build-parts").waitFor({ timeout: 30_000 });
      expect(await chosenPart(again)).toBe(2);
      await page.keyboard.press("2");
      await page.locator('.skim-moment[aria-current="true"]').first().waitFor();
      expect(await chosenMoment(again)).toBe(moment);
      // Put away from Files it begins there the next time.
      await page.keyboard.press("0");
      await page.getByRole("button", { name: "Clear the desk" }).click();
      await page.locator(".start-open").first().click();
      await page.getByRole("heading", { level: 1, name: "What is on the desk" }).waitFor();
      expect([...first.problems, ...again.problems]).toEqual([]);
    } finally {
      await again.close();
      await rm(home, { recursive: true, force: true, maxRetries: 3 });
    }
  }, 180_000);
});
