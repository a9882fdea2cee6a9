import type { Plan } from "../../main/contract/plan.ts";
import { durationText } from "../../overlay/words/numbers.ts";
import { DurationField } from "../look/DurationField.tsx";
import { NumberField } from "../look/NumberField.tsx";
import { TARGET_POWER, TOLERANCE } from "../look/ranges.ts";
import { gather as words } from "../words/gather.ts";

interface Props {
  readonly plan: Plan;
  readonly onChange: (part: Partial<Plan>, label: string) => void;
}

/** What may be left out before and after, and how it is written. */
const UNCOUNTED = { leastS: 0, mostS: 10 * 3600, written: durationText } as const;

const watts = (value: number | null) => (value === null ? "\u2013" : `${value} W`);

/** The power that was asked for, and what is not counted before and after. */
export function AskedPower({ plan, onChange }: Props) {
  return (
    <div className="plan-row">
      <NumberField
        label={words.target}
        {...TARGET_POWER}
        value={plan.targetW}
        onChange={(targetW) => onChange({ targetW }, words.labels.target(watts(targetW)))}
      />
      <NumberField
        label={words.tolerance}
        {...TOLERANCE}
        value={plan.toleranceW}
        onChange={(toleranceW) => onChange({ toleranceW }, words.labels.tolerance(watts(toleranceW)))}
      />
      <DurationField
        label={words.warmUp}
        fault={words.uncountedFault}
        valueS={plan.warmUpS}
        {...UNCOUNTED}
        onChange={(warmUpS) => onChange({ warmUpS }, words.labels.plain(words.warmUp))}
      />
      <DurationField
        label={words.coolDown}
        fault={words.uncountedFault}
        valueS={plan.coolDownS}
        {...UNCOUNTED}
        onChange={(coolDownS) => onChange({ coolDownS }, words.labels.plain(words.coolDown))}
      />
    </div>
  );
}
