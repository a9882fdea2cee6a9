import type { AthleteTarget } from "../../main/contract/athlete.ts";
import { NumberField } from "../look/NumberField.tsx";
import { METER_OFFSET, TARGET_POWER, TOLERANCE } from "../look/ranges.ts";
import { TextField } from "../look/TextField.tsx";
import { athletes as words } from "../words/athletes.ts";
import { EarlierTargets } from "./EarlierTargets.tsx";
import { dayFault } from "./dayFault.ts";

/** Target of road or trainer: how much, and from where that is known. */
export function TargetForm({
  title,
  value,
  onChange,
}: {
  readonly title: string;
  readonly value: AthleteTarget;
  readonly onChange: (value: AthleteTarget) => void;
}) {
  return (
    <fieldset>
      <legend>{title}</legend>
      <div className="plan-row">
        <NumberField
          label={words.target}
          {...TARGET_POWER}
          value={value.targetW}
          onChange={(targetW) => onChange(newTarget(value, targetW))}
        />
        <NumberField
          label={words.tolerance}
          {...TOLERANCE}
          value={value.toleranceW}
          onChange={(toleranceW) => onChange({ ...value, toleranceW })}
        />
        <NumberField
          label={words.meter}
          {...METER_OFFSET}
          hint={words.meterHint}
          value={value.meterOffsetW}
          onChange={(meterOffsetW) => onChange({ ...value, meterOffsetW: meterOffsetW ?? 0 })}
        />
      </div>
      <div className="plan-row two athlete-found">
        <TextField
          label={words.foundDate}
          hint={words.foundDateHint}
          fault={dayFault(value.foundDate)}
          value={value.foundDate}
          onChange={(foundDate) => onChange({ ...value, foundDate })}
        />
        <TextField
          label={words.foundHow}
          value={value.foundHow}
          onChange={(foundHow) => onChange({ ...value, foundHow })}
        />
        <TextField
          label={words.foundMeter}
          value={value.foundMeter}
          onChange={(foundMeter) => onChange({ ...value, foundMeter })}
        />
        <TextField label={words.meterNow} value={value.meter} onChange={(meter) => onChange({ ...value, meter })} />
      </div>
      <EarlierTargets setting={title} targets={value.earlier} onChange={(earlier) => onChange({ ...value, earlier })} />
    </fieldset>
  );
}

/** A target that is replaced stays known with its day: rides of its time are judged by it. */
function newTarget(old: AthleteTarget, targetW: number | null): AthleteTarget {
  if (old.targetW === null || old.foundDate === null || old.targetW === targetW) return { ...old, targetW };
  const before = {
    date: old.foundDate,
    targetW: old.targetW,
    toleranceW: old.toleranceW,
    source: old.foundHow,
    meter: old.foundMeter,
  };
  return { ...old, targetW, foundDate: null, foundHow: null, foundMeter: null, earlier: [...old.earlier, before] };
}
