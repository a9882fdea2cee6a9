import type { Athlete } from "../../main/contract/athlete.ts";
import { Button } from "../look/Button.tsx";
import { DurationField } from "../look/DurationField.tsx";
import { TextField } from "../look/TextField.tsx";
import { athletes as words } from "../words/athletes.ts";

interface Props {
  readonly events: Athlete["events"];
  readonly onChange: (events: Athlete["events"]) => void;
}

/** The events that the athlete rides for. */
export function Events({ events, onChange }: Props) {
  const set = (index: number, part: Partial<Athlete["events"][number]>) =>
    onChange(events.map((one, at) => (at === index ? { ...one, ...part } : one)));
  return (
    <fieldset className="stack">
      <legend>{words.events}</legend>
      {events.map((one, index) => (
        <div key={index} className="athlete-event">
          <TextField label={words.event} value={one.name} onChange={(name) => set(index, { name: name ?? "" })} />
          <TextField label={words.date} value={one.dateText} onChange={(dateText) => set(index, { dateText })} />
          <DurationField
            label={words.duration}
            fault={words.durationFault}
            valueS={one.durationS}
            onChange={(durationS) => set(index, { durationS })}
          />
          <Button
            kind="bare"
            className="small-sign"
            aria-label={words.removeEvent(one.name)}
            onClick={() => onChange(events.filter((_, at) => at !== index))}
          >
            {"\u00d7"}
          </Button>
        </div>
      ))}
      <div>
        <Button onClick={() => onChange([...events, { name: "", dateText: null, durationS: null }])}>
          {words.addEvent}
        </Button>
      </div>
    </fieldset>
  );
}
