// A file's name from a stranger is shown and never obeyed by the terminal.
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, expect, it } from "vitest";
import { progressText } from "../../main/cli/progressLine.ts";
import { plainText } from "../../main/cli/plainText.ts";
import { demoRideFile } from "../../main/demo/demoRideFile.ts";
import { demoRide } from "../../main/demo/rideModel.ts";
import { runProgram } from "../support/runProgram.ts";

/** Clears the screen, names the window, writes backwards, goes to the line's start. */
const HOSTILE = "a\u001b[2J\u001b]0;pwned\u0007\u009b31m\u202e\rb.fit";
const COMMANDS = /[\u0000-\u0008\u000b-\u001f\u007f-\u009f\u202a-\u202e]/;

let folder = "";
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "followcar-plain-"));
  if (process.platform !== "win32") writeFileSync(join(folder, HOSTILE), demoRideFile(demoRide(7)));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

it("leaves words, tabs and line ends of either kind as they are", () => {
  const words = "Über die Kuppe\t214 W\r\nfollowed by 🚴 and לחץ\n";
  expect(plainText(words)).toBe(words);
  expect(plainText(HOSTILE)).not.toMatch(COMMANDS);
  expect(plainText(HOSTILE)).toMatch(/^a.*b\.fit$/);
});

it.skipIf(process.platform === "win32")("what is read, what is missing, and what is listed", async () => {
  const read = await runProgram(["read", HOSTILE], { cwd: folder });
  expect(read.code).toBe(0);
  expect(read.stdout).toContain("mean power");
  const missing = await runProgram(["read", `no${HOSTILE}`], { cwd: folder });
  expect(missing.code).toBe(3);
  for (const said of [read.stdout, read.stderr, missing.stderr]) expect(said).not.toMatch(COMMANDS);
});

it("what is being worked at", () => {
  const step = { what: "signals", fileName: HOSTILE } as const;
  expect(progressText({ done: 0.5, leftS: null, step }, "en")).not.toMatch(COMMANDS);
});
