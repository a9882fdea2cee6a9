import type { Shot } from "../../main/contract/film.ts";
import { clockText } from "../../overlay/words/numbers.ts";
import { Button } from "../look/Button.tsx";
import { NumberField } from "../look/NumberField.tsx";
import { build as words } from "../words/build.ts";
import { tenth } from "./tenth.ts";
import { frozenAt } from "../film/filmEdits.ts";

interface Props {
  readonly shot: Shot;
  readonly locked: boolean;
  readonly onChange: (shot: Shot, label: string) => void;
  readonly onHold: () => void;
}

/** Where a shot holds still. */
export function ShotHolds({ shot, locked, onChange, onHold }: Props) {
  return (
    <>
      {shot.freezes.map((freeze) =>
        freeze.forComment === true ? (
          <p key={freeze.atMediaS} className="quiet small">
            {words.holdWaits(clockText(freeze.atMediaS))}
          </p>
        ) : (
          <div key={freeze.atMediaS} className="row">
            <NumberField
              label={words.holdFor(clockText(freeze.atMediaS))}
              unit={words.seconds}
              value={tenth(freeze.durationS)}
              least={0}
              most={30}
              disabled={locked}
              onChange={(value) => onChange(frozenAt(shot, freeze.atMediaS, value ?? 0), words.labels.hold)}
            />
            {!locked && (
              <Button kind="bare" onClick={() => onChange(frozenAt(shot, freeze.atMediaS, 0), words.labels.hold)}>
                {words.removeHold}
              </Button>
            )}
          </div>
        ),
      )}
      {!locked && (
        <div>
          <Button keys="f" onClick={onHold}>
            {words.holdHere}
          </Button>
        </div>
      )}
    </>
  );
}
