import { useState } from "react";
import type { FilmItem } from "../../main/contract/film.ts";
import type { FoldState } from "./Fold.tsx";

const OF_SHOT = [
  "cut",
  "pace",
  "hold",
  "captions",
  "drawings",
  "covers",
  "closeUp",
  "beside",
  "comment",
  "film",
  "look",
] as const;
const OF_CARD = ["text", "comment", "film", "look"] as const;
type FoldName = (typeof OF_SHOT)[number] | (typeof OF_CARD)[number];

/** The state of a section of the form, by its name. */
export type FoldOf = (name: FoldName) => FoldState;

/** Sections of the form beside the picture: one open at a time, the first of its kind where the open one is none of a part's. */
export function useFolds(item: FilmItem): FoldOf {
  const [wanted, setWanted] = useState<FoldName | null>("cut");
  const names: readonly FoldName[] = item.type === "shot" ? OF_SHOT : OF_CARD;
  const open = wanted === null || names.includes(wanted) ? wanted : names[0]!;
  return (name) => ({ open: open === name, onToggle: () => setWanted(open === name ? null : name) });
}
