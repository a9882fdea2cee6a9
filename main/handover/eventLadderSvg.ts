import { escapeHtml } from "../../overlay/page/escapeHtml.ts";

export interface EventLadder {
  readonly title: string;
  readonly alt: string;
  /** Bars from top to bottom; `highS` null and `open` true: at least so long, drawn open-ended. */
  readonly rungs: readonly {
    readonly label: string;
    readonly text: string;
    readonly lowS: number;
    readonly highS: number | null;
    readonly kind: "asked" | "ridden";
  }[];
}

const WIDTH = 400;
const RUNG = 44;
const BAR = 14;

const fixed = (value: number): string => String(Math.round(value * 100) / 100);

/**
 * What the event asks for and what the ride held, as bars on one time scale from zero. A held time known only between
 * two ends is full to the lower and hatched to the upper; one known only as "at least" ends in an arrow.
 */
export function eventLadderSvg(ladder: EventLadder): string {
  const most = Math.max(1, ...ladder.rungs.map((rung) => rung.highS ?? rung.lowS * 1.05));
  const x = (seconds: number): number => (seconds / most) * (WIDTH - 20);
  const rungs = ladder.rungs.map((rung, index) => {
    const y = 18 + index * RUNG;
    const openEnd =
      rung.highS === null
        ? `<path class="${rung.kind}" d="M${fixed(x(rung.lowS))} ${y + 6}l9 7l-9 7z"/>`
        : rung.highS > rung.lowS
          ? `<rect class="maybe" x="${fixed(x(rung.lowS))}" y="${y + 6}" width="${fixed(x(rung.highS) - x(rung.lowS))}" height="${BAR}"/>`
          : "";
    return (
      `<text x="0" y="${y}" class="strong">${escapeHtml(rung.label)}: ${escapeHtml(rung.text)}</text>` +
      `<rect class="${rung.kind}" x="0" y="${y + 6}" width="${fixed(Math.max(1, x(rung.lowS)))}" height="${BAR}"/>${openEnd}`
    );
  });
  return (
    `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${WIDTH} ${ladder.rungs.length * RUNG + 4}" role="img" aria-labelledby="ladder-title ladder-desc">` +
    `<title id="ladder-title">${escapeHtml(ladder.title)}</title><desc id="ladder-desc">${escapeHtml(ladder.alt)}</desc>${rungs.join("")}</svg>`
  );
}
