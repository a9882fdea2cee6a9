import type { DebriefView } from "../../main/contract/debriefApi.ts";
import type { CoachWords } from "../../main/contract/debrief.ts";
import { desk } from "../desk/desk.ts";
import { TextField } from "../look/TextField.tsx";
import type { Calls } from "../look/useCalls.ts";
import { handover as words } from "../words/handover.ts";

const LINES = ["held", "change", "next", "notes"] as const;
const MOST_QUESTIONS = 3;

/** The coach's own lines in place of the made ones. */
export function OwnWords({ debrief, onFailure }: { readonly debrief: DebriefView; readonly onFailure: Calls["call"] }) {
  const own = debrief.document.words;
  const locked = debrief.readOnly !== null;
  const change = (part: Partial<CoachWords>, what: string) =>
    void onFailure(() =>
      desk.edit({ part: "words", value: { ...own, ...part }, label: words.wordsLabel(what) }, debrief.edit),
    );
  return (
    <section className="part" aria-labelledby="own-title">
      <header>
        <h2 id="own-title">{words.own}</h2>
        <span className="quiet small">{words.ownMore}</span>
      </header>
      {LINES.map((line) => (
        <TextField
          key={line}
          label={words[line]}
          value={own[line]}
          lines={line === "notes"}
          disabled={locked}
          onChange={(value) => change({ [line]: value }, words[line])}
        />
      ))}
      <TextField
        lines
        label={words.questions}
        value={own.questions?.join("\n") ?? null}
        disabled={locked}
        fault={own.questions !== null && own.questions.length > MOST_QUESTIONS ? words.questionsFault : null}
        onChange={(value) => {
          const questions =
            value
              ?.split("\n")
              .map((one) => one.trim())
              .filter((one) => one !== "")
              .slice(0, MOST_QUESTIONS) ?? null;
          change({ questions }, words.questions);
        }}
      />
    </section>
  );
}
