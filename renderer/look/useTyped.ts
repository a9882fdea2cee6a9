import { useEffect, useRef, useState } from "react";

/**
 * What stands in a field: the text of its value, or what is typed over it until that is handed on. A value that comes
 * back late, from what was typed before, takes nothing away of what is being typed.
 */
export function useTyped(text: string, onText: () => void = () => undefined) {
  const [typed, setTyped] = useState(text);
  const typing = useRef(false);
  useEffect(() => {
    if (typing.current) return;
    setTyped(text);
    onText();
    // Only when another text comes.
  }, [text]);
  const type = (next: string): void => {
    typing.current = true;
    setTyped(next);
  };
  /** It is handed on, or refused: it stands there until another text comes. */
  const done = (): void => {
    typing.current = false;
  };
  /** The text again. */
  const back = (): void => {
    typing.current = false;
    setTyped(text);
  };
  return { typed, type, done, back };
}
