import { type ReactNode, useEffect, useId, useRef } from "react";
import { Button } from "./Button.tsx";
import { common } from "../words/common.ts";

interface Props {
  readonly title: string;
  readonly wide?: boolean;
  /** Called on Escape and on Close; the caller takes the dialog away. */
  readonly onClose: () => void;
  /** What stands at the foot; without it there is a Close in the head only. */
  readonly actions?: ReactNode;
  readonly children: ReactNode;
}

/** A modal dialog: the browser's own element, which keeps the focus inside and gives it back at the end. */
export function Dialog({ title, wide = false, onClose, actions, children }: Props) {
  const box = useRef<HTMLDialogElement>(null);
  const titleId = useId();
  useEffect(() => {
    const dialog = box.current;
    if (dialog === null) return;
    const before = document.activeElement;
    if (!dialog.open) dialog.showModal();
    return () => {
      dialog.close();
      if (before instanceof HTMLElement && before.isConnected) before.focus();
    };
  }, []);
  return (
    <dialog
      ref={box}
      className={wide ? "box wide" : "box"}
      aria-labelledby={titleId}
      onCancel={(event) => {
        event.preventDefault();
        onClose();
      }}
    >
      <header>
        <h2 id={titleId}>{title}</h2>
        <Button kind="bare" onClick={onClose} keys="Escape">
          {common.close}
        </Button>
      </header>
      <div className="inside scroll">{children}</div>
      {actions !== undefined && <footer>{actions}</footer>}
    </dialog>
  );
}
