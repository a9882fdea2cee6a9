import { useState } from "react";
import type { DebriefView } from "../../main/contract/debriefApi.ts";
import type { Plan, PlanBlock, RiderNote, Setting } from "../../main/contract/plan.ts";
import { clockText } from "../../overlay/words/numbers.ts";
import { Button } from "../look/Button.tsx";
import { DurationField } from "../look/DurationField.tsx";
import { NumberField } from "../look/NumberField.tsx";
import { TextField } from "../look/TextField.tsx";
import { gather as words } from "../words/gather.ts";
import { BlockForm } from "./BlockForm.tsx";

interface Props {
  readonly debrief: DebriefView;
  readonly onPlan: (plan: Plan, label: string) => void;
}

const SETTINGS: readonly Setting[] = ["road", "trainer", "group"];
const NOTE_PARTS = Object.keys(words.noteParts) as (keyof typeof words.noteParts)[];
const watts = (value: number | null) => (value === null ? "\u2013" : `${value} W`);

/** What was asked of the ride; every field may stay empty. Each change is one edit that can be undone. */
export function PlanForm({ debrief, onPlan }: Props) {
  const { plan } = debrief.document;
  const [adding, setAdding] = useState(false);
  const locked = debrief.readOnly !== null;
  const change = (part: Partial<Plan>, label: string) => onPlan({ ...plan, ...part }, label);
  const note = (part: Partial<RiderNote>) =>
    change({ note: { ...plan.note, ...part } }, words.labels.plain(words.note));
  return (
    <section className="part" aria-labelledby="plan-title">
      <header>
        <h2 id="plan-title">{words.asked}</h2>
        <span className="quiet small">{words.askedMore}</span>
      </header>
      <fieldset className="stack plan-form" disabled={locked}>
        <legend className="unseen">{words.asked}</legend>
        <fieldset>
          <legend>{words.setting}</legend>
          <div className="oneof plan-settings">
            {SETTINGS.map((setting) => (
              <label key={setting}>
                <input
                  type="radio"
                  name="setting"
                  checked={plan.setting === setting}
                  onChange={() => change({ setting }, words.labels.setting(words.settings[setting].name))}
                />
                <span className="choice">
                  <b>{words.settings[setting].name}</b>
                  <span>{words.settings[setting].more}</span>
                </span>
              </label>
            ))}
          </div>
        </fieldset>
        <div className="plan-row">
          <NumberField
            label={words.target}
            unit="W"
            value={plan.targetW}
            least={20}
            most={1000}
            onChange={(targetW) => change({ targetW }, words.labels.target(watts(targetW)))}
          />
          <NumberField
            label={words.tolerance}
            unit="W"
            value={plan.toleranceW}
            least={1}
            most={300}
            onChange={(toleranceW) => change({ toleranceW }, words.labels.tolerance(watts(toleranceW)))}
          />
          <NumberField
            label={words.warmUp}
            unit={words.minutes}
            value={minutes(plan.warmUpS)}
            least={0}
            most={600}
            onChange={(value) => change({ warmUpS: seconds(value) }, words.labels.plain(words.warmUp))}
          />
          <NumberField
            label={words.coolDown}
            unit={words.minutes}
            value={minutes(plan.coolDownS)}
            least={0}
            most={600}
            onChange={(value) => change({ coolDownS: seconds(value) }, words.labels.plain(words.coolDown))}
          />
        </div>
        <div className="plan-row two">
          <TextField
            label={words.event}
            hint={words.eventHint}
            value={plan.eventName}
            onChange={(eventName) => change({ eventName }, words.labels.plain(words.event))}
          />
          <DurationField
            label={words.eventLength}
            hint={words.eventLengthHint}
            fault={words.eventFault}
            valueS={plan.eventS}
            onChange={(eventS) => change({ eventS }, words.labels.plain(words.eventLength))}
          />
        </div>
        <TextField
          lines
          label={words.note}
          hint={words.noteHint}
          value={plan.note.feel}
          onChange={(feel) => note({ feel })}
        />
        {plan.blocks.length > 0 && (
          <ul className="rows plan-blocks" aria-label={words.blocks}>
            {plan.blocks.map((block, index) => (
              <li key={`${block.startS}-${block.endS}`} className="firm row apart">
                <span>{blockText(block)}</span>
                <Button
                  kind="bare"
                  onClick={() =>
                    change({ blocks: plan.blocks.filter((_, at) => at !== index) }, words.labels.plain(words.blocks))
                  }
                >
                  {words.removeBlock}
                </Button>
              </li>
            ))}
          </ul>
        )}
        <details>
          <summary>{words.more}</summary>
          <div className="stack plan-more">
            <TextField
              label={words.rideTitle}
              value={plan.title}
              onChange={(title) => change({ title }, words.labels.plain(words.rideTitle))}
            />
            <div className="plan-row">
              <NumberField
                label={words.heartLow}
                unit="bpm"
                value={plan.heartLowBpm}
                least={40}
                most={230}
                onChange={(heartLowBpm) => change({ heartLowBpm }, words.labels.plain(words.heartLow))}
              />
              <NumberField
                label={words.heartHigh}
                unit="bpm"
                value={plan.heartHighBpm}
                least={40}
                most={230}
                onChange={(heartHighBpm) => change({ heartHighBpm }, words.labels.plain(words.heartLow))}
              />
              <NumberField
                label={words.meter}
                unit="W"
                hint={words.meterHint}
                value={plan.meterOffsetW}
                least={-200}
                most={200}
                onChange={(value) => change({ meterOffsetW: value ?? 0 }, words.labels.plain(words.meter))}
              />
            </div>
            <div className="plan-row two">
              {NOTE_PARTS.map((part) => (
                <TextField
                  key={part}
                  label={words.noteParts[part]}
                  value={plan.note[part]}
                  onChange={(value) => note({ [part]: value })}
                />
              ))}
            </div>
            {adding ? (
              <BlockForm
                onClose={() => setAdding(false)}
                onAdd={(block) => {
                  setAdding(false);
                  change(
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
        </details>
      </fieldset>
    </section>
  );
}

function minutes(valueS: number | null): number | null {
  return valueS === null ? null : Math.round(valueS / 6) / 10;
}

function seconds(valueMin: number | null): number | null {
  return valueMin === null ? null : valueMin * 60;
}

function blockText(block: PlanBlock): string {
  const at = block.targetW === null ? "" : `, ${block.targetW} W`;
  return `${words.block[block.kind]} ${words.blockFrom} ${clockText(block.startS)} ${words.blockTo} ${clockText(block.endS)}${at}`;
}
