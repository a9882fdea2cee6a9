import { type RefObject, useEffect, useState } from "react";

/** Width of a box without its edges, px; 0 before it is laid out. */
export function useWidth(box: RefObject<HTMLElement | null>): number {
  const [widthPx, setWidthPx] = useState(0);
  useEffect(() => {
    const sizes = new ResizeObserver(() => setWidthPx(box.current!.clientWidth));
    sizes.observe(box.current!);
    return () => sizes.disconnect();
  }, [box]);
  return widthPx;
}
