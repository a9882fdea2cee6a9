import { useRef } from "react";
import type { BesideAsk, DebriefView } from "../../main/contract/debriefApi.ts";
import { Button } from "../look/Button.tsx";
import { useKeys } from "../look/keys.ts";
import { skim as words } from "../words/skim.ts";

interface Props {
  readonly roads: DebriefView["roads"];
  /** Of the moment. */
  readonly span: { readonly startS: number; readonly endS: number };
  /** The shot that shows it; null: no shot does. */
  readonly shotId: string | null;
  readonly locked: boolean;
  readonly onShow: (ask: BesideAsk) => void;
}

/** Road shown before and after a moment, s. */
const AROUND_S = 5;

/** The rides that passed where a moment is: each beside this one in a shot of its own, or on the moment's picture. */
export function ShowBeside({ roads, span, shotId, locked, onShow }: Props) {
  const box = useRef<HTMLDivElement>(null);
  const passed = roads.flatMap(({ name, startS, endS }, road) =>
    startS <= span.startS && endS >= span.startS + 2 ? [{ name, road }] : [],
  );
  useKeys(words.views.moments, [
    { keys: "b", words: words.showBeside, run: () => box.current?.querySelector<HTMLElement>("button")?.focus() },
  ]);
  if (passed.length === 0) return null;
  const ask = (road: number, how: BesideAsk["how"]) => () =>
    onShow({
      road,
      startS: Math.max(0, span.startS - AROUND_S),
      endS: span.endS + AROUND_S,
      how,
      follow: "place",
      ownSecond: false,
      itemId: how === "thread" ? shotId : null,
    });
  return (
    <div ref={box} className="stack" role="group" aria-label={words.showBeside}>
      <h3>
        {words.showBeside} <kbd aria-hidden="true">B</kbd>
      </h3>
      <p className="small quiet">{words.besideHint}</p>
      {passed.map(({ name, road }) => (
        <div key={road} className="row">
          <Button disabled={locked} onClick={ask(road, "halves")}>
            {words.besideHalves(name)}
          </Button>
          {shotId !== null && (
            <Button kind="bare" disabled={locked} onClick={ask(road, "thread")}>
              {words.besideThread(name)}
            </Button>
          )}
        </div>
      ))}
    </div>
  );
}
