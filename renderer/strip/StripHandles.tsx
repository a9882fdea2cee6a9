import type { ValueOverride } from "../../main/contract/reading.ts";
import { strip as words } from "../words/strip.ts";
import { Handle } from "./Handle.tsx";
import type { DrawnStrip, StripContent } from "./paintStrip.ts";

interface Props {
  readonly reading: StripContent["reading"];
  readonly rooms: DrawnStrip["rooms"];
  readonly rideEndS: number;
  readonly locked: boolean;
  /** Where a ride time stands, px from the left of the strip; null: out of sight. */
  readonly xOf: (rideS: number) => number | null;
  readonly secondsAPx: number;
  readonly onOverrule: (override: ValueOverride) => void;
}

/** The marks that can be dragged: counted part, readings of the heart, onset. */
export function StripHandles({ reading, rooms, rideEndS, locked, xOf, secondsAPx, onOverrule }: Props) {
  const { counted, drift } = reading;
  const shared = { locked, xOf, secondsAPx };
  const heart = { topPx: rooms.heart.top, heightPx: rooms.heart.bottom - rooms.heart.top };
  const all = { topPx: rooms.thread.top, heightPx: rooms.heart.bottom - rooms.thread.top };
  return (
    <>
      <Handle
        {...shared}
        {...all}
        kind="edge"
        label={words.countedStart}
        atS={counted.startS}
        leastS={0}
        mostS={counted.endS - 60}
        onSet={(startS) => onOverrule({ what: "counted", set: { startS, endS: counted.endS }, reason: null })}
      />
      <Handle
        {...shared}
        {...all}
        kind="edge"
        label={words.countedEnd}
        atS={counted.endS}
        leastS={counted.startS + 60}
        mostS={rideEndS}
        onSet={(endS) => onOverrule({ what: "counted", set: { startS: counted.startS, endS }, reason: null })}
      />
      {(["first", "last", "onset"] as const).map((what) => {
        const atS = { first: drift.firstAtS, last: drift.lastAtS, onset: drift.onsetS }[what];
        return (
          atS !== null && (
            <Handle
              key={what}
              {...shared}
              {...heart}
              kind={what === "onset" ? "onset" : "reading"}
              label={words[what]}
              atS={atS}
              leastS={counted.startS}
              mostS={counted.endS}
              onSet={(set) => onOverrule({ what, set, reason: null })}
            />
          )
        );
      })}
    </>
  );
}
