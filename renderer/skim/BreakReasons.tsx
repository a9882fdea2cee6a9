import { useState } from "react";
import {
  type Break,
  type BreakReason,
  GIVEN_REASONS,
  type BreakOverride,
  type GivenReason,
} from "../../main/contract/reading.ts";
import type { ReadingView } from "../../main/contract/debriefApi.ts";
import { clockText, durationText } from "../../overlay/words/numbers.ts";
import { TextField } from "../look/TextField.tsx";
import { reasonWords } from "../words/reasonWords.ts";
import { skim as words } from "../words/skim.ts";
import { overrideOfBreak } from "./overrides.ts";

const OWN = "own words";

interface Props {
  readonly breaks: readonly Break[];
  readonly overrides: ReadingView["overrides"];
  readonly locked: boolean;
  readonly onGo: (rideS: number) => void;
  readonly onReason: (of: Break, reason: GivenReason) => void;
  /** The computed reason holds again. */
  readonly onComputed: (override: BreakOverride) => void;
}

/** Breaks of the pressure, each with its reason, the coach's beside the computed one. */
export function BreakReasons({ breaks, ...rest }: Props) {
  return (
    <ul className="skim-breaks">
      {breaks.map((one) => (
        <BreakRow key={one.startS} one={one} {...rest} />
      ))}
    </ul>
  );
}

function BreakRow(props: Omit<Props, "breaks"> & { readonly one: Break }) {
  const { one, overrides, locked, onGo, onReason, onComputed } = props;
  const [writing, setWriting] = useState(false);
  const overruled = overrideOfBreak(overrides, one);
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
          const given = GIVEN_REASONS.find((reason) => reason === event.target.value);
          setWriting(given === undefined);
          if (given !== undefined) onReason(one, given);
        }}
      >
        {(one.reason === "planned rest" ? ["planned rest" as const] : GIVEN_REASONS).map((reason) => (
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
              if (text !== null) onReason(one, { coach: text });
            }}
          />
        </div>
      )}
      {overruled !== null && (
        <div className="skim-computed small">
          <span>
            {words.setByYou}; {words.computed(reasonWords(overruled.computed))}
          </span>
          <button type="button" className="button bare" disabled={locked} onClick={() => onComputed(overruled)}>
            {words.takeComputed}
          </button>
        </div>
      )}
    </li>
  );
}
