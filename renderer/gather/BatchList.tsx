import type { BatchEntry } from "../../main/contract/debriefApi.ts";
import { Button } from "../look/Button.tsx";
import { gather as words } from "../words/gather.ts";
import type { Batch } from "./batch.ts";

interface Props {
  readonly batch: Batch;
  readonly onOpen: (index: number) => void;
  readonly onClose: () => void;
}

/** The rides of a batch: what needs a look first, what was seen, what could not be prepared. */
export function BatchList({ batch, onOpen, onClose }: Props) {
  const seen = batch.rides.filter((ride) => ride.seen).length;
  return (
    <section className="part gather-batch" aria-labelledby="batch-title">
      <header>
        <h2 id="batch-title">{words.batch}</h2>
        <span className="quiet">{words.batchSeen(seen, batch.rides.length)}</span>
        <Button kind="bare" onClick={onClose}>
          {words.batchClose}
        </Button>
      </header>
      <ol className="rows">
        {batch.rides.map((ride, index) => (
          <li key={index} className={ride.id === null ? "wrong" : ride.looks.length > 0 ? "unsure" : "firm"}>
            {ride.id === null ? (
              <div className="start-open">
                <RideWords ride={ride} />
              </div>
            ) : (
              <button
                type="button"
                className="start-open"
                aria-current={index === batch.at ? "true" : undefined}
                onClick={() => onOpen(index)}
              >
                <RideWords ride={ride} />
              </button>
            )}
          </li>
        ))}
      </ol>
    </section>
  );
}

function RideWords({ ride }: { readonly ride: BatchEntry }) {
  return (
    <>
      <span className="name">{ride.name}</span>
      <span className="quiet">
        {[ride.rideDateText, ride.seen ? words.batchRideSeen : null].filter((one) => one !== null).join(", ")}
      </span>
      {ride.looks.map((look) => (
        <span key={look} className="small">
          {look}
        </span>
      ))}
    </>
  );
}
