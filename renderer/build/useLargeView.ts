import { type RefObject, useRef, useState } from "react";

/** The picture as large as the window, or as the whole screen. */
export interface LargeView {
  readonly large: boolean;
  /** What fills the screen. */
  readonly section: RefObject<HTMLElement | null>;
  readonly onLarge: () => void;
  readonly onFullScreen: () => void;
}

/** A larger view of the picture; full screen ends by Escape, as the browser has it. */
export function useLargeView(): LargeView {
  const [large, setLarge] = useState(false);
  const section = useRef<HTMLElement>(null);
  const onFullScreen = () => {
    if (document.fullscreenElement !== null) void document.exitFullscreen();
    // Where the system refuses, the larger view is what there is.
    else void section.current?.requestFullscreen().catch(() => setLarge(true));
  };
  return { large, section, onLarge: () => setLarge((now) => !now), onFullScreen };
}
