import { useState } from "react";
import type { Plan, RiderNote } from "../../main/contract/plan.ts";
import { Button } from "../look/Button.tsx";
import { NumberField } from "../look/NumberField.tsx";
import { METER_OFFSET } from "../look/ranges.ts";
import { TextField } from "../look/TextField.tsx";
import { gather as words } from "../words/gather.ts";
import { BlockForm } from "./BlockForm.tsx";

interface Props {
  readonly plan: Plan;
  readonly onChange: (part: Partial<Plan>, label: string) => void;
  readonly onNote: (part: Partial<RiderNote>) => void;
}

const NOTE_PARTS = Object.keys(words.noteParts) as (keyof typeof words.noteParts)[];

/** What is asked more rarely: title, heart, meter, the parts of the note, blocks. */
export function MoreOfPlan({ plan, onChange, onNote }: Props) {
  const [adding, setAdding] = useState(false);
  return (
    <div className="stack plan-more">
      <TextField
        label={words.rideTitle}
        value={plan.title}
        onChange={(title) => onChange({ title }, words.labels.plain(words.rideTitle))}
      />
      <div className="plan-row">
        <NumberField
          label={words.heartLow}
          unit="bpm"
          value={plan.heartLowBpm}
          least={40}
          most={230}
          onChange={(heartLowBpm) => onChange({ heartLowBpm }, words.labels.plain(words.heartLow))}
        />
        <NumberField
          label={words.heartHigh}
          unit="bpm"
          value={plan.heartHighBpm}
          least={40}
          most={230}
          onChange={(heartHighBpm) => onChange({ heartHighBpm }, words.labels.plain(words.heartLow))}
        />
        <NumberField
          label={words.meter}
          {...METER_OFFSET}
          hint={words.meterHint}
          value={plan.meterOffsetW}
          onChange={(value) => onChange({ meterOffsetW: value ?? 0 }, words.labels.plain(words.meter))}
        />
      </div>
      <div className="plan-row two">
        {NOTE_PARTS.map((part) => (
          <TextField
            key={part}
            label={words.noteParts[part]}
            value={plan.note[part]}
            onChange={(value) => onNote({ [part]: value })}
          />
        ))}
      </div>
      {adding ? (
        <BlockForm
          onClose={() => setAdding(false)}
          onAdd={(block) => {
            setAdding(false);
            onChange(
              { blocks: [...plan.blocks, block].sort((a, b) => a.startS - b.startS) },
              words.labels.plain(words.blocks),
            );
          }}
        />
      ) : (
        <div>
          <Button onClick={() => setAdding(true)}>{words.addBlock}</Button>
        </div>
      )}
    </div>
  );
}
