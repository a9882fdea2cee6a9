import { Button } from "../look/Button.tsx";
import { skim as words } from "../words/skim.ts";
import { SPEAK_KEY, type Spoken } from "./useSpoken.ts";

/** Held down, by pointer or by its key, it records what the coach says about the instant that is seen. */
export function SpeakButton({ spoken, locked }: { readonly spoken: Spoken; readonly locked: boolean }) {
  const { state, said, begin, end } = spoken;
  return (
    <>
      <Button
        kind="bare"
        keys={SPEAK_KEY}
        aria-pressed={state === "recording"}
        disabled={locked || state === "saving"}
        title={words.speakHint}
        onPointerDown={(event) => event.button === 0 && begin()}
        onKeyDown={(event) => {
          if ((event.key === " " || event.key === "Enter") && !event.repeat) {
            event.preventDefault();
            begin();
          }
        }}
        onKeyUp={(event) => (event.key === " " || event.key === "Enter") && end()}
      >
        {state === "recording" ? words.speaking : words.speak}
      </Button>
      <span className={said === "refused" ? "small wrong" : "quiet small"} role="status">
        {state === "asking"
          ? words.speakAsking
          : state === "saving"
            ? words.speakSaving
            : state === "recording"
              ? words.speakRecording
              : said === "nothing"
                ? ""
                : words.spoken[said]}
      </span>
    </>
  );
}
