import { useState } from "react";
import type { Athlete, AthleteTarget } from "../../main/contract/athlete.ts";
import { Button } from "../look/Button.tsx";
import { DurationField } from "../look/DurationField.tsx";
import { Field } from "../look/Field.tsx";
import { NumberField } from "../look/NumberField.tsx";
import { TextField } from "../look/TextField.tsx";
import { athletes as words } from "../words/athletes.ts";
import { common } from "../words/common.ts";
import { EarlierTargets } from "./EarlierTargets.tsx";
import { dayFault } from "./dayFault.ts";

interface Props {
  readonly title: string;
  readonly values: Athlete;
  readonly onSave: (values: Athlete) => void;
  readonly onCancel: () => void;
}

type Consent = "unasked" | "given" | "refused";
const DEFAULT_RADIUS_M = 500;
const PRESETS = Object.keys(words.presets) as Athlete["preset"][];

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
  const consent: Consent = now.lessonConsent === null ? "unasked" : now.lessonConsent.given ? "given" : "refused";
  const event = (index: number, part: Partial<Athlete["events"][number]>) =>
    change({ events: now.events.map((one, at) => (at === index ? { ...one, ...part } : one)) });

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
          <div className="plan-row">
            <Field label={words.language}>
              {(props) => (
                <select
                  {...props}
                  value={now.language}
                  onChange={(changed) => change({ language: changed.target.value as Athlete["language"] })}
                >
                  <option value="en">{words.languages.en}</option>
                  <option value="de">{words.languages.de}</option>
                </select>
              )}
            </Field>
            <Field label={words.units}>
              {(props) => (
                <select
                  {...props}
                  value={now.units}
                  onChange={(changed) => change({ units: changed.target.value as Athlete["units"] })}
                >
                  <option value="metric">{words.unitNames.metric}</option>
                  <option value="imperial">{words.unitNames.imperial}</option>
                </select>
              )}
            </Field>
            <Field label={words.preset}>
              {(props) => (
                <select
                  {...props}
                  value={now.preset}
                  onChange={(changed) => change({ preset: changed.target.value as Athlete["preset"] })}
                >
                  {PRESETS.map((preset) => (
                    <option key={preset} value={preset}>
                      {words.presets[preset]}
                    </option>
                  ))}
                </select>
              )}
            </Field>
          </div>
          <Target title={words.road} value={now.road} onChange={(road) => change({ road })} />
          <Target title={words.trainer} value={now.trainer} onChange={(trainer) => change({ trainer })} />
        </div>
        <div className="stack wide">
          <fieldset className="stack">
            <legend>{words.events}</legend>
            {now.events.map((one, index) => (
              <div key={index} className="athlete-event">
                <TextField
                  label={words.event}
                  value={one.name}
                  onChange={(name) => event(index, { name: name ?? "" })}
                />
                <TextField
                  label={words.date}
                  value={one.dateText}
                  onChange={(dateText) => event(index, { dateText })}
                />
                <DurationField
                  label={words.duration}
                  fault={words.durationFault}
                  valueS={one.durationS}
                  onChange={(durationS) => event(index, { durationS })}
                />
                <Button
                  kind="bare"
                  className="small-sign"
                  aria-label={words.removeEvent(one.name)}
                  onClick={() => change({ events: now.events.filter((_, at) => at !== index) })}
                >
                  {"\u00d7"}
                </Button>
              </div>
            ))}
            <div>
              <Button
                onClick={() => change({ events: [...now.events, { name: "", dateText: null, durationS: null }] })}
              >
                {words.addEvent}
              </Button>
            </div>
          </fieldset>
          <fieldset className="stack">
            <legend>{words.home}</legend>
            <p className="quiet small">{words.homeMore}</p>
            <div className="plan-row">
              <NumberField label={words.lat} unit={"\u00b0"} value={lat} least={-90} most={90} onChange={setLat} />
              <NumberField label={words.lon} unit={"\u00b0"} value={lon} least={-180} most={180} onChange={setLon} />
              <NumberField
                label={words.radius}
                unit="m"
                value={now.homeZone?.radiusM ?? DEFAULT_RADIUS_M}
                least={50}
                most={20000}
                onChange={(radiusM) =>
                  change({ homeZone: { latDeg: lat ?? 0, lonDeg: lon ?? 0, radiusM: radiusM ?? DEFAULT_RADIUS_M } })
                }
              />
            </div>
            {tried && homeHalf && <p className="fault">{words.homeFault}</p>}
          </fieldset>
          <fieldset className="stack">
            <legend>{words.consent}</legend>
            <div className="oneof">
              {(["unasked", "given", "refused"] as const).map((one) => (
                <label key={one}>
                  <input
                    type="radio"
                    name="consent"
                    checked={consent === one}
                    onChange={() =>
                      change({
                        lessonConsent:
                          one === "unasked"
                            ? null
                            : { given: one === "given", dateText: now.lessonConsent?.dateText ?? "" },
                      })
                    }
                  />
                  {words.consents[one]}
                </label>
              ))}
            </div>
            {now.lessonConsent !== null && (
              <TextField
                label={words.consentWhen}
                fault={tried && consentOpen ? words.consentFault : null}
                value={now.lessonConsent.dateText === "" ? null : now.lessonConsent.dateText}
                onChange={(dateText) =>
                  change({ lessonConsent: { given: now.lessonConsent!.given, dateText: dateText ?? "" } })
                }
              />
            )}
          </fieldset>
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

function Target({
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
          unit="W"
          value={value.targetW}
          least={20}
          most={1000}
          onChange={(targetW) => onChange(newTarget(value, targetW))}
        />
        <NumberField
          label={words.tolerance}
          unit="W"
          value={value.toleranceW}
          least={1}
          most={300}
          onChange={(toleranceW) => onChange({ ...value, toleranceW })}
        />
        <NumberField
          label={words.meter}
          unit="W"
          hint={words.meterHint}
          value={value.meterOffsetW}
          least={-200}
          most={200}
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
