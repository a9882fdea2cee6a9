import { Fragment, type ReactNode, useState } from "react";
import type { ReadingView } from "../../main/contract/debriefApi.ts";
import type { Break, BreakOverride, GivenReason, Override, ValueOverride } from "../../main/contract/reading.ts";
import type { UnitSystem } from "../../main/contract/languageAndUnits.ts";
import type { Span } from "../../main/contract/ride.ts";
import { keepUnits } from "../../overlay/words/keepUnits.ts";
import { clockText, wholeText } from "../../overlay/words/numbers.ts";
import { Button } from "../look/Button.tsx";
import { TextField } from "../look/TextField.tsx";
import { useKeys } from "../look/keys.ts";
import { skim as words } from "../words/skim.ts";
import { BreakReasons } from "./BreakReasons.tsx";
import { HourRows } from "./HourRows.tsx";
import { overrideOf } from "./overrides.ts";

type What = ValueOverride["what"];

interface Props {
  readonly reading: ReadingView;
  readonly lines: readonly string[];
  readonly units: UnitSystem;
  readonly locked: boolean;
  /** Ride time on the screen now, s; null: none. */
  readonly here: () => number | null;
  readonly onGo: (rideS: number) => void;
  readonly onSet: (override: Override, label: string) => void;
  readonly onBack: (what: What, label: string) => void;
  readonly onWhy: (override: Override) => void;
  readonly onReason: (of: Break, reason: GivenReason) => void;
  readonly onComputed: (override: BreakOverride) => void;
}

/** What the ride says, and where the coach sets it otherwise. */
export function ReadingPanel(props: Props) {
  const { reading, lines, units, locked, here, onGo, onSet, onBack, onWhy, onReason, onComputed } = props;
  const [allBreaks, setAll] = useState(false);
  const { counted, drift, overrides, breaks } = reading;
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
    { keys: "i", words: `${words.first}: ${words.setHere}`, run: () => set("first") },
    { keys: "l", words: `${words.last}: ${words.setHere}`, run: () => set("last") },
    { keys: "d", words: `${words.onset}: ${words.setHere}`, run: () => set("onset") },
  ]);
  const reader = (bpm: number | null, atS: number | null) =>
    bpm === null || atS === null ? words.noneShown : words.at(wholeText(bpm), clockText(atS));
  const row = (what: What, value: string, more: string, tools: ReactNode) => {
    const overruled = overrideOf(overrides, what);
    return (
      <li className={overruled === null ? "" : "firm"}>
        <div className="row apart">
          <span>
            <b>{words[what]}</b> {value}
            {more !== "" && <span className="quiet"> {more}</span>}
          </span>
          <span className="row">{tools}</span>
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
  };
  const shown = allBreaks ? breaks : breaks.filter((one) => one.lapse || one.setBy === "coach");
  const goTo = (atS: number | null) => atS !== null && onGo(atS);
  return (
    <div className="skim-reading stack wide">
      <section className="part">
        <header>
          <h2>{words.reading}</h2>
        </header>
        {lines.map((line) => (
          <p key={line}>{keepUnits(line)}</p>
        ))}
      </section>
      <HourRows hours={reading.base.hours} units={units} />
      <section className="part">
        <header>
          <h2>{words.values}</h2>
        </header>
        <ul className="rows">
          {row(
            "counted",
            `${clockText(counted.startS)}\u2013${clockText(counted.endS)}`,
            words.countedFrom(counted.source),
            <>
              <Button kind="bare" keys="c" disabled={locked} onClick={() => set("counted", "startS")}>
                {words.countedStart}
              </Button>
              <Button kind="bare" keys="Shift+c" disabled={locked} onClick={() => set("counted", "endS")}>
                {words.countedEnd}
              </Button>
            </>,
          )}
          {(["first", "last"] as const).map((what) => {
            const atS = what === "first" ? drift.firstAtS : drift.lastAtS;
            return (
              <Fragment key={what}>
                {row(
                  what,
                  reader(what === "first" ? drift.firstBpm : drift.lastBpm, atS),
                  "",
                  <>
                    <Button kind="bare" disabled={atS === null} onClick={() => goTo(atS)}>
                      {words.goThere}
                    </Button>
                    <Button kind="bare" keys={what === "first" ? "i" : "l"} disabled={locked} onClick={() => set(what)}>
                      {words.setHere}
                    </Button>
                  </>,
                )}
              </Fragment>
            );
          })}
          {row(
            "onset",
            drift.onsetS === null ? words.noneShown : clockText(drift.onsetS),
            drift.onsetLowS === null || drift.onsetHighS === null
              ? ""
              : words.between(clockText(drift.onsetLowS), clockText(drift.onsetHighS)),
            <>
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
            </>,
          )}
        </ul>
      </section>
      {breaks.length > 0 && (
        <section className="part">
          <header>
            <h2>{words.allBreaks}</h2>
          </header>
          <p className="quiet small">{words.caution}</p>
          <BreakReasons
            breaks={shown}
            overrides={overrides}
            locked={locked}
            onGo={onGo}
            onReason={onReason}
            onComputed={onComputed}
          />
          {!allBreaks && shown.length < breaks.length && (
            <Button kind="bare" onClick={() => setAll(true)}>
              {words.moreBreaks(breaks.length - shown.length)}
            </Button>
          )}
        </section>
      )}
    </div>
  );
}

function computedText(value: number | Span | null): string {
  if (value === null) return words.noneShown;
  if (typeof value === "number") return clockText(value);
  return `${clockText(value.startS)}\u2013${clockText(value.endS)}`;
}
