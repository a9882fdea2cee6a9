import { useState } from "react";
import type { Break, BreakReason, Override } from "../../main/contract/reading.ts";
import type { ReadingView } from "../../main/contract/debriefApi.ts";
import { clockText, durationText } from "../../overlay/words/numbers.ts";
import { TextField } from "../look/TextField.tsx";
import { skim as words } from "../words/skim.ts";
import { overrideOf } from "./overrides.ts";

const OWN = "own words";
/** Reasons a coach may give; a planned rest is the plan's to say. */
const GIVEN = [
  "stopped",
  "corner",
  "braking",
  "steep descent",
  "slowed, cause not in the data",
  "unexplained",
  "cannot tell",
] as const;

interface Props {
  readonly breaks: readonly Break[];
  readonly overrides: ReadingView["overrides"];
  readonly locked: boolean;
  readonly onGo: (rideS: number) => void;
  /** Null: the computed reason holds again. */
  readonly onReason: (what: string, set: Override["set"], atS: number) => void;
}

/** Breaks of the pressure, each with its reason, the coach's beside the computed one. */
export function BreakReasons({ breaks, overrides, locked, onGo, onReason }: Props) {
  return (
    <ul className="skim-breaks">
      {breaks.map((one) => (
        <BreakRow key={one.startS} one={one} overrides={overrides} locked={locked} onGo={onGo} onReason={onReason} />
      ))}
    </ul>
  );
}

function BreakRow({ one, overrides, locked, onGo, onReason }: Omit<Props, "breaks"> & { readonly one: Break }) {
  const [writing, setWriting] = useState(false);
  const what = `break@${one.startS}`;
  const overruled = overrideOf(overrides, what);
  const at = clockText(one.startS);
  const own = typeof one.reason === "object" ? one.reason.coach : null;
  const value = own !== null || writing ? OWN : (one.reason as Exclude<BreakReason, object>);
  return (
    <li className={one.lapse ? "lapse" : ""}>
      <button type="button" className="skim-break-at" onClick={() => onGo(one.startS)}>
        {words.breakAt(at, durationText(one.endS - one.startS))}
      </button>
      <select
        className="input"
        aria-label={words.breakReason(at)}
        value={value}
        disabled={locked || one.reason === "planned rest"}
        onChange={(event) => {
          if (event.target.value === OWN) return setWriting(true);
          setWriting(false);
          onReason(what, event.target.value, one.startS);
        }}
      >
        {(one.reason === "planned rest" ? ["planned rest" as const] : GIVEN).map((reason) => (
          <option key={reason} value={reason}>
            {words.reasons[reason]}
          </option>
        ))}
        <option value={OWN}>{words.ownReason}</option>
      </select>
      <span className="small quiet">
        {one.excused === null ? words.unclear : one.excused ? words.excused : words.notExcused}
      </span>
      {value === OWN && (
        <div className="skim-own">
          <TextField
            label={words.ownReasonOf(at)}
            hint={words.ownReasonHint}
            value={own}
            disabled={locked}
            onChange={(text) => {
              setWriting(false);
              if (text !== null) onReason(what, text, one.startS);
            }}
          />
        </div>
      )}
      {overruled !== null && (
        <div className="skim-computed small">
          <span>
            {words.setByYou}; {words.computed(reasonWords(overruled.computed))}
          </span>
          <button
            type="button"
            className="button bare"
            disabled={locked}
            onClick={() => onReason(overruled.what, null, one.startS)}
          >
            {words.takeComputed}
          </button>
        </div>
      )}
    </li>
  );
}

function reasonWords(reason: Override["set"]): string {
  if (typeof reason !== "string") return words.noneShown;
  return reason in words.reasons ? words.reasons[reason as keyof typeof words.reasons] : reason;
}
