// A day at the desk without a window: moments kept and dropped, words written, undone and done again, as one action each
// 20 s of a skim session; what memory is kept after each eighth.
import { openDeskWithRide } from "../app/desk/openDesk.ts";

/** A person does something so often, s. */
const EVERY_S = 20;
const EIGHTHS = 8;

/** Works through so many minutes of a session without their waiting, and prints what is kept in memory as it goes. */
export async function benchSession(minutes: number): Promise<void> {
  const { open } = await openDeskWithRide();
  try {
    const actions = Math.round((minutes * 60) / EVERY_S);
    const kept: number[] = [];
    for (let k = 0; k < actions; k++) {
      const { document, reading, edit } = open.view();
      const moments = reading!.moments;
      const moment = moments[k % moments.length]!;
      const others = document.choices.filter(({ startS }) => startS !== moment.startS);
      const { kind, startS, endS } = moment;
      const choice = { kind, startS, endS, keep: k % 3 > 0, span: null, name: null, note: `Look up, ${k}` };
      await open.api.edit({ part: "choices", value: [...others, choice], label: `moment ${k}` }, edit);
      if (k % 4 === 1) await open.api.undo();
      if (k % 8 === 1) await open.api.redo();
      // What the window was told is the window's.
      open.states.splice(0, open.states.length - 1);
      if ((k + 1) % Math.ceil(actions / EIGHTHS) === 0) {
        globalThis.gc?.();
        kept.push(Math.round(process.memoryUsage().heapUsed / 2 ** 20));
        console.log(`${k + 1} of ${actions} actions: ${kept.at(-1)} MB kept, ${rssMb()} MB held`);
      }
    }
    console.log(`${minutes} min of a session: ${kept.join(", ")} MB kept after each eighth`);
  } finally {
    await open.close();
  }
}

function rssMb(): number {
  return Math.round(process.memoryUsage().rss / 2 ** 20);
}
