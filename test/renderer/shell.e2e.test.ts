// The shell around the screens: opens by itself, asks no one else for anything, and says so when the program is gone.
import { expect, it } from "vitest";
import { describeWindow, openWindow } from "./openWindow.ts";

describeWindow("the window", () => {
  it("opens on the files, without an error, asks only its own origin, and axe finds nothing serious", async () => {
    const window = await openWindow();
    try {
      const { page } = window;
      await page.getByRole("navigation").waitFor();
      const own = new URL(page.url()).origin;
      expect(await window.faults()).toEqual([]);
      expect(window.requests.filter((url) => !url.startsWith(own) && !/^(data|blob):/.test(url))).toEqual([]);
      expect(window.problems).toEqual([]);
    } finally {
      await window.close();
    }
  });
});
