import { mkdirSync } from "node:fs";
import { join } from "node:path";
import type { Locator, Page } from "playwright-core";

export type Hand = "pointer" | "keyboard";

/** What one screen took. */
export interface ScreenTaken {
  readonly title: string;
  clicks: number;
  keys: number;
  /** Sat through, s: until what was looked for could be pressed. */
  waitS: number;
  /** Words looked for in vain before others were found. */
  readonly inVain: string[];
  /** What the Tab key was pressed for, and how often, where it took more than `FAR` presses. */
  readonly far: string[];
}

/** What is asked of an element of the page. */
interface PageElement {
  readonly id: string;
  matches(selector: string): boolean;
  closest(selector: string): PageElement | null;
  getAttribute(name: string): string | null;
}

const ROLES = ["button", "link", "menuitem", "tab", "option", "checkbox", "radio", "listitem", "row"] as const;
/** Tab presses from which a control counts as far away. */
const FAR = 15;
/** Tab presses after which a person gives up. */
const MOST_TABS = 150;
/** How long one looks for words before trying others, s. */
const LOOK_S = 8;

/** One who knows the window only by what it says, and works by pointer alone or by keyboard alone. */
export class Newcomer {
  readonly screens: ScreenTaken[] = [];
  private readonly page: Page;
  private readonly hand: Hand;

  constructor(page: Page, hand: Hand) {
    this.page = page;
    this.hand = hand;
  }

  /** What follows counts for this screen. */
  async onScreen(title: string): Promise<void> {
    await this.picture();
    this.screens.push({ title, clicks: 0, keys: 0, waitS: 0, inVain: [], far: [] });
  }

  /** Presses the first control that says one of these, tried in this order. Rejects where nothing does. */
  async press(words: readonly RegExp[]): Promise<void> {
    await this.use(await this.find(words));
  }

  /** Chooses one of a list, as the list says. */
  async mark(words: readonly RegExp[]): Promise<void> {
    const control = await this.find(words);
    if (this.hand === "pointer") return this.click(control);
    await this.tabTo(control);
    await this.keys(this.page, "Space");
  }

  /** The screen at the end is kept too. */
  end(): Promise<void> {
    return this.picture();
  }

  /** The same as `press`, where it is there at all. */
  async pressIfThere(words: readonly RegExp[]): Promise<boolean> {
    const found = await this.seen(words);
    if (found === null) return false;
    await this.use(found.control);
    return true;
  }

  /** Writes into the first field that says one of these. */
  async fill(words: readonly RegExp[], text: string): Promise<void> {
    const field = await this.find(words, ["textbox", "spinbutton", "combobox", "searchbox"]);
    if (this.hand === "pointer") await this.click(field);
    else await this.tabTo(field);
    await this.keys(this.page, "ControlOrMeta+A");
    await this.page.keyboard.type(text);
    this.now.keys += text.length;
  }

  /** To the next step: by keyboard with the keys that every step has for it. */
  async goOn(words: readonly RegExp[]): Promise<void> {
    if (this.hand === "pointer") return this.press(words);
    const before = await this.heading();
    await this.keys(this.page, "Control+Enter");
    await this.sit(async () => {
      for (const endMs = performance.now() + 60_000; performance.now() < endMs; await this.page.waitForTimeout(100))
        if ((await this.heading()) !== before) return;
      throw new Error(`Ctrl Enter goes nowhere from ${before}`);
    });
  }

  /** Looks at what plays, without counting. */
  async look(seconds: number): Promise<void> {
    await this.page.waitForTimeout(seconds * 1000);
  }

  /** Sits until the screen says this. */
  async until(words: RegExp, atMostS: number): Promise<void> {
    await this.sit(() =>
      this.page
        .getByText(words)
        .filter({ visible: true })
        .first()
        .waitFor({ timeout: atMostS * 1000 }),
    );
  }

  /** Tells where one gave up, and what there was to press. */
  async stuck(error: unknown): Promise<void> {
    await this.picture();
    const there: string[] = [];
    for (const role of [...ROLES, "textbox", "spinbutton", "combobox"] as const)
      for (const one of await this.page.getByRole(role).filter({ visible: true }).all())
        there.push(`${role} ${JSON.stringify((await nameOf(one)).slice(0, 80))}`);
    process.stdout.write(
      `  gave up on "${this.now.title}": ${String(error).split("\n")[0]}\n  there was: ${there.join(", ")}\n`,
    );
  }

  private get now(): ScreenTaken {
    return this.screens.at(-1)!;
  }

  private heading(): Promise<string> {
    return this.page.locator("[aria-current=step]").first().innerText({ timeout: 5000 });
  }

  private async find(
    words: readonly RegExp[],
    roles: Parameters<Page["getByRole"]>[0][] = [...ROLES],
  ): Promise<Locator> {
    const found = await this.sit(async () => {
      for (const endMs = performance.now() + LOOK_S * 1000; ; await this.page.waitForTimeout(100)) {
        const seen = await this.seen(words, roles);
        if (seen !== null || performance.now() > endMs) return seen;
      }
    });
    if (found === null) throw new Error(`nothing says ${words.join(" or ")}`);
    this.now.inVain.push(...found.inVain.map(({ source }) => source));
    return found.control;
  }

  private async seen(
    words: readonly RegExp[],
    roles: Parameters<Page["getByRole"]>[0][] = [...ROLES],
  ): Promise<{ readonly control: Locator; readonly inVain: readonly RegExp[] } | null> {
    // What lies behind an open dialog is not looked at.
    const dialog = this.page.locator("dialog:modal");
    const room = (await dialog.count()) > 0 ? dialog.last() : this.page;
    for (const [k, word] of words.entries())
      for (const role of roles) {
        const control = room.getByRole(role, { name: word, disabled: false }).filter({ visible: true }).first();
        if ((await control.count()) > 0) return { control, inVain: words.slice(0, k) };
      }
    return null;
  }

  private async use(control: Locator): Promise<void> {
    if (this.hand === "pointer") return this.click(control);
    await this.tabTo(control);
    await this.keys(this.page, (await control.getAttribute("type")) === "checkbox" ? "Space" : "Enter");
  }

  private async click(control: Locator): Promise<void> {
    await this.sit(() => control.click());
    this.now.clicks++;
  }

  private async keys(page: Page, chord: string): Promise<void> {
    await page.keyboard.press(chord);
    this.now.keys += chord.split(/\+(?=.)/).length;
  }

  /** By Tab, by arrow keys within a list, and by a button that says it leads to that list. */
  private async tabTo(control: Locator): Promise<void> {
    let presses = 0;
    for (; presses < MOST_TABS && !(await this.isAt(control)); presses++)
      await this.keys(
        this.page,
        (await this.isBeside(control)) ? "ArrowDown" : (await this.leadsTo(control)) ? "Enter" : "Tab",
      );
    if (presses >= MOST_TABS) throw new Error(`Tab does not reach ${await nameOf(control)}`);
    if (presses > FAR) this.now.far.push(`${await nameOf(control)}: ${presses}`);
  }

  /** Whether the keys go to it. In a list, one member is the marked one while the list has the focus. */
  private isAt(control: Locator): Promise<boolean> {
    return control.evaluate((given: unknown) => {
      const element = given as PageElement;
      const marked = element.closest("[aria-activedescendant]:focus")?.getAttribute("aria-activedescendant");
      return element.matches(":focus, :focus-within") || (element.id !== "" && marked === element.id);
    });
  }

  /** Whether what has the focus says that it leads to the list that holds it. */
  private async leadsTo(control: Locator): Promise<boolean> {
    const focused = this.page.locator("button:focus");
    if ((await focused.count()) === 0) return false;
    const to = /\bto the (.+?)\s*(Esc)?$/i.exec(await focused.innerText())?.[1]?.toLowerCase();
    const list = await control.evaluate((given: unknown) =>
      (given as PageElement).closest("ul, ol")?.getAttribute("aria-label"),
    );
    return to !== undefined && (list?.toLowerCase().startsWith(to) ?? false);
  }

  /** Whether the focus is in the list that holds it: one of a widget's, or one that is a single stop for Tab. */
  private isBeside(control: Locator): Promise<boolean> {
    return control.evaluate((given: unknown) => {
      const element = given as PageElement;
      const lists = "[role=listbox], [role=radiogroup], [role=tablist], [role=grid]";
      const list = element.closest(element.getAttribute("tabindex") === "-1" ? `${lists}, ul, ol` : lists);
      return list?.matches(":focus, :focus-within") ?? false;
    });
  }

  private async sit<T>(until: () => Promise<T>): Promise<T> {
    const startedMs = performance.now();
    try {
      return await until();
    } finally {
      this.now.waitS += (performance.now() - startedMs) / 1000;
    }
  }

  private async picture(): Promise<void> {
    const { FOLLOWCAR_SHOTS: folder } = process.env;
    if (folder === undefined || this.screens.length === 0) return;
    mkdirSync(folder, { recursive: true });
    const name = `${this.hand}-${this.screens.length}-${this.now.title.replaceAll(/[^a-z0-9]+/gi, "-")}.png`;
    await this.page.screenshot({ path: join(folder, name) });
  }
}

async function nameOf(control: Locator): Promise<string> {
  return ((await control.getAttribute("aria-label")) ?? (await control.innerText())).replaceAll(/\s+/g, " ").trim();
}

/** The table of what each screen took. */
export function printScreens(hand: Hand, screens: readonly ScreenTaken[]): void {
  const line = (title: string, cells: readonly (string | number)[], more = ""): string =>
    `  ${title.padEnd(26)}${cells.map((cell) => String(cell).padStart(8)).join("")}  ${more}\n`;
  process.stdout.write(
    `\nby ${hand}\n${line("screen", ["clicks", "keys", "wait, s"], "looked for in vain; far by Tab")}`,
  );
  for (const { title, clicks, keys, waitS, inVain, far } of screens)
    process.stdout.write(line(title, [clicks, keys, waitS.toFixed(1)], [...inVain, ...far].join("; ")));
  const sum = (of: (screen: ScreenTaken) => number): number => screens.reduce((all, screen) => all + of(screen), 0);
  process.stdout.write(
    line("in all", [sum(({ clicks }) => clicks), sum(({ keys }) => keys), sum(({ waitS }) => waitS).toFixed(1)]),
  );
}
