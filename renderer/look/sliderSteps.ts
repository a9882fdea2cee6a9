/** What the keys of a slider move it by: arrows a little, page keys more (WAI-ARIA's slider pattern). */
export function sliderSteps(little: number, more: number): Readonly<Record<string, number>> {
  return {
    ...{ ArrowLeft: -little, ArrowDown: -little, ArrowRight: little, ArrowUp: little },
    ...{ PageDown: -more, PageUp: more },
  };
}

/** Where the arrow keys move something on a picture to, right and down, in shares of it. */
export function arrowMoves(share: number): Readonly<Record<string, readonly [right: number, down: number]>> {
  return { ArrowLeft: [-share, 0], ArrowRight: [share, 0], ArrowUp: [0, -share], ArrowDown: [0, share] };
}
