import { useState } from "react";
import type { PlanBlock } from "../../main/contract/plan.ts";
import { Button } from "../look/Button.tsx";
import { DurationField } from "../look/DurationField.tsx";
import { NumberField } from "../look/NumberField.tsx";
import { TARGET_POWER } from "../look/ranges.ts";
import { OneOf } from "../look/OneOf.tsx";
import { common } from "../words/common.ts";
import { gather as words } from "../words/gather.ts";

interface Props {
  readonly onAdd: (block: PlanBlock) => void;
  readonly onClose: () => void;
}

const KINDS: readonly PlanBlock["kind"][] = ["steady", "effort", "rest"];

/** A block of the plan, in ride time. */
export function BlockForm({ onAdd, onClose }: Props) {
  const [kind, setKind] = useState<PlanBlock["kind"]>("effort");
  const [startS, setStart] = useState<number | null>(null);
  const [endS, setEnd] = useState<number | null>(null);
  const [targetW, setTarget] = useState<number | null>(null);
  const usable = startS !== null && endS !== null && endS > startS;
  return (
    <fieldset className="stack note">
      <legend>{words.addBlock}</legend>
      <OneOf name="block-kind" options={KINDS} chosen={kind} said={(one) => words.block[one]} onChoose={setKind} />
      <div className="plan-row">
        <DurationField
          label={words.blockFrom}
          hint={words.eventLengthHint}
          fault={words.eventFault}
          valueS={startS}
          onChange={setStart}
        />
        <DurationField label={words.blockTo} fault={words.eventFault} valueS={endS} onChange={setEnd} />
        {kind !== "rest" && <NumberField label={words.target} {...TARGET_POWER} value={targetW} onChange={setTarget} />}
      </div>
      <div className="row">
        <Button
          disabled={!usable}
          onClick={() =>
            usable && onAdd({ startS, endS, kind, targetW: kind === "rest" ? null : targetW, toleranceW: null })
          }
        >
          {words.addBlock}
        </Button>
        <Button kind="bare" onClick={onClose}>
          {common.cancel}
        </Button>
      </div>
    </fieldset>
  );
}
