import type { DebriefView, EarlierPlan, PathId } from "../../main/contract/debriefApi.ts";
import { durationText } from "../../overlay/words/numbers.ts";
import { desk } from "../desk/desk.ts";
import { useAnswer } from "../desk/useAnswer.ts";
import { Options } from "../look/SelectField.tsx";
import { gather as words } from "../words/gather.ts";

interface Props {
  readonly debrief: DebriefView;
  readonly onTake: (id: PathId) => void;
}

/** A plan of an earlier ride of the athlete, asked once more; nothing where there is none. */
export function PlanTaken({ debrief, onTake }: Props) {
  const { athleteId, folder } = debrief;
  const plans = useAnswer<readonly EarlierPlan[]>(
    () => desk.earlierPlans(),
    [athleteId, folder],
    [],
    () => [],
  );
  if (plans.length === 0) return null;
  return (
    <label className="plan-taken">
      <span>{words.earlierPlan}</span>
      <select
        className="input"
        value=""
        disabled={debrief.readOnly !== null}
        onChange={(event) => onTake(event.target.value)}
      >
        <option value="" disabled>
          {words.earlierChoose}
        </option>
        <Options of={plans.map((plan) => [plan.id, planText(plan)])} />
      </select>
    </label>
  );
}

function planText({ rideDateText, title, setting, targetW, warmUpS, blocks }: EarlierPlan): string {
  return [
    rideDateText,
    title,
    words.settings[setting].name,
    targetW === null ? words.earlierNoTarget : `${Math.round(targetW)} W`,
    warmUpS === null ? null : `${words.warmUp.toLowerCase()} ${durationText(warmUpS)}`,
    blocks === 0 ? null : words.earlierBlocks(blocks),
  ]
    .filter((one) => one !== null)
    .join(", ");
}
