import { strip as words } from "../words/strip.ts";
import type { StripContent } from "./paintStrip.ts";
import { FONT, inside, type Pen, text } from "./stripPen.ts";

/** Room that the strip's buttons take at the top right, in heights of its letters. */
const TOOLS = 26;

/** Draws the moments' marks, the chosen one last, with its sentence. */
export function drawMoments(pen: Pen, { moments, selected }: Pick<StripContent, "moments" | "selected">): void {
  const { context, view, rooms } = pen;
  const { colours, textPx } = view;
  const y = rooms.moments.bottom - textPx * 0.5;
  const ordered = [...moments].sort((a, b) => Number(a.index === selected) - Number(b.index === selected));
  for (const moment of ordered) {
    const from = pen.x(moment.startS);
    const to = pen.x(moment.endS);
    if (to < rooms.left || from > rooms.right) continue;
    const chosen = moment.index === selected;
    const left = inside(pen, from);
    const right = Math.max(left + 2, inside(pen, to));
    if (chosen) {
      context.fillStyle = colours.ink;
      context.globalAlpha = 0.1;
      context.fillRect(left, rooms.moments.bottom, right - left, rooms.footage.bottom - rooms.moments.bottom);
      context.globalAlpha = 1;
      context.fillRect(left, y, right - left, 4);
    } else {
      context.fillStyle = colours.quiet;
      context.fillRect(left, y + 1, right - left, 2);
    }
    const radius = chosen ? 6.5 : 4.5;
    context.beginPath();
    context.arc(left, y + 2, radius, 0, 2 * Math.PI);
    context.fillStyle = moment.inFilm ? colours.ink : colours.ground;
    context.fill();
    context.lineWidth = chosen ? 2.6 : 1.8;
    context.strokeStyle = moment.keep === false ? colours.quiet : colours.ink;
    context.stroke();
    if (moment.keep === false) {
      context.beginPath();
      context.moveTo(left - radius - 1, y + 2 + radius + 1);
      context.lineTo(left + radius + 1, y + 2 - radius - 1);
      context.stroke();
    }
    if (!chosen) continue;
    context.font = `600 ${textPx}px ${FONT}`;
    const mostPx = rooms.right - TOOLS * textPx - rooms.left;
    const said = shortened(moment.words, mostPx, (one) => context.measureText(one).width);
    text(
      pen,
      said,
      Math.max(rooms.left, Math.min(left - 4, rooms.left + mostPx - context.measureText(said).width)),
      rooms.moments.top + textPx * 0.62,
      { colour: colours.ink, strong: true },
    );
  }
  text(pen, words.moments, 2, y + 2, { colour: colours.ink, strong: true });
}

/** A sentence as far as there is room for it, ended after a whole word: its details have all of it. */
export function shortened(said: string, mostPx: number, widthPx: (said: string) => number): string {
  if (widthPx(said) <= mostPx) return said;
  const parts = said.split(" ");
  while (parts.length > 1 && widthPx(`${parts.join(" ")} \u2026`) > mostPx) parts.pop();
  return `${parts.join(" ").replace(/[,:;]$/, "")} \u2026`;
}
