import { type RefObject, useEffect, useRef, useState } from "react";

/** The theme's colours as a canvas needs them: resolved. */
type CanvasColours = Readonly<
  Record<"ground" | "raised" | "sunk" | "ink" | "quiet" | "line" | "edge" | "band" | "off" | "above" | "wrong", string>
>;

const NAMES = ["ground", "raised", "sunk", "ink", "quiet", "line", "edge", "band", "off", "above", "wrong"] as const;

/** Colours in force at an element. A custom property holds both themes' colours, so a real property is read back. */
function coloursAt(element: HTMLElement): CanvasColours {
  const probe = document.createElement("span");
  // Nothing may fade from one colour to the next while they are read.
  probe.style.setProperty("transition", "none", "important");
  element.parentElement!.append(probe);
  const found = Object.fromEntries(
    NAMES.map((name) => {
      probe.style.color = `var(--${name})`;
      return [name, getComputedStyle(probe).color];
    }),
  );
  probe.remove();
  return found as CanvasColours;
}

/** What a canvas is drawn with. Sizes are CSS px; the context is scaled to the screen's pixels. */
export interface CanvasView {
  readonly widthPx: number;
  readonly heightPx: number;
  readonly colours: CanvasColours;
  /** The height of the window's letters, px: follows the person's text size. */
  readonly textPx: number;
}

/** A canvas as large as its box, drawn anew when `draw` changes, its box grows, or the theme turns. */
export function useCanvas(
  draw: (context: CanvasRenderingContext2D, view: CanvasView) => void,
): RefObject<HTMLCanvasElement | null> {
  const canvas = useRef<HTMLCanvasElement>(null);
  const [turn, setTurn] = useState(0);
  useEffect(() => {
    const again = () => setTurn((count) => count + 1);
    const sizes = new ResizeObserver(again);
    sizes.observe(canvas.current!);
    const scheme = matchMedia("(prefers-color-scheme: dark)");
    scheme.addEventListener("change", again);
    const themes = new MutationObserver(again);
    themes.observe(document.documentElement, { attributes: true, attributeFilter: ["data-theme"] });
    void document.fonts.ready.then(again);
    return () => {
      sizes.disconnect();
      scheme.removeEventListener("change", again);
      themes.disconnect();
    };
  }, []);
  useEffect(() => {
    const element = canvas.current!;
    const { width, height } = element.getBoundingClientRect();
    const ratio = window.devicePixelRatio;
    if (width < 1 || height < 1) return;
    element.width = Math.round(width * ratio);
    element.height = Math.round(height * ratio);
    const context = element.getContext("2d")!;
    context.setTransform(ratio, 0, 0, ratio, 0, 0);
    const textPx = Number.parseFloat(getComputedStyle(document.documentElement).fontSize) * 0.88;
    draw(context, { widthPx: Math.round(width), heightPx: Math.round(height), colours: coloursAt(element), textPx });
  }, [draw, turn]);
  return canvas;
}
