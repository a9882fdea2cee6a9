import { Fragment, useState } from "react";
import type { DebriefView } from "../../main/contract/debriefApi.ts";
import type { CoachWords } from "../../main/contract/debrief.ts";
import type { SaidLine, SaidWords } from "../../main/contract/saidWords.ts";
import { desk } from "../desk/desk.ts";
import { Button } from "../look/Button.tsx";
import { hourText } from "../../overlay/words/numbers.ts";
import { secondsOf } from "../look/secondsOf.ts";
import { TextField } from "../look/TextField.tsx";
import type { Calls } from "../look/useCalls.ts";
import { handover as words } from "../words/handover.ts";

const MOST_QUESTIONS = 3;
/** A main part that may be asked for, s; as the form of the document has it. */
const NEXT_S = { least: 300, most: 86_400 };

interface Props {
  readonly debrief: DebriefView;
  /** As the hand-over would say it now; null: being worked out. */
  readonly said: SaidWords | null;
  /** A lesson says made words only. */
  readonly lesson: boolean;
  readonly onFailure: Calls["call"];
}

/** Questions as a text of lines, and back. */
function asQuestions(text: string | null): readonly string[] | null {
  const questions = (text ?? "")
    .split("\n")
    .map((one) => one.trim())
    .filter((one) => one !== "");
  return questions.length === 0 ? null : questions.slice(0, MOST_QUESTIONS);
}

/** What is said, made by the program until the coach writes it otherwise; and the message as it will be sent. */
export function OwnWords({ debrief, said, lesson, onFailure }: Props) {
  const own = debrief.document.words;
  const locked = debrief.readOnly !== null || lesson;
  const change = (what: SaidLine["what"], text: string | null) => {
    const part: Partial<CoachWords> = { [what]: what === "questions" ? asQuestions(text) : text };
    return onFailure(() =>
      desk.edit({ part: "words", value: { ...own, ...part }, label: words.wordsLabel(words[what]) }, debrief.edit),
    );
  };
  return (
    <>
      <section className="part" aria-labelledby="own-title">
        <header>
          <h2 id="own-title">{words.own}</h2>
          <span className="quiet small">{lesson ? words.ownLesson : words.ownMore}</span>
        </header>
        {said === null && <p className="quiet">{words.planning}</p>}
        {said?.lines.map((line) => (
          <Fragment key={line.what}>
            <SaidField
              line={line}
              locked={locked}
              onChange={(text) => void change(line.what, text === line.made ? null : text)}
            />
            {line.what === "next" && line.by === "made" && (
              <NextLength
                nextS={own.nextS}
                locked={locked}
                onChange={(nextS) =>
                  void onFailure(() =>
                    desk.edit(
                      { part: "words", value: { ...own, nextS }, label: words.wordsLabel(words.nextLength) },
                      debrief.edit,
                    ),
                  )
                }
              />
            )}
          </Fragment>
        ))}
      </section>
      {said !== null && <Message text={said.message} />}
    </>
  );
}

/** The coach's own length of the next ride, in the made line. */
function NextLength(props: {
  readonly nextS: number | null;
  readonly locked: boolean;
  readonly onChange: (nextS: number | null) => void;
}) {
  const { nextS, locked, onChange } = props;
  const [fault, setFault] = useState(false);
  return (
    <TextField
      label={words.nextLength}
      hint={words.nextLengthHint}
      value={nextS === null ? null : hourText(nextS)}
      disabled={locked}
      fault={fault ? words.nextLengthFault : null}
      onChange={(typed) => {
        const seconds = typed === null ? null : secondsOf(typed);
        const good = seconds === null || (seconds >= NEXT_S.least && seconds <= NEXT_S.most);
        setFault(!good);
        if (good) onChange(seconds);
      }}
    />
  );
}

function SaidField(props: {
  readonly line: SaidLine;
  readonly locked: boolean;
  readonly onChange: (text: string | null) => void;
}) {
  const { line, locked, onChange } = props;
  const yours = line.by === "yours";
  const many = line.what === "questions" && line.text.split("\n").length > MOST_QUESTIONS;
  return (
    <div className="handover-said">
      <TextField
        lines
        label={words[line.what]}
        value={line.text === "" ? null : line.text}
        disabled={locked}
        fault={many ? words.questionsFault : null}
        onChange={onChange}
      />
      {(yours || line.made !== "") && (
        <div className="row small">
          <span className={yours ? "handover-yours" : "quiet"}>{yours ? words.yours : words.made}</span>
          {yours && line.made !== "" && (
            <Button
              kind="bare"
              disabled={locked}
              title={line.made}
              aria-label={words.madeAgainOf(words[line.what])}
              onClick={() => onChange(null)}
            >
              {words.madeAgain}
            </Button>
          )}
        </div>
      )}
    </div>
  );
}

function Message({ text }: { readonly text: string }) {
  const [copied, setCopied] = useState<string | null>(null);
  return (
    <section className="part" aria-labelledby="message-title">
      <header>
        <h2 id="message-title">{words.message}</h2>
        <Button kind="bare" onClick={() => void navigator.clipboard.writeText(text).then(() => setCopied(text))}>
          {copied === text ? words.copied : words.copy}
        </Button>
      </header>
      <pre className="handover-message">{text}</pre>
    </section>
  );
}
