import { Button } from "../look/Button.tsx";
import { gather as words } from "../words/gather.ts";
import type { Batch } from "./batch.ts";

interface Props {
  readonly batch: Batch;
  /** The rides to hop to; null: there is none that way. */
  readonly next: number | null;
  readonly before: number | null;
  readonly busy: boolean;
  readonly onOpen: (index: number | null) => void;
}

/** On to the next ride of the batch, or back. */
export function BatchHop({ batch, next, before, busy, onOpen }: Props) {
  return (
    <div className="row gather-hop">
      {batch.at !== null && <span className="quiet">{words.batchAt(batch.at + 1, batch.rides.length)}</span>}
      <Button keys="p" disabled={before === null || busy} onClick={() => onOpen(before)}>
        {words.batchBefore}
      </Button>
      <Button keys="n" disabled={next === null || busy} onClick={() => onOpen(next)}>
        {words.batchNext}
      </Button>
    </div>
  );
}
