import { useEffect, useState } from "react";
import type { AthleteEntry, DebriefView, PathId } from "../../main/contract/debriefApi.ts";
import { desk } from "../desk/desk.ts";
import { Field } from "../look/Field.tsx";
import { gather as words } from "../words/gather.ts";

/** Whose ride it is. */
export function AthleteChoice({
  debrief,
  onUse,
}: {
  readonly debrief: DebriefView;
  readonly onUse: (id: PathId | null) => void;
}) {
  const [athletes, setAthletes] = useState<readonly AthleteEntry[]>([]);
  useEffect(() => {
    let here = true;
    desk.athletes().then(
      (found) => here && setAthletes(found),
      () => undefined,
    );
    return () => {
      here = false;
    };
  }, [debrief.athleteId]);
  const chosen = athletes.find((athlete) => athlete.id === debrief.athleteId);
  return (
    <Field label={words.athlete} hint={chosen?.lines.join("; ")}>
      {(props) => (
        <select
          {...props}
          disabled={debrief.readOnly !== null}
          value={debrief.athleteId ?? ""}
          onChange={(event) => onUse(event.target.value === "" ? null : event.target.value)}
        >
          <option value="">{words.noAthlete}</option>
          {debrief.athleteId !== null && chosen === undefined && (
            <option value={debrief.athleteId}>{debrief.athleteName ?? words.athleteAway}</option>
          )}
          {athletes.map((athlete) => (
            <option key={athlete.id} value={athlete.id}>
              {athlete.name}
            </option>
          ))}
        </select>
      )}
    </Field>
  );
}
