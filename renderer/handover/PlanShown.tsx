import { useState } from "react";
import type { HandOverAsk, HandOverChoices, HandOverPlan, PathId } from "../../main/contract/debriefApi.ts";
import type { FailureData } from "../../main/contract/failure.ts";
import { failureText } from "../../overlay/words/notices/noticeText.ts";
import { Button } from "../look/Button.tsx";
import { FailureNote } from "../look/FailureNote.tsx";
import { Tick } from "../look/Tick.tsx";
import { Picker } from "../picker/Picker.tsx";
import { handover as words } from "../words/handover.ts";
import { WINDOW_LANGUAGE } from "../words/language.ts";

interface Props {
  readonly plan: HandOverPlan | null;
  readonly failure: FailureData | null;
  readonly choices: Omit<HandOverChoices, "agreed">;
  readonly onChoices: (choices: Omit<HandOverChoices, "agreed">) => void;
  /** Keys of what was agreed to. */
  readonly agreed: readonly string[];
  readonly onAgree: (agreed: readonly string[]) => void;
}

/** What would be written where, how long that takes, and what has to be agreed to. */
export function PlanShown({ plan, failure, choices, onChoices, agreed, onAgree }: Props) {
  const [picking, setPicking] = useState(false);
  const onFolder = (into: PathId | undefined) => onChoices({ ...choices, into });
  return (
    <>
      {failure !== null && <FailureNote failure={failure} />}
      {plan === null && failure === null && <p className="quiet">{words.planning}</p>}
      {plan !== null && (
        <>
          <div className="row">
            <p className="handover-folder grow">{words.into(plan.folder)}</p>
            <Button onClick={() => setPicking(true)}>{words.otherFolder}</Button>
            {choices.into !== undefined && (
              <Button kind="bare" onClick={() => onFolder(undefined)}>
                {words.ownFolder}
              </Button>
            )}
          </div>
          {picking && (
            <Picker
              wants="folder"
              title={words.pickFolder}
              onClose={() => setPicking(false)}
              onPick={([id]) => {
                setPicking(false);
                if (id !== undefined) onFolder(id);
              }}
            />
          )}
          <ul className="handover-files">
            {plan.files.map((file) => (
              <li key={file.name}>
                <span className="name">{file.name}</span>
                <span className="quiet">{file.what}</span>
              </li>
            ))}
          </ul>
        </>
      )}
      {plan !== null && plan.asks.length > 0 && (
        <fieldset className="stack note unsure">
          <legend className="unseen">{words.asks}</legend>
          <h3>{words.asks}</h3>
          {plan.asks.map((ask) => (
            <Tick
              key={ask.key}
              className="row handover-ask"
              on={agreed.includes(ask.key)}
              onChange={(on) => onAgree(on ? [...agreed, ask.key] : agreed.filter((key) => key !== ask.key))}
            >
              <span className="grow">
                {askText(ask)} <b>{words.agree}</b>
              </span>
            </Tick>
          ))}
        </fieldset>
      )}
    </>
  );
}

/** What a person agrees to, with what stands against it otherwise. */
function askText({ key, because }: HandOverAsk): string {
  const against = because === null ? "" : `${failureText(because, WINDOW_LANGUAGE, "window").sentence} `;
  return `${against}${words.asked[key]}`;
}
