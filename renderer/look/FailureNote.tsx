import type { FailureData } from "../../main/contract/failure.ts";

/** What went wrong, in one sentence, and what to do. */
export function FailureNote({ failure }: { readonly failure: FailureData }) {
  return (
    <div className="note wrong" role="alert">
      <p>
        <b>{failure.sentence}</b> {failure.remedy}
      </p>
    </div>
  );
}
