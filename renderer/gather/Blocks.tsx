import type { Plan, PlanBlock } from "../../main/contract/plan.ts";
import { clockText } from "../../overlay/words/numbers.ts";
import { Button } from "../look/Button.tsx";
import { gather as words } from "../words/gather.ts";

interface Props {
  readonly plan: Plan;
  readonly onChange: (part: Partial<Plan>, label: string) => void;
}

/** The blocks of the plan. */
export function Blocks({ plan, onChange }: Props) {
  return (
    <ul className="rows plan-blocks" aria-label={words.blocks}>
      {plan.blocks.map((block, index) => (
        <li key={`${block.startS}-${block.endS}`} className="firm row apart">
          <span>{blockText(block)}</span>
          <Button
            kind="bare"
            onClick={() =>
              onChange({ blocks: plan.blocks.filter((_, at) => at !== index) }, words.labels.plain(words.blocks))
            }
          >
            {words.removeBlock}
          </Button>
        </li>
      ))}
    </ul>
  );
}

function blockText(block: PlanBlock): string {
  const at = block.targetW === null ? "" : `, ${block.targetW} W`;
  return `${words.block[block.kind]} ${words.blockFrom} ${clockText(block.startS)} ${words.blockTo} ${clockText(block.endS)}${at}`;
}
