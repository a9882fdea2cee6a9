import { useState } from "react";
import type { Athlete } from "../../main/contract/athlete.ts";
import { Button } from "../look/Button.tsx";
import { Field } from "../look/Field.tsx";
import { athletes as words } from "../words/athletes.ts";
import { common } from "../words/common.ts";
import { Events } from "./Events.tsx";
import { Habits } from "./Habits.tsx";
import { DEFAULT_RADIUS_M, Home } from "./Home.tsx";
import { LessonConsent } from "./LessonConsent.tsx";
import { TargetForm } from "./TargetForm.tsx";
import { dayFault } from "./dayFault.ts";

interface Props {
  readonly title: string;
  readonly values: Athlete;
  readonly onSave: (values: Athlete) => void;
  readonly onCancel: () => void;
}

/** One athlete's lasting values. Nothing is kept before Save. */
export function AthleteForm({ title, values, onSave, onCancel }: Props) {
  const [now, setNow] = useState(values);
  const [lat, setLat] = useState(values.homeZone?.latDeg ?? null);
  const [lon, setLon] = useState(values.homeZone?.lonDeg ?? null);
  const [tried, setTried] = useState(false);
  const change = (part: Partial<Athlete>) => setNow((old) => ({ ...old, ...part }));
  const homeHalf = (lat === null) !== (lon === null);
  const consentOpen = now.lessonConsent !== null && now.lessonConsent.dateText.trim() === "";
  const daysRight = [now.road, now.trainer].every(({ foundDate, earlier }) =>
    [foundDate, ...earlier.map(({ date }) => date)].every((day) => dayFault(day) === null),
  );
  const usable = now.name.trim() !== "" && !homeHalf && !consentOpen && daysRight;
  const save = () => {
    setTried(true);
    if (!usable) return;
    const homeZone =
      lat === null || lon === null
        ? null
        : { latDeg: lat, lonDeg: lon, radiusM: now.homeZone?.radiusM ?? DEFAULT_RADIUS_M };
    onSave({ ...now, name: now.name.trim(), homeZone, events: now.events.filter((event) => event.name.trim() !== "") });
  };
  return (
    <form
      className="part athlete-form"
      aria-labelledby="athlete-form-title"
      onSubmit={(submitted) => {
        submitted.preventDefault();
        save();
      }}
    >
      <header>
        <h1 id="athlete-form-title">{title}</h1>
      </header>
      <div className="athlete-columns">
        <div className="stack wide">
          <Field label={words.name} fault={tried && now.name.trim() === "" ? words.nameFault : null}>
            {(props) => (
              <input
                {...props}
                value={now.name}
                autoComplete="off"
                maxLength={200}
                onChange={(changed) => change({ name: changed.target.value })}
              />
            )}
          </Field>
          <Habits athlete={now} onChange={change} />
          <TargetForm title={words.road} value={now.road} onChange={(road) => change({ road })} />
          <TargetForm title={words.trainer} value={now.trainer} onChange={(trainer) => change({ trainer })} />
        </div>
        <div className="stack wide">
          <Events events={now.events} onChange={(events) => change({ events })} />
          <Home
            lat={lat}
            lon={lon}
            radiusM={now.homeZone?.radiusM ?? DEFAULT_RADIUS_M}
            fault={tried && homeHalf}
            onLat={setLat}
            onLon={setLon}
            onRadius={(radiusM) => change({ homeZone: { latDeg: lat ?? 0, lonDeg: lon ?? 0, radiusM } })}
          />
          <LessonConsent
            value={now.lessonConsent}
            fault={tried && consentOpen}
            onChange={(lessonConsent) => change({ lessonConsent })}
          />
        </div>
      </div>
      <div className="row athlete-end">
        <Button kind="main" type="submit">
          {common.save}
        </Button>
        <Button onClick={onCancel}>{common.cancel}</Button>
      </div>
    </form>
  );
}
