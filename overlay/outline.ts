import type { PathLike } from "./surface.ts";

/** An outline as numbers: operation (0 M, 1 L, 2 Q, 3 C, 4 Z), then its coordinates. */
type Operations = readonly number[];

const parsedOutlines = new Map<string, Operations>();
const COORDINATES: Readonly<Record<string, number>> = { M: 2, L: 2, Q: 4, C: 6, Z: 0 };
const LETTERS = "MLQCZ";

function parsed(outline: string): Operations {
  let operations = parsedOutlines.get(outline);
  if (operations === undefined) {
    operations = (outline.match(/[MLQCZ][^MLQCZ]*/g) ?? []).flatMap((part) => [
      LETTERS.indexOf(part.charAt(0)),
      ...part
        .slice(1)
        .split(" ")
        .filter((word) => word !== "")
        .map(Number),
    ]);
    parsedOutlines.set(outline, operations);
  }
  return operations;
}

/** Adds an outline to a path: SVG path data (SVG 1.1, 8.3) of absolute M, L, Q, C and Z, its origin at (x, y). */
export function traceOutline(path: PathLike, outline: string, x = 0, y = 0, scale = 1): void {
  const operations = parsed(outline);
  const at = (k: number): number => operations[k]! * scale;
  for (let k = 0; k < operations.length;) {
    const operation = operations[k]!;
    k += 1;
    if (operation === 0) path.moveTo(x + at(k), y + at(k + 1));
    else if (operation === 1) path.lineTo(x + at(k), y + at(k + 1));
    else if (operation === 2) path.quadraticCurveTo(x + at(k), y + at(k + 1), x + at(k + 2), y + at(k + 3));
    else if (operation === 3)
      path.bezierCurveTo(x + at(k), y + at(k + 1), x + at(k + 2), y + at(k + 3), x + at(k + 4), y + at(k + 5));
    else path.closePath();
    k += COORDINATES[LETTERS.charAt(operation)]!;
  }
}
