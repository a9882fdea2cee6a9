import type { Plan } from "../../main/contract/plan.ts";
import { NumberField } from "../look/NumberField.tsx";
import { gather as words } from "../words/gather.ts";

interface Props {
  readonly plan: Plan;
  readonly onChange: (part: Partial<Plan>, label: string) => void;
}

const watts = (value: number | null) => (value === null ? "\u2013" : `${value} W`);

/** The power that was asked for, and what is not counted before and after. */
export function AskedPower({ plan, onChange }: Props) {
  return (
    <div className="plan-row">
      <NumberField
        label={words.target}
        unit="W"
        value={plan.targetW}
        least={20}
        most={1000}
        onChange={(targetW) => onChange({ targetW }, words.labels.target(watts(targetW)))}
      />
      <NumberField
        label={words.tolerance}
        unit="W"
        value={plan.toleranceW}
        least={1}
        most={300}
        onChange={(toleranceW) => onChange({ toleranceW }, words.labels.tolerance(watts(toleranceW)))}
      />
      <NumberField
        label={words.warmUp}
        unit={words.minutes}
        value={minutes(plan.warmUpS)}
        least={0}
        most={600}
        onChange={(value) => onChange({ warmUpS: seconds(value) }, words.labels.plain(words.warmUp))}
      />
      <NumberField
        label={words.coolDown}
        unit={words.minutes}
        value={minutes(plan.coolDownS)}
        least={0}
        most={600}
        onChange={(value) => onChange({ coolDownS: seconds(value) }, words.labels.plain(words.coolDown))}
      />
    </div>
  );
}

function minutes(valueS: number | null): number | null {
  return valueS === null ? null : Math.round(valueS / 6) / 10;
}

function seconds(valueMin: number | null): number | null {
  return valueMin === null ? null : valueMin * 60;
}
