import type { Progress } from "../contract/job.ts";
import type { Language } from "../contract/languageAndUnits.ts";
import { plainText } from "./plainText.ts";
import { cliWords } from "../../overlay/words/cliWords.ts";
import { leftToSay, workText } from "../../overlay/words/workWords.ts";

const BAR = 20;

/** `shot 2 of 6  [#####...............]  27 %  about 40 s left` */
export function progressText(progress: Progress, language: Language): string {
  const done = Math.min(1, Math.max(0, progress.done));
  const filled = Math.round(done * BAR);
  const leftS = leftToSay(progress.leftS);
  const left = leftS === null || done === 1 ? "" : `  ${cliWords(language).aboutLeft(leftText(leftS))}`;
  return `${plainText(workText(progress.step, language))}  [${"#".repeat(filled)}${".".repeat(BAR - filled)}]  ${Math.round(done * 100)} %${left}`;
}

function leftText(seconds: number): string {
  return seconds < 90 ? `${Math.round(seconds)} s` : `${Math.round(seconds / 60)} min`;
}

/** Where progress goes: one line rewritten on a terminal, a new line every tenth part elsewhere. */
export class ProgressLine {
  private readonly stream: NodeJS.WriteStream;
  private lastTenth = -1;
  private lastStep = "";
  private open = false;
  private readonly language: Language;

  constructor(stream: NodeJS.WriteStream, language: Language) {
    this.stream = stream;
    this.language = language;
  }

  show(progress: Progress): void {
    const text = progressText(progress, this.language);
    if (this.stream.isTTY) {
      // A terminal that does not know how wide it is says 0.
      this.stream.write(`\r\x1b[K${text.slice(0, (this.stream.columns || 80) - 1)}`);
      this.open = true;
      return;
    }
    const tenth = Math.floor(progress.done * 10);
    const step = workText(progress.step, this.language);
    if (tenth === this.lastTenth && step === this.lastStep) return;
    this.lastTenth = tenth;
    this.lastStep = step;
    this.stream.write(`${text}\n`);
  }

  end(): void {
    if (this.open) this.stream.write("\n");
    this.open = false;
  }
}
