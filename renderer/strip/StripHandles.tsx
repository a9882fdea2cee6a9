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
      {(["startS", "endS"] as const).map((edge) => (
        <Handle
          key={edge}
          {...shared}
          {...all}
          kind="edge"
          label={edge === "startS" ? words.countedStart : words.countedEnd}
          atS={counted[edge]}
          leastS={edge === "startS" ? 0 : counted.startS + 60}
          mostS={edge === "startS" ? counted.endS - 60 : rideEndS}
          onSet={(atS) =>
            onOverrule({
              what: "counted",
              set: { startS: counted.startS, endS: counted.endS, [edge]: atS },
              reason: null,
            })
          }
        />
      ))}
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
