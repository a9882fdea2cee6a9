import type { HandOverChoices } from "../../main/contract/debriefApi.ts";
import { LANGUAGES } from "../../main/contract/languageAndUnits.ts";
import { FOR_WHOM, type PresetName } from "../../main/contract/presets.ts";
import { handover as words } from "../words/handover.ts";

type Choices = Omit<HandOverChoices, "agreed">;

interface Props extends WhomProps {
  /** A shot of the film runs slower than life. */
  readonly slowed: boolean;
}

interface WhomProps {
  readonly choices: Choices;
  readonly onChange: (choices: Choices) => void;
}

/** The usual one first. */
const PRESETS: readonly PresetName[] = ["share", "phone", "draft", "archive"];

/** For whom, as what film, in which language. */
export function ChoiceForm({ choices, slowed, onChange }: Props) {
  return (
    <div className="stack wide">
      <WhomChoice choices={choices} onChange={onChange} />
      <fieldset>
        <legend>{words.preset}</legend>
        <div className="oneof down handover-presets">
          {PRESETS.map((preset) => (
            <label key={preset}>
              <input
                type="radio"
                name="preset"
                checked={choices.preset === preset}
                onChange={() => onChange({ ...choices, preset })}
              />
              <span className="choice">
                <b>{words.presets[preset].name}</b>
                <span>{words.presets[preset].more}</span>
              </span>
            </label>
          ))}
        </div>
      </fieldset>
      <label className="row handover-percent">
        <input
          type="checkbox"
          checked={choices.playingPage}
          onChange={(event) => onChange({ ...choices, playingPage: event.target.checked })}
        />
        <span className="choice">
          <b>{words.playing}</b>
          <span>{words.playingMore}</span>
        </span>
      </label>
      {(slowed || choices.slowSound === "none") && (
        <label className="row handover-percent">
          <input
            type="checkbox"
            checked={choices.slowSound === "stretched"}
            onChange={(event) => onChange({ ...choices, slowSound: event.target.checked ? "stretched" : "none" })}
          />
          <span className="choice">
            <b>{words.slowSound}</b>
            <span>{words.slowSoundMore}</span>
          </span>
        </label>
      )}
      <fieldset>
        <legend>{words.language}</legend>
        <div className="oneof">
          {LANGUAGES.map((language) => (
            <label key={language}>
              <input
                type="radio"
                name="language"
                checked={choices.language === language}
                onChange={() => onChange({ ...choices, language })}
              />
              <span lang={language}>{words.languages[language]}</span>
            </label>
          ))}
        </div>
      </fieldset>
    </div>
  );
}

/** For whom it is, and for a lesson how its watts are shown. */
function WhomChoice({ choices, onChange }: WhomProps) {
  return (
    <fieldset>
      <legend>{words.forWhom}</legend>
      <div className="oneof down">
        {FOR_WHOM.map((whom) => (
          <label key={whom}>
            <input
              type="radio"
              name="whom"
              checked={choices.forWhom === whom}
              onChange={() =>
                onChange({ ...choices, forWhom: whom, asPercent: whom === "lesson" && choices.asPercent })
              }
            />
            <span className="choice">
              <b>{words.whom[whom].name}</b>
              <span>{words.whom[whom].more}</span>
            </span>
          </label>
        ))}
      </div>
      {choices.forWhom === "lesson" && (
        <label className="row handover-percent">
          <input
            type="checkbox"
            checked={choices.asPercent}
            onChange={(event) => onChange({ ...choices, asPercent: event.target.checked })}
          />
          <span className="choice">
            <b>{words.asPercent}</b>
            <span>{words.asPercentMore}</span>
          </span>
        </label>
      )}
    </fieldset>
  );
}
