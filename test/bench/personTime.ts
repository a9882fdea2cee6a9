// How long a person would take for what a script does in a fraction of it.
import { mkdirSync } from "node:fs";
import { join } from "node:path";
import type { Locator, Page } from "playwright-core";

/**
 * Seconds of the operators of the keystroke-level model: Card, Moran, Newell 1980, Communications of the ACM 23(7)
 * (from memory): a key by an average typist, pointing with a mouse, a hand from keyboard to mouse or back, making up
 * one's mind. A mouse button counts as a key.
 */
const KLM = { keyS: 0.28, pointS: 1.1, handS: 0.4, mindS: 1.35 } as const;
/** Words of one's own are thought of while they are typed: 19 words of 5 letters a minute (Karat and others 1999, from memory). */
const COMPOSED_LETTER_S = 60 / (19 * 5);
/** Common practice, no source. */
const WORDS_A_SECOND = 4;

/** Where a person's seconds go. */
export interface PersonSeconds {
  /** Keys, pointing, making up one's mind. */
  hands: number;
  /** Thinking of words and typing them. */
  writing: number;
  reading: number;
  /** Footage and film at the speed they were watched, and speaking. */
  watching: number;
  /** Sitting through what the machine does. */
  waiting: number;
}

export interface PersonStep {
  readonly title: string;
  readonly seconds: PersonSeconds;
}

/** One who works on a page as a person would, and counts what that would have taken. */
export class Person {
  readonly steps: PersonStep[] = [];
  private readonly page: Page;
  private hand: "mouse" | "keys" = "mouse";
  private readonly seen = new Set<string>();

  constructor(page: Page) {
    this.page = page;
  }

  /** What follows counts for this step. The screen at the end of the step before is kept in `FOLLOWCAR_SHOTS`. */
  async begin(title: string): Promise<void> {
    if (this.steps.length > 0) await this.picture(this.steps.at(-1)!.title);
    this.steps.push({ title, seconds: { hands: 0, writing: 0, reading: 0, watching: 0, waiting: 0 } });
  }

  /** Makes up one's mind, points and presses. */
  async click(target: Locator, options: Parameters<Locator["click"]>[0] = {}): Promise<void> {
    this.add("hands", KLM.mindS + this.handTo("mouse") + KLM.pointS + KLM.keyS);
    await target.click(options);
  }

  /** Points, presses, points elsewhere, lets go; shares of the target's size. */
  async drag(target: Locator, from: readonly [number, number], to: readonly [number, number]): Promise<void> {
    this.add("hands", KLM.mindS + this.handTo("mouse") + 2 * (KLM.pointS + KLM.keyS));
    const box = (await target.boundingBox())!;
    await this.page.mouse.move(box.x + box.width * from[0], box.y + box.height * from[1]);
    await this.page.mouse.down();
    await this.page.mouse.move(box.x + box.width * to[0], box.y + box.height * to[1], { steps: 8 });
    await this.page.mouse.up();
  }

  /** A choice of a list: opens it, points at one, presses. */
  async select(target: Locator, value: string): Promise<void> {
    this.add("hands", KLM.mindS + this.handTo("mouse") + 2 * (KLM.pointS + KLM.keyS));
    await target.selectOption(value);
    // Who has opened a list has the focus on it.
    await target.focus();
  }

  /** One key or chord; `decided`: it follows from what was just done, nothing has to be made up. */
  async key(keys: string, decided = false): Promise<void> {
    this.add("hands", (decided ? 0 : KLM.mindS) + this.handTo("keys") + KLM.keyS * keys.split(/\+(?=.)/).length);
    await this.page.keyboard.press(keys);
  }

  /** Words of one's own. */
  async write(text: string): Promise<void> {
    this.add("writing", this.handTo("keys") + COMPOSED_LETTER_S * text.length);
    await this.page.keyboard.type(text);
  }

  /** Leaves a field, by a click elsewhere where Escape does not: the screen's keys are heard again. */
  async leaveField(elsewhere: Locator, options: Parameters<Locator["click"]>[0] = {}): Promise<void> {
    await this.key("Escape", true);
    if ((await this.page.locator("input:focus, select:focus, textarea:focus").count()) > 0)
      await this.click(elsewhere, options);
  }

  /** Reads what a part of the screen says now, each line once. */
  async read(target: Locator): Promise<void> {
    const lines = (await target.allInnerTexts())
      .flatMap((text) => text.split("\n"))
      // The same words are the same line, whichever spaces hold them together.
      .map((line) => line.replaceAll(/\s+/g, " ").trim())
      .filter((line) => line !== "" && !this.seen.has(line));
    // Of a list that is shut only what is chosen is seen, but its text as the browser gives it has them all.
    for (const option of await target.locator("select option:not(:checked)").allInnerTexts()) {
      const at = lines.indexOf(option.trim());
      if (at >= 0) lines.splice(at, 1);
    }
    for (const line of lines) this.seen.add(line);
    this.add("reading", lines.reduce((sum, line) => sum + line.split(/\s+/).length, 0) / WORDS_A_SECOND);
  }

  /** Sits through what the machine does. */
  wait<T>(until: () => Promise<T>): Promise<T> {
    return this.timed("waiting", until);
  }

  /** Watches, at the speed at which it really runs. */
  watch<T>(until: () => Promise<T>): Promise<T> {
    return this.timed("watching", until);
  }

  /** The screen as it is now, in the folder `FOLLOWCAR_SHOTS` if that is named. */
  async picture(title: string): Promise<void> {
    const { FOLLOWCAR_SHOTS: folder } = process.env;
    if (folder === undefined) return;
    mkdirSync(folder, { recursive: true });
    const name = `${String(this.steps.length).padStart(2, "0")}-${title.trim().replaceAll(/[^a-z0-9]+/gi, "-")}.png`;
    await this.page.screenshot({ path: join(folder, name) }).catch(() => undefined);
  }

  private async timed<T>(what: keyof PersonSeconds, until: () => Promise<T>): Promise<T> {
    const startedMs = performance.now();
    try {
      return await until();
    } finally {
      this.add(what, (performance.now() - startedMs) / 1000);
    }
  }

  private handTo(hand: "mouse" | "keys"): number {
    const moves = this.hand !== hand;
    this.hand = hand;
    return moves ? KLM.handS : 0;
  }

  private add(what: keyof PersonSeconds, seconds: number): void {
    this.steps.at(-1)!.seconds[what] += seconds;
  }
}

/** All of a step, s. */
export function totalS(seconds: PersonSeconds): number {
  return seconds.hands + seconds.writing + seconds.reading + seconds.watching + seconds.waiting;
}
