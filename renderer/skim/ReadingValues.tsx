import type { ReactNode } from "react";
import type { ReadingView } from "../../main/contract/debriefApi.ts";
import type { Override, ValueOverride } from "../../main/contract/reading.ts";
import type { Span } from "../../main/contract/ride.ts";
import { clockText, wholeText } from "../../overlay/words/numbers.ts";
import { Button } from "../look/Button.tsx";
import { TextField } from "../look/TextField.tsx";
import { useKeys } from "../look/keys.ts";
import { skim as words } from "../words/skim.ts";
import { overrideOf } from "./overrides.ts";

type What = ValueOverride["what"];

export interface ValuesProps {
  readonly reading: ReadingView;
  readonly locked: boolean;
  /** Ride time on the screen now, s; null: none. */
  readonly here: () => number | null;
  readonly onGo: (rideS: number) => void;
  readonly onSet: (override: Override, label: string) => void;
  readonly onBack: (what: What, label: string) => void;
  readonly onWhy: (override: Override) => void;
}

/** The counted part, the readings of the heart and the onset of the drift, each to be set otherwise than computed. */
export function ReadingValues(props: ValuesProps) {
  const { reading, locked, onGo, onSet } = props;
  const { counted, drift } = reading;
  const set = useSetHere(props);
  const goTo = (atS: number | null) => atS !== null && onGo(atS);
  const shared = { ...props, overrides: reading.overrides };
  return (
    <section className="part">
      <header>
        <h2>{words.values}</h2>
      </header>
      <ul className="rows">
        <ValueRow
          {...shared}
          what="counted"
          value={`${clockText(counted.startS)}\u2013${clockText(counted.endS)}`}
          more={words.countedFrom(counted.source)}
        >
          <Button kind="bare" keys="c" disabled={locked} onClick={() => set("counted", "startS")}>
            {words.countedStart}
          </Button>
          <Button kind="bare" keys="Shift+c" disabled={locked} onClick={() => set("counted", "endS")}>
            {words.countedEnd}
          </Button>
        </ValueRow>
        {(["first", "last"] as const).map((what) => {
          const atS = what === "first" ? drift.firstAtS : drift.lastAtS;
          return (
            <ValueRow
              {...shared}
              key={what}
              what={what}
              value={reader(what === "first" ? drift.firstBpm : drift.lastBpm, atS)}
              more=""
            >
              <Button kind="bare" disabled={atS === null} onClick={() => goTo(atS)}>
                {words.goThere}
              </Button>
              <Button kind="bare" keys={what === "first" ? "h" : "e"} disabled={locked} onClick={() => set(what)}>
                {words.setHere}
              </Button>
            </ValueRow>
          );
        })}
        <ValueRow
          {...shared}
          what="onset"
          value={drift.onsetS === null ? words.noneShown : clockText(drift.onsetS)}
          more={
            drift.onsetLowS === null || drift.onsetHighS === null
              ? ""
              : words.between(clockText(drift.onsetLowS), clockText(drift.onsetHighS))
          }
        >
          <Button kind="bare" keys="d" disabled={locked} onClick={() => set("onset")}>
            {words.setHere}
          </Button>
          <Button
            kind="bare"
            disabled={locked || drift.onsetS === null}
            onClick={() => onSet({ what: "onset", set: null, reason: null }, words.labels.override(words.onset))}
          >
            {words.noOnset}
          </Button>
        </ValueRow>
      </ul>
    </section>
  );
}

/** Sets a value to the instant on the screen, also by keys. */
function useSetHere({ reading, locked, here, onSet }: ValuesProps): (what: What, edge?: "startS" | "endS") => void {
  const { counted } = reading;
  const set = (what: What, edge?: "startS" | "endS") => {
    const atS = here();
    if (atS === null || locked) return;
    const rideS = Math.round(atS);
    if (what !== "counted") return onSet({ what, set: rideS, reason: null }, words.labels.override(words[what]));
    const startS = edge === "endS" ? counted.startS : rideS;
    const endS = edge === "endS" ? rideS : counted.endS;
    if (endS > startS)
      onSet({ what: "counted", set: { startS, endS }, reason: null }, words.labels.override(words.counted));
  };
  useKeys(words.views.reading, [
    { keys: "c", words: `${words.counted}: ${words.countedStart}`, run: () => set("counted", "startS") },
    { keys: "Shift+c", words: `${words.counted}: ${words.countedEnd}`, run: () => set("counted", "endS") },
    { keys: "h", words: `${words.first}: ${words.setHere}`, run: () => set("first") },
    { keys: "e", words: `${words.last}: ${words.setHere}`, run: () => set("last") },
    { keys: "d", words: `${words.onset}: ${words.setHere}`, run: () => set("onset") },
  ]);
  return set;
}

interface RowProps extends Pick<ValuesProps, "locked" | "onBack" | "onWhy"> {
  readonly overrides: ReadingView["overrides"];
  readonly what: What;
  readonly value: string;
  readonly more: string;
  readonly children: ReactNode;
}

/** One value; where the coach set it, with the computed one beside it and the reason. */
function ValueRow({ overrides, locked, what, value, more, onBack, onWhy, children }: RowProps) {
  const overruled = overrideOf(overrides, what);
  return (
    <li className={overruled === null ? "" : "firm"}>
      <div className="row apart">
        <span>
          <b>{words[what]}</b> {value}
          {more !== "" && <span className="quiet"> {more}</span>}
        </span>
        <span className="row">{children}</span>
      </div>
      {overruled !== null && (
        <div className="skim-computed small">
          <span>
            {words.setByYou}; {words.computed(computedText(overruled.computed))}
          </span>
          <Button kind="bare" disabled={locked} onClick={() => onBack(what, words.labels.back(words[what]))}>
            {words.takeComputed}
          </Button>
          <TextField
            label={words.why}
            value={overruled.reason}
            disabled={locked}
            onChange={(reason) => {
              const { computed: _, ...override } = overruled;
              onWhy({ ...override, reason });
            }}
          />
        </div>
      )}
    </li>
  );
}

function reader(bpm: number | null, atS: number | null): string {
  return bpm === null || atS === null ? words.noneShown : words.at(wholeText(bpm), clockText(atS));
}

function computedText(value: number | Span | null): string {
  if (value === null) return words.noneShown;
  if (typeof value === "number") return clockText(value);
  return `${clockText(value.startS)}\u2013${clockText(value.endS)}`;
}
