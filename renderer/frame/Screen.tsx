import { Athletes } from "../athletes/Athletes.tsx";
import { Build } from "../build/Build.tsx";
import { desk } from "../desk/desk.ts";
import { Gather } from "../gather/Gather.tsx";
import { HandOver } from "../handover/HandOver.tsx";
import { LineUp } from "../lineup/LineUp.tsx";
import { About } from "../shortcuts/About.tsx";
import { KeySheet } from "../shortcuts/KeySheet.tsx";
import { Skim } from "../skim/Skim.tsx";
import type { ScreenName } from "./screenName.ts";

interface Props {
  readonly name: ScreenName;
  /** A sheet over the screen, or null. */
  readonly sheet: "keys" | "about" | null;
  /** Files are held over the window. */
  readonly over: boolean;
  readonly onSheet: (sheet: "keys" | "about" | null) => void;
  readonly onGo: (name: ScreenName) => void;
}

/** The screen that is open, and the sheet over it. */
export function Screen({ name, sheet, over, onSheet, onGo }: Props) {
  return (
    <>
      <Named name={name} over={over} onGo={onGo} />
      {sheet === "keys" && <KeySheet onClose={() => onSheet(null)} />}
      {sheet === "about" && <About onClose={() => onSheet(null)} />}
    </>
  );
}

function Named({ name, over, onGo }: Pick<Props, "name" | "over" | "onGo">) {
  switch (name) {
    case "gather":
      return <Gather over={over} onNext={() => onGo("lineup")} onAthletes={() => onGo("athletes")} />;
    case "lineup":
      return <LineUp onNext={() => onGo("skim")} />;
    case "skim":
      return <Skim onNext={() => onGo("build")} />;
    case "build":
      return <Build onNext={() => onGo("handover")} />;
    case "handover":
      return <HandOver />;
    case "athletes":
      return <Athletes onUse={(id) => void desk.beginDebrief(id).then(() => onGo("gather"))} />;
    default:
      return <main />;
  }
}
