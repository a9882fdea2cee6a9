import type { DebriefView, PathId } from "../../main/contract/debriefApi.ts";
import type { Plan, RiderNote, Setting } from "../../main/contract/plan.ts";
import { DurationField } from "../look/DurationField.tsx";
import { ChoiceText, OneOf } from "../look/OneOf.tsx";
import { TextField } from "../look/TextField.tsx";
import { gather as words } from "../words/gather.ts";
import { AskedPower } from "./AskedPower.tsx";
import { Blocks } from "./Blocks.tsx";
import { MoreOfPlan } from "./MoreOfPlan.tsx";
import { PlanTaken } from "./PlanTaken.tsx";

interface Props {
  readonly debrief: DebriefView;
  /** The plan of an earlier debrief. */
  readonly onTake: (id: PathId) => void;
  readonly onPlan: (plan: Plan, label: string) => void;
}

const SETTINGS: readonly Setting[] = ["road", "trainer", "group"];

/** What was asked of the ride; every field may stay empty. Each change is one edit that can be undone. */
export function PlanForm({ debrief, onTake, onPlan }: Props) {
  const { plan } = debrief.document;
  const locked = debrief.readOnly !== null;
  const change = (part: Partial<Plan>, label: string) => onPlan({ ...plan, ...part }, label);
  const note = (part: Partial<RiderNote>) =>
    change({ note: { ...plan.note, ...part } }, words.labels.plain(words.note));
  return (
    <section className="part" aria-labelledby="plan-title">
      <header>
        <h2 id="plan-title">{words.asked}</h2>
        <span className="quiet small">
          {words.askedMore} {words.planFile}
        </span>
      </header>
      <fieldset className="stack plan-form" disabled={locked}>
        <legend className="unseen">{words.asked}</legend>
        <PlanTaken debrief={debrief} onTake={onTake} />
        <fieldset>
          <legend>{words.setting}</legend>
          <OneOf
            name="setting"
            options={SETTINGS}
            chosen={plan.setting}
            said={(setting) => <ChoiceText {...words.settings[setting]} />}
            look="plan-settings"
            onChoose={(setting) => change({ setting }, words.labels.setting(words.settings[setting].name))}
          />
        </fieldset>
        <AskedPower plan={plan} onChange={change} />
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
        {plan.blocks.length > 0 && <Blocks plan={plan} onChange={change} />}
        <details>
          <summary>{words.more}</summary>
          <MoreOfPlan plan={plan} onChange={change} onNote={note} />
        </details>
      </fieldset>
    </section>
  );
}
