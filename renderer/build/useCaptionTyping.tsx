import { type ReactNode, type RefObject, useState } from "react";
import type { FilmItem } from "../../main/contract/film.ts";
import { build as words } from "../words/build.ts";
import type { FilmStageHandle } from "./FilmStage.tsx";
import { captioned, withNewCaption } from "../film/filmEdits.ts";
import { TypedOnPicture } from "./TypedOnPicture.tsx";

interface Given {
  readonly item: FilmItem;
  readonly stage: RefObject<FilmStageHandle | null>;
  readonly locked: boolean;
  readonly onChange: (item: FilmItem, label: string) => void;
}

interface Typing {
  readonly itemId: string;
  readonly caption: number | null;
  /** Film time of the part at which a new one begins, s. */
  readonly itemS: number;
}

/** A caption that is being typed on the picture: a new one where the film stands, or one that is there. */
export function useCaptionTyping({ item, stage, locked, onChange }: Given): {
  readonly layer: ReactNode;
  /** Begins a new one, or opens the one of this number; missing: of the part that is open. */
  readonly begin: (caption: number | null, itemId?: string) => void;
} {
  const [typing, setTyping] = useState<Typing | null>(null);
  const begin = (caption: number | null, itemId = item.id) => {
    if (locked) return;
    stage.current?.stop();
    setTyping({ itemId, caption, itemS: stage.current?.place.itemS ?? 0 });
  };
  if (typing === null || typing.itemId !== item.id || item.type !== "shot") return { layer: null, begin };
  const { caption, itemS } = typing;
  const there = caption === null ? undefined : item.captions[caption];
  const done = (text: string | null) => {
    setTyping(null);
    if (text === null || text === (there?.text ?? "")) return;
    const shot =
      caption === null || there === undefined
        ? withNewCaption(item, itemS, text)
        : captioned(item, caption, { ...there, text });
    onChange(shot, words.labels.caption);
  };
  return {
    layer: (
      <TypedOnPicture
        key={caption ?? "new"}
        label={words.typeCaption}
        text={there?.text ?? ""}
        at={null}
        emShare={null}
        onDone={done}
      />
    ),
    begin,
  };
}
