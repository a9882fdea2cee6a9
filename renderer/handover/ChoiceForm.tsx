import type { HandOverChoices } from "../../main/contract/debriefApi.ts";
import { LANGUAGES } from "../../main/contract/languageAndUnits.ts";
import { FOR_WHOM, PRESETS_BY_USE } from "../../main/contract/presets.ts";
import { ChoiceText, OneOf } from "../look/OneOf.tsx";
import { Tick } from "../look/Tick.tsx";
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

/** For whom, as what film, in which language. */
export function ChoiceForm({ choices, slowed, onChange }: Props) {
  return (
    <div className="stack wide">
      <WhomChoice choices={choices} onChange={onChange} />
      <fieldset>
        <legend>{words.preset}</legend>
        <OneOf
          name="preset"
          options={PRESETS_BY_USE}
          chosen={choices.preset}
          said={(preset) => <ChoiceText {...words.presets[preset]} />}
          look="down handover-presets"
          onChoose={(preset) => onChange({ ...choices, preset })}
        />
      </fieldset>
      <Tick
        className="row handover-percent"
        on={choices.playingPage}
        onChange={(playingPage) => onChange({ ...choices, playingPage })}
      >
        <ChoiceText name={words.playing} more={words.playingMore} />
      </Tick>
      {(slowed || choices.slowSound === "none") && (
        <Tick
          className="row handover-percent"
          on={choices.slowSound === "stretched"}
          onChange={(on) => onChange({ ...choices, slowSound: on ? "stretched" : "none" })}
        >
          <ChoiceText name={words.slowSound} more={words.slowSoundMore} />
        </Tick>
      )}
      <fieldset>
        <legend>{words.language}</legend>
        <OneOf
          name="language"
          options={LANGUAGES}
          chosen={choices.language}
          said={(language) => <span lang={language}>{words.languages[language]}</span>}
          onChoose={(language) => onChange({ ...choices, language })}
        />
      </fieldset>
    </div>
  );
}

/** For whom it is, and for a lesson how its watts are shown. */
function WhomChoice({ choices, onChange }: WhomProps) {
  return (
    <fieldset>
      <legend>{words.forWhom}</legend>
      <OneOf
        name="whom"
        options={FOR_WHOM}
        chosen={choices.forWhom}
        said={(whom) => <ChoiceText {...words.whom[whom]} />}
        look="down"
        onChoose={(forWhom) => onChange({ ...choices, forWhom, asPercent: forWhom === "lesson" && choices.asPercent })}
      />
      {choices.forWhom === "lesson" && (
        <Tick
          className="row handover-percent"
          on={choices.asPercent}
          onChange={(asPercent) => onChange({ ...choices, asPercent })}
        >
          <ChoiceText name={words.asPercent} more={words.asPercentMore} />
        </Tick>
      )}
    </fieldset>
  );
}
