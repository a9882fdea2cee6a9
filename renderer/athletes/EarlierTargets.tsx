import type { DatedTarget } from "../../main/contract/athlete.ts";
import { Button } from "../look/Button.tsx";
import { NumberField } from "../look/NumberField.tsx";
import { TARGET_POWER, TOLERANCE } from "../look/ranges.ts";
import { TextField } from "../look/TextField.tsx";
import { athletes as words } from "../words/athletes.ts";
import { dayFault } from "./dayFault.ts";

interface Props {
  /** Road or trainer, for the names of the fields. */
  readonly setting: string;
  readonly targets: readonly DatedTarget[];
  readonly onChange: (targets: readonly DatedTarget[]) => void;
}

/** Targets before the one in force, each with its day: a ride is judged by the target of its day. */
export function EarlierTargets({ setting, targets, onChange }: Props) {
  const set = (index: number, part: Partial<DatedTarget>) =>
    onChange(targets.map((one, at) => (at === index ? { ...one, ...part } : one)));
  return (
    <details className="athlete-earlier">
      <summary>{words.earlierCount(targets.length)}</summary>
      <div className="stack">
        <p className="quiet small">{words.earlierMore}</p>
        {targets.map((one, index) => (
          <fieldset key={index} aria-label={words.earlierOf(setting, one.date)}>
            <div className="plan-row">
              <TextField
                label={words.foundDate}
                fault={dayFault(one.date)}
                value={one.date}
                onChange={(date) => set(index, { date: date ?? "" })}
              />
              <NumberField
                label={words.target}
                {...TARGET_POWER}
                value={one.targetW}
                onChange={(targetW) => targetW !== null && set(index, { targetW })}
              />
              <NumberField
                label={words.tolerance}
                {...TOLERANCE}
                value={one.toleranceW}
                onChange={(toleranceW) => set(index, { toleranceW })}
              />
            </div>
            <div className="plan-row two">
              <TextField label={words.foundHow} value={one.source} onChange={(source) => set(index, { source })} />
              <TextField label={words.foundMeter} value={one.meter} onChange={(meter) => set(index, { meter })} />
            </div>
            <Button kind="bare" onClick={() => onChange(targets.filter((_, at) => at !== index))}>
              {words.removeEarlier(one.date)}
            </Button>
          </fieldset>
        ))}
        <div>
          <Button
            onClick={() =>
              onChange([...targets, { date: "", targetW: 150, toleranceW: null, source: null, meter: null }])
            }
          >
            {words.addEarlier}
          </Button>
        </div>
      </div>
    </details>
  );
}
