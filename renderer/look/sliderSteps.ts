/** What the keys of a slider move it by: arrows a little, page keys more (WAI-ARIA's slider pattern). */
export function sliderSteps(little: number, more: number): Readonly<Record<string, number>> {
  return {
    ...{ ArrowLeft: -little, ArrowDown: -little, ArrowRight: little, ArrowUp: little },
    ...{ PageDown: -more, PageUp: more },
  };
}
