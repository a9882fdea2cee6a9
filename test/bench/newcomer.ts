// A newcomer does the whole job in the real window, once by pointer and once by keyboard. What is looked for was written
// down from the README alone: the words a person would look for, in the order in which they come to mind.
import { cp, mkdtemp, mkdir, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { demoFiles } from "../renderer/demoFiles.ts";
import { Newcomer, printScreens, type Hand } from "./newcomerHand.ts";
import { openProgram } from "./openProgram.ts";

/** Does the job by each hand on a fresh home folder, and prints what each screen took. */
export async function benchNewcomer(): Promise<void> {
  const wanted = (["pointer", "keyboard"] as const).filter((hand) => !process.argv.includes(`no-${hand}`));
  for (const hand of wanted) await byHand(hand);
}

async function byHand(hand: Hand): Promise<void> {
  const demo = await demoFiles();
  const home = await mkdtemp(join(tmpdir(), "followcar-newcomer-"));
  try {
    const rides = join(home, "rides");
    await mkdir(rides);
    for (const name of [demo.rideName, "plan.json", ...demo.clipNames])
      await cp(join(demo.folder, name), join(rides, name));
    const program = await openProgram(home);
    try {
      program.page.setDefaultTimeout(60_000);
      await program.page.setViewportSize({ width: 1440, height: 900 });
      const newcomer = new Newcomer(program.page, hand);
      try {
        await wholeJob(newcomer);
      } catch (error) {
        await newcomer.stuck(error);
      }
      printScreens(hand, newcomer.screens);
    } finally {
      await program.close();
    }
  } finally {
    await rm(home, { recursive: true, force: true, maxRetries: 3 });
  }
}

/** Files, line up, skim, build, hand over: only by what the screen says. */
async function wholeJob(newcomer: Newcomer): Promise<void> {
  await newcomer.onScreen("first screen");
  await newcomer.press([/debrief a ride/i, /choose.*(ride|file)/i, /add.*(ride|file|footage)/i]);

  await newcomer.onScreen("files: choosing them");
  await newcomer.press([/^rides/i]);
  for (const name of [/bars-0001/i, /bars-0002/i, /bars-0003/i, /ride\.fit/i]) await newcomer.mark([name]);
  await newcomer.press([/^(choose|take|add|open|use)\b/i, /ok|done/i]);

  await newcomer.onScreen("files: rider and plan");
  await newcomer.fill([/watts|power|target/i], "160");
  await newcomer.goOn([/line up/i, /go on|next|continue/i]);

  await newcomer.onScreen("line up");
  await newcomer.pressIfThere([/it agrees/i]);
  await newcomer.goOn([/skim/i, /go on|next|continue/i]);

  await newcomer.onScreen("skim");
  for (const moment of [/no pressure for/i, /above the plan/i]) {
    await newcomer.press([moment]);
    await newcomer.press([/keep in the film/i, /keep/i]);
  }
  await newcomer.goOn([/build/i, /go on|next|continue/i]);

  await newcomer.onScreen("build");
  await newcomer.press([/^play/i, /play/i]);
  await newcomer.look(3);
  await newcomer.press([/^(pause|stop)/i, /play/i]);
  await newcomer.goOn([/hand over/i, /go on|next|continue/i]);

  await newcomer.onScreen("hand over");
  await newcomer.press([/^(make|render|write)/i, /hand over/i]);
  await newcomer.until(/^(done|ready|finished|handed over|written)\b/i, 5 * 60);
  await newcomer.end();
}
