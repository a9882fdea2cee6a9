import { useEffect, useRef, useSyncExternalStore } from "react";

/** What a key does on the screen that is open. */
export interface KeyBinding {
  /**
   * As `event.key` says it, with `Ctrl+`, `Alt+`, `Shift+` before it: `n`, `Shift+n`, `Ctrl+z`, `ArrowLeft`, `?`, ` `.
   * Ctrl stands for Command on a Mac too.
   */
  readonly keys: string;
  /** What it does, in words, for the sheet of keys. */
  readonly words: string;
  readonly run: (event: KeyboardEvent) => void;
  /** True: also while text is being typed. */
  readonly inFields?: boolean;
}

/** A group of keys under one heading, as the sheet of keys shows it. */
export interface KeyGroup {
  readonly title: string;
  readonly bindings: readonly KeyBinding[];
}

interface Registered {
  group: KeyGroup;
}

const registered: Registered[] = [];
const listeners = new Set<() => void>();
let shown: readonly KeyGroup[] = [];

function changed(): void {
  shown = registered.map((one) => one.group);
  for (const listener of listeners) listener();
}

/** The name of a pressed key in the form of `KeyBinding.keys`. */
function keyName(event: Pick<KeyboardEvent, "key" | "ctrlKey" | "metaKey" | "altKey" | "shiftKey">): string {
  const letter = /^[a-z]$/i.test(event.key);
  const key = letter ? event.key.toLowerCase() : event.key;
  // A sign such as `?` is what Shift made of its key; Shift is not named again.
  const shift = event.shiftKey && (letter || event.key.length > 1 || event.key === " ");
  return `${event.ctrlKey || event.metaKey ? "Ctrl+" : ""}${event.altKey ? "Alt+" : ""}${shift ? "Shift+" : ""}${key}`;
}

const NAMES: Readonly<Record<string, string>> = {
  ArrowLeft: "\u2190",
  ArrowRight: "\u2192",
  ArrowUp: "\u2191",
  ArrowDown: "\u2193",
  " ": "Space",
  Escape: "Esc",
  Delete: "Del",
  Backspace: "Back",
};

/** A key as a person reads it: `Shift+n` is `Shift N`. */
export function keyText(keys: string): string {
  const parts = keys.split(/\+(?=.)/);
  return parts.map((part) => NAMES[part] ?? (part.length === 1 ? part.toUpperCase() : part)).join(" ");
}

function typing(target: EventTarget | null): boolean {
  if (!(target instanceof HTMLElement)) return false;
  if (target.isContentEditable || target instanceof HTMLTextAreaElement || target instanceof HTMLSelectElement)
    return true;
  return (
    target instanceof HTMLInputElement && !["radio", "checkbox", "button", "submit", "range"].includes(target.type)
  );
}

/** What was last clicked by a pointer, until the focus goes on by Tab. */
let clicked: Element | null = null;

function onPointer(event: Event): void {
  clicked = event.target instanceof Element ? event.target.closest("button, summary") : null;
}

/** Keys that a focused control needs for itself. */
function controlKey(target: EventTarget | null, name: string): boolean {
  if (!(target instanceof HTMLElement)) return false;
  const pressed = name === " " || name === "Enter";
  const button = target.closest("button, a[href], summary");
  // Where the focus came by a click, and on the row that is chosen already, Space means what it means on the whole
  // screen: who has clicked Keep and then wants to see it play must not take it back.
  // On the name of the step that is open there is nothing to press.
  if (button?.getAttribute("aria-current") === "step") return false;
  if (button !== null)
    return pressed && !(name === " " && (button === clicked || button.getAttribute("aria-current") === "true"));
  if (target instanceof HTMLInputElement && (target.type === "radio" || target.type === "range"))
    return pressed || name.startsWith("Arrow");
  if (target instanceof HTMLInputElement && target.type === "checkbox") return name === " ";
  return (
    target.closest('[role="slider"], [role="listbox"], [role="tablist"], [role="menu"]') !== null &&
    (pressed || /^(Arrow|Page|Home|End)/.test(name))
  );
}

function onKey(event: KeyboardEvent): void {
  if (event.defaultPrevented) return;
  const name = keyName(event);
  if (event.key === "Tab") clicked = null;
  if (document.querySelector("dialog:modal") !== null) return;
  const types = typing(event.target);
  if (!types && controlKey(event.target, name)) return;
  for (const one of [...registered].reverse()) {
    const binding = one.group.bindings.find(
      (candidate) => candidate.keys === name && (!types || candidate.inFields === true),
    );
    if (binding === undefined) continue;
    event.preventDefault();
    binding.run(event);
    return;
  }
}

/**
 * Listens for keys while the component is there and lists them on the sheet of keys. Later components win; while a
 * dialog is open, none is heard.
 */
export function useKeys(title: string, bindings: readonly KeyBinding[]): void {
  const entry = useRef<Registered | null>(null);
  useEffect(() => {
    const own: Registered = { group: { title, bindings: [] } };
    entry.current = own;
    if (registered.length === 0) {
      window.addEventListener("keydown", onKey);
      window.addEventListener("pointerdown", onPointer, { capture: true });
    }
    registered.push(own);
    return () => {
      registered.splice(registered.indexOf(own), 1);
      if (registered.length === 0) {
        window.removeEventListener("keydown", onKey);
        window.removeEventListener("pointerdown", onPointer, { capture: true });
      }
      entry.current = null;
      changed();
    };
  }, [title]);
  useEffect(() => {
    if (entry.current === null) return;
    const before = entry.current.group.bindings.map((one) => one.keys + one.words).join("\n");
    entry.current.group = { title, bindings };
    if (before !== bindings.map((one) => one.keys + one.words).join("\n")) changed();
  });
}

/** All keys that are heard now, for the sheet. */
export function useKeyGroups(): readonly KeyGroup[] {
  return useSyncExternalStore(
    (listener) => {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    () => shown,
  );
}
