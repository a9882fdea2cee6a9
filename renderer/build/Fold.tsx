import { type ReactNode, useEffect, useId, useRef } from "react";

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
  const box = useRef<HTMLElement>(null);
  const { open } = state;
  const opened = useRef(open);
  useEffect(() => {
    // What is opened comes into sight, as much of it as there is room.
    if (open && !opened.current) box.current?.scrollIntoView({ block: "nearest" });
    opened.current = open;
  }, [open]);
  return (
    <section ref={box} className={open ? "fold open" : "fold"} aria-labelledby={`${id}-title`}>
      <h3>
        <button type="button" className="fold-head" aria-expanded={open} aria-controls={id} onClick={state.onToggle}>
          <span id={`${id}-title`}>{title}</span>
          {said !== undefined && <span className="quiet small">{said}</span>}
        </button>
      </h3>
      <div id={id} className="fold-body stack" hidden={!open}>
        {children}
      </div>
    </section>
  );
}
