import type { AthleteEntry, DebriefView, PathId } from "../../main/contract/debriefApi.ts";
import { desk } from "../desk/desk.ts";
import { useAnswer } from "../desk/useAnswer.ts";
import { SelectField } from "../look/SelectField.tsx";
import { gather as words } from "../words/gather.ts";

/** Whose ride it is. */
export function AthleteChoice({
  debrief,
  onUse,
}: {
  readonly debrief: DebriefView;
  readonly onUse: (id: PathId | null) => void;
}) {
  const { athleteId, athleteName } = debrief;
  const athletes = useAnswer<readonly AthleteEntry[]>(() => desk.athletes(), [athleteId], []);
  const chosen = athletes.find((athlete) => athlete.id === athleteId);
  return (
    <SelectField
      label={words.athlete}
      hint={chosen?.lines.join("; ")}
      value={athleteId ?? ""}
      options={[
        ["", words.noAthlete],
        ...(athleteId !== null && chosen === undefined ? [[athleteId, athleteName ?? words.athleteAway] as const] : []),
        ...athletes.map(({ id, name }) => [id, name] as const),
      ]}
      disabled={debrief.readOnly !== null}
      onChoose={(id) => onUse(id || null)}
    />
  );
}
