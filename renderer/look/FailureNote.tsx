import { useEffect, useRef } from "react";
import type { FailureData } from "../../main/contract/failure.ts";
import { failureText } from "../../overlay/words/notices/noticeText.ts";
import { WINDOW_LANGUAGE } from "../words/language.ts";

/** What went wrong, in one sentence, and what to do; brought into sight where it stands above or below what is seen. */
export function FailureNote({ failure }: { readonly failure: FailureData }) {
  const { sentence, remedy } = failureText(failure.notice, WINDOW_LANGUAGE, "window");
  const note = useRef<HTMLDivElement>(null);
  // Every view of the desk brings it anew: who has scrolled on is not pulled back by the same one.
  const said = `${sentence} ${remedy}`;
  useEffect(() => {
    // Once it is laid out: until then the browser keeps in place what stood there before.
    const laid = requestAnimationFrame(() => note.current?.scrollIntoView({ block: "nearest" }));
    return () => cancelAnimationFrame(laid);
  }, [said]);
  return (
    <div ref={note} className="note wrong" role="alert">
      <p>
        <b>{sentence}</b> {remedy}
      </p>
    </div>
  );
}
