// Every notice there is, in both languages and by both doors, written to dist/notices.txt for a person to read. The list
// of codes is taken from the tables themselves, which the compiler makes complete.
import type { Language } from "../../../../main/contract/languageAndUnits.ts";
import { mkdirSync, writeFileSync } from "node:fs";
import { basename } from "node:path";
import { describe, expect, it } from "vitest";
import type { FailureNotice, Notice } from "../../../../main/contract/notice.ts";
import { failuresDe, notesDe } from "../../../../overlay/words/notices/de/all.ts";
import { failuresEn, notesEn } from "../../../../overlay/words/notices/en/all.ts";
import { failureText, noticeText } from "../../../../overlay/words/notices/noticeText.ts";
import type { Door } from "../../../../overlay/words/notices/tables.ts";
import { sampleFailures, sampleNotes } from "./samples.ts";
import { cliFailures } from "../../../../overlay/words/notices/en/cli.ts";

const LANGUAGES: readonly Language[] = ["en", "de"];
const DOORS: readonly Door[] = ["window", "command"];

/** Sentences begin with a capital, a figure, a name or an option, end as sentences do, and show nothing of the code. */
function isPlain(text: string, where: string): void {
  expect(text, where).toMatch(/[.?!)"“]$/);
  expect(text, where).not.toMatch(/undefined|NaN|\[object|null|Infinity| {2}|\.\.(?![./])|: \.(?!\.)| ,|\n/);
}

const rows = [
  ...Object.entries(sampleFailures).flatMap(([code, all]) =>
    all.map((facts) => ({ failed: true, notice: { code, facts } as Notice })),
  ),
  ...Object.entries(sampleNotes).flatMap(([code, all]) =>
    all.map((facts) => ({ failed: false, notice: { code, facts } as Notice })),
  ),
];

describe("every notice", () => {
  it("has a sample of every code, and no code stands in both lists", () => {
    expect(Object.keys(failuresEn).sort()).toEqual(Object.keys(sampleFailures).sort());
    expect(Object.keys(notesEn).sort()).toEqual(Object.keys(sampleNotes).sort());
    expect(Object.keys(failuresEn).filter((code) => Object.hasOwn(notesEn, code))).toEqual([]);
    expect(Object.keys(failuresDe).sort()).toEqual(Object.keys(failuresEn).sort());
    expect(Object.keys(notesDe).sort()).toEqual(Object.keys(notesEn).sort());
  });

  it("that is a failure names the file or folder it is about, says what happened and what to do", () => {
    const faults: string[] = [];
    for (const { failed, notice } of rows) {
      if (!failed) continue;
      for (const language of LANGUAGES)
        for (const door of DOORS) {
          const { sentence, remedy } = failureText(notice as FailureNotice, language, door);
          const where = `${notice.code}, ${language}, ${door}`;
          if (sentence.split(/\s+/).length < 3) faults.push(`${where}: says not what happened: ${sentence}`);
          if (remedy.split(/\s+/).length < 2) faults.push(`${where}: says not what to do: ${remedy}`);
          for (const [fact, value] of Object.entries(notice.facts as Record<string, unknown>))
            if (/^(path|folder|fileName|ridePath|name)$/.test(fact) && typeof value === "string" && value !== "")
              if (!`${sentence} ${remedy}`.includes(basename(value))) faults.push(`${where}: names not ${value}`);
        }
    }
    expect(faults).toEqual([]);
  });

  it("is a plain sentence in both languages and by both doors", () => {
    const lines: string[] = [];
    for (const { failed, notice } of rows) {
      lines.push(`${notice.code} ${JSON.stringify(notice.facts)}`);
      const said = new Map<string, string>();
      for (const language of LANGUAGES) {
        for (const door of DOORS) {
          const where = `${notice.code}, ${language}, ${door}`;
          const texts = failed
            ? Object.values(failureText(notice as FailureNotice, language, door))
            : [noticeText(notice, language, door)];
          for (const text of texts) isPlain(text, where);
          // What only the command line can say is never read in the window.
          if (door === "window" && !Object.hasOwn(cliFailures, notice.code)) {
            expect(texts.join(" "), where).not.toMatch(/(^|[\s(`])--[a-z]/);
            expect(texts.join(" "), where).not.toMatch(/`(followcar|npm|ffmpeg) /);
          }
          const key = texts.join("\n      ");
          if (said.get(language) !== key) lines.push(`  ${language} ${door}: ${key}`);
          said.set(language, key);
        }
      }
      expect(said.get("de"), `${notice.code} is not put into German`).not.toBe(said.get("en"));
    }
    mkdirSync("dist", { recursive: true });
    writeFileSync("dist/notices.txt", `${lines.join("\n")}\n`);
  });
});
