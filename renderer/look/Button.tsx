import type { ButtonHTMLAttributes, ReactNode } from "react";
import { keyText } from "./keys.ts";

interface Props extends ButtonHTMLAttributes<HTMLButtonElement> {
  /** `main`: the one thing to do next on a screen. `bare`: beside others. `wrong`: takes something away. */
  readonly kind?: "main" | "plain" | "bare" | "wrong";
  /** The key that does the same, shown on the button; the screen listens for it with `useKeys`. */
  readonly keys?: string;
  readonly children: ReactNode;
}

/** A button in the window's look. */
export function Button({ kind = "plain", keys, children, className, type, ...rest }: Props) {
  const classes = ["button", kind === "plain" ? "" : kind, className ?? ""].filter(Boolean).join(" ");
  return (
    <button type={type ?? "button"} className={classes} {...rest}>
      <span>{children}</span>
      {keys !== undefined && (
        <kbd className="keycap" aria-hidden="true">
          {keyText(keys)}
        </kbd>
      )}
    </button>
  );
}
