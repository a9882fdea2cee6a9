import type { PanelValues } from "./panelValuesAt.ts";

/** Equal for two instants exactly when their pictures are the same; cheap to compare. `threadStep`: the instant or frame that the thread stands at. */
export function stateKey(values: PanelValues, threadStep: number | string): string {
  // Every value there is, also one that a later panel brings: a picture is drawn anew only where this differs.
  const { then, ...own } = values;
  return [
    ...Object.values(own),
    ...(then === undefined ? [] : [...Object.values(then.values), then.spotS]),
    threadStep,
  ].join("|");
}
