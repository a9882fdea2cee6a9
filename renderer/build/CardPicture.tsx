import { type Ref, useEffect, useMemo, useRef } from "react";
import type { CardItem } from "../../main/contract/film.ts";
import { paintCard } from "../../overlay/cards/paintCard.ts";
import type { Theme } from "../../overlay/theme.ts";
import type { Language } from "../../main/contract/languageAndUnits.ts";
import { cardForPainting } from "./cardForPainting.ts";

interface Props {
  readonly card: CardItem["card"];
  readonly theme: Theme;
  readonly language: Language;
  readonly className: string;
  /** Not read out: it goes out beneath the next picture. */
  readonly hidden?: boolean;
  readonly canvasRef?: Ref<HTMLCanvasElement>;
}

/** A card as the film's painter draws it, as large as its place. */
export function CardPicture({ card, theme, language, className, hidden = false, canvasRef }: Props) {
  const own = useRef<HTMLCanvasElement | null>(null);
  const painted = useMemo(() => cardForPainting(card), [card]);
  useEffect(() => {
    const canvas = own.current!;
    const draw = () => {
      const { width, height } = canvas.getBoundingClientRect();
      if (width < 1) return;
      canvas.width = Math.round(width * window.devicePixelRatio);
      canvas.height = Math.round(height * window.devicePixelRatio);
      paintCard(canvas.getContext("2d")!, painted, { width: canvas.width, height: canvas.height }, theme, language);
    };
    const sizes = new ResizeObserver(draw);
    sizes.observe(canvas);
    draw();
    return () => sizes.disconnect();
  }, [painted, language, theme]);
  return (
    <canvas
      ref={(canvas) => {
        own.current = canvas;
        if (typeof canvasRef === "function") canvasRef(canvas);
        else if (canvasRef) canvasRef.current = canvas;
      }}
      className={className}
      {...(hidden
        ? { "aria-hidden": true }
        : {
            role: "img",
            "aria-label": [painted.title, ...("lines" in painted ? painted.lines : [])].join(". "),
          })}
    />
  );
}
