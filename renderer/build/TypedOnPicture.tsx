import { useRef, useState } from "react";

interface Props {
  readonly label: string;
  readonly text: string;
  /** Where its left end stands, shares of the picture; null: where captions are. */
  readonly at: { readonly x: number; readonly y: number } | null;
  /** Size of its letters, share of the picture's width; null: the window's own. */
  readonly emShare: number | null;
  /** Called with what was typed, once; null: it was given up. */
  readonly onDone: (text: string | null) => void;
}

/** Words typed where they will stand on the picture. Enter or leaving takes them, Escape gives them up. */
export function TypedOnPicture({ label, text, at, emShare, onDone }: Props) {
  const [typed, setTyped] = useState(text);
  const over = useRef(false);
  const done = (given: string | null) => {
    if (over.current) return;
    over.current = true;
    onDone(given === null ? null : given.trim());
  };
  return (
    <input
      autoFocus
      className={at === null ? "on-picture caption" : "on-picture"}
      style={
        at === null
          ? undefined
          : {
              left: `${at.x * 100}%`,
              top: `${at.y * 100}%`,
              maxWidth: `${(1 - at.x) * 100}%`,
              // As the painter sets it, yet never too small to be typed.
              fontSize: `max(1rem, ${(emShare ?? 0) * 100}cqw)`,
            }
      }
      aria-label={label}
      placeholder={label}
      size={Math.max(12, typed.length + 1)}
      maxLength={200}
      autoComplete="off"
      value={typed}
      onChange={(event) => setTyped(event.target.value)}
      onBlur={() => done(typed)}
      onKeyDown={(event) => {
        if (event.key === "Enter") done(typed);
        else if (event.key === "Escape") done(null);
        else return;
        event.preventDefault();
      }}
    />
  );
}
