import { useState } from "react";
import type { WindowColumns } from "../../main/contract/columnBytes.ts";
import type { DebriefView, ReadingView } from "../../main/contract/debriefApi.ts";
import type { Break, BreakOverride, GivenReason } from "../../main/contract/reading.ts";
import { Button } from "../look/Button.tsx";
import { ToldReading } from "../told/ToldReading.tsx";
import { skim as words } from "../words/skim.ts";
import { ReadingValues, type ValuesProps } from "./ReadingValues.tsx";
import { BreakReasons } from "./BreakReasons.tsx";
import { type SkillProps, SkillTicks } from "./SkillTicks.tsx";

interface Props extends ValuesProps, BreaksProps, SkillProps {
  readonly debrief: DebriefView;
  /** Null: on their way. */
  readonly columns: WindowColumns | null;
}

/** What the ride says, and where the coach sets it otherwise. */
export function ReadingPanel(props: Props) {
  const { reading } = props;
  return (
    <div className="skim-reading stack wide">
      <ToldReading debrief={props.debrief} columns={props.columns} />
      <ReadingValues {...props} />
      <SkillTicks {...props} />
      {reading.breaks.length > 0 && <AllBreaks {...props} />}
    </div>
  );
}

interface BreaksProps {
  readonly reading: ReadingView;
  readonly locked: boolean;
  readonly onGo: (rideS: number) => void;
  readonly onReason: (of: Break, reason: GivenReason) => void;
  readonly onComputed: (override: BreakOverride) => void;
}

/** Every break of the pressure with its reason; the shorter ones on wish. */
function AllBreaks({ reading, locked, onGo, onReason, onComputed }: BreaksProps) {
  const [allBreaks, setAll] = useState(false);
  const { breaks, overrides } = reading;
  const shown = allBreaks ? breaks : breaks.filter((one) => one.lapse || one.setBy === "coach");
  return (
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
  );
}
