import type { AskedChoice } from "../../main/contract/debrief.ts";
import type { ReadingView } from "../../main/contract/debriefApi.ts";
import { askedAbout } from "../../overlay/words/askedWords.ts";
import { clockText, durationText } from "../../overlay/words/numbers.ts";
import { Options } from "../look/SelectField.tsx";
import { WINDOW_LANGUAGE } from "../words/language.ts";
import { skim as words } from "../words/skim.ts";

interface Props {
  readonly asked: readonly AskedChoice[];
  readonly reading: ReadingView;
  /** One sentence for each moment of the reading. */
  readonly momentWords: readonly string[];
  /** Index of the moment that is open: it may always be the one. */
  readonly selected: number | null;
  readonly locked: boolean;
  /** `to` null: let it go. */
  readonly onSettle: (index: number, to: number | null) => void;
}

/** What the coach said or set and that has no sure place any more: which moment is it, or shall it go? */
export function AskedList({ asked, reading, momentWords, selected, locked, onSettle }: Props) {
  if (asked.length === 0) return null;
  const placeWords = (one: AskedChoice, to: number) => {
    if (one.what === "break") {
      const { startS, endS } = reading.breaks[to]!;
      return words.breakAt(clockText(startS), durationText(endS - startS));
    }
    return `${clockText(reading.moments[to]!.startS)}, ${momentWords[to]}`;
  };
  return (
    <section className="note unsure skim-asked stack" aria-label={words.asked}>
      <h2>{words.asked}</h2>
      <p className="small">{words.askedHint}</p>
      <ul className="stack">
        {asked.map((one, index) => {
          const about = askedAbout(one, WINDOW_LANGUAGE, words.kind);
          const open = one.what === "break" || selected === null || one.among.includes(selected) ? [] : [selected];
          return (
            <li key={about}>
              <span>{about}</span>
              <div className="row">
                <select
                  className="input"
                  aria-label={words.askedWhich(about)}
                  value=""
                  disabled={locked}
                  onChange={(event) => onSettle(index, Number(event.target.value))}
                >
                  <option value="" disabled>
                    {words.askedChoose}
                  </option>
                  <Options of={[...one.among, ...open].map((to) => [String(to), placeWords(one, to)])} />
                </select>
                <button
                  type="button"
                  className="button bare"
                  aria-label={words.letGoOf(about)}
                  disabled={locked}
                  onClick={() => onSettle(index, null)}
                >
                  {words.letGo}
                </button>
              </div>
            </li>
          );
        })}
      </ul>
    </section>
  );
}
