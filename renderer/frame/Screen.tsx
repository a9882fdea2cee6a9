import { Gather } from "../gather/Gather.tsx";
import type { ScreenName } from "./screenName.ts";

interface Props {
  readonly name: ScreenName;
  /** A sheet over the screen, or null. */
  readonly sheet: "keys" | "about" | null;
  readonly onSheet: (sheet: "keys" | "about" | null) => void;
  readonly onGo: (name: ScreenName) => void;
}

/** The screen that is open, and the sheet over it. */
export function Screen({ name, onGo }: Props) {
  return name === "gather" ? <Gather onNext={() => onGo("lineup")} onAthletes={() => onGo("athletes")} /> : <main />;
}
