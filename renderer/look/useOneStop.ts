import { type KeyboardEvent, type RefObject, useState } from "react";

type Id = string | number;

interface OneStop {
  /** For each row's control. */
  readonly row: (id: Id) => { readonly tabIndex: 0 | -1; readonly onFocus: () => void };
  /** For the list, where no other key of the screen goes through it. */
  readonly onKeyDown: (event: KeyboardEvent) => void;
}

/**
 * A list that is one stop for Tab, gone through by the arrow keys (WAI-ARIA Authoring Practices 1.2: a roving tabindex).
 * The stop is the chosen row, else the one last gone to, else the first.
 * @param rows what has a control, in their order
 * @param chosen the row that is chosen; null: none is
 */
export function useOneStop(list: RefObject<HTMLElement | null>, rows: readonly Id[], chosen: Id | null): OneStop {
  const [last, setLast] = useState<Id | null>(null);
  const stop = [chosen, last].find((id) => id !== null && rows.includes(id)) ?? rows[0];
  return {
    row: (id) => ({ tabIndex: id === stop ? 0 : -1, onFocus: () => setLast(id) }),
    onKeyDown(event) {
      if (event.altKey || event.ctrlKey || event.metaKey || event.shiftKey) return;
      const controls = [...(list.current?.querySelectorAll<HTMLElement>("[tabindex]") ?? [])];
      const at = controls.findIndex((one) => one === document.activeElement);
      const next = { ArrowDown: at + 1, ArrowUp: at - 1, Home: 0, End: controls.length - 1 }[event.key];
      if (at < 0 || next === undefined) return;
      event.preventDefault();
      controls[Math.max(0, Math.min(controls.length - 1, next))]?.focus();
    },
  };
}
