import { type ReactNode, useId } from "react";

/** One of several sections of which one is open. */
export interface FoldState {
  readonly open: boolean;
  /** Opens it, or closes it where it is open. */
  readonly onToggle: () => void;
}

interface Props {
  readonly title: string;
  /** What it holds, in a few words, where it is closed too. */
  readonly said?: string;
  readonly state: FoldState;
  readonly children: ReactNode;
}

/** A section that opens by its heading. What it holds stays there when it is closed, so that its keys are heard. */
export function Fold({ title, said, state, children }: Props) {
  const id = useId();
  return (
    <section className={state.open ? "fold open" : "fold"} aria-labelledby={`${id}-title`}>
      <h3>
        <button
          type="button"
          className="fold-head"
          aria-expanded={state.open}
          aria-controls={id}
          onClick={state.onToggle}
        >
          <span id={`${id}-title`}>{title}</span>
          {said !== undefined && <span className="quiet small">{said}</span>}
        </button>
      </h3>
      <div id={id} className="fold-body stack" hidden={!state.open}>
        {children}
      </div>
    </section>
  );
}
