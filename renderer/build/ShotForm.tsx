import type { ClipView } from "../../main/contract/debriefApi.ts";
import type { Shot } from "../../main/contract/film.ts";
import { clockText } from "../../overlay/words/numbers.ts";
import { Button } from "../look/Button.tsx";
import { NumberField } from "../look/NumberField.tsx";
import { TextField } from "../look/TextField.tsx";
import { useKeys } from "../look/keys.ts";
import { build as words } from "../words/build.ts";
import { SPEEDS, atSpeed, captioned, frozenAt, shownInstead, trimmed, withNewCaption } from "./filmEdits.ts";
import { TrimBar } from "./TrimBar.tsx";

interface Props {
  readonly shot: Shot;
  readonly clip: ClipView;
  readonly first: boolean;
  readonly locked: boolean;
  readonly onLook: (mediaS: number) => void;
  /** Clip time on the screen, s. */
  readonly mediaNow: () => number | null;
  readonly itemNow: () => number;
  readonly onChange: (shot: Shot, label: string) => void;
}

const HOLD_S = 3;
const tenth = (value: number) => Math.round(value * 10) / 10;
const longCaption = (text: string) => text.trim().split(/\s+/).length > 10;

/** One shot: where it is cut, how fast it runs, where it holds, what it says. */
export function ShotForm({ shot, clip, first, locked, onLook, mediaNow, itemNow, onChange }: Props) {
  const holdHere = () => {
    const atS = mediaNow();
    if (atS !== null) onChange(frozenAt(shot, Math.min(atS, shot.mediaEndS - 0.05), HOLD_S), words.labels.hold);
  };
  const cut = (startS: number, endS: number) => onChange(trimmed(shot, startS, endS, clip.durationS), words.labels.cut);
  const beginHere = () => cut(mediaNow() ?? shot.mediaStartS, shot.mediaEndS);
  const endHere = () => cut(shot.mediaStartS, mediaNow() ?? shot.mediaEndS);
  const addCaption = () => onChange(withNewCaption(shot, itemNow(), words.newCaption), words.labels.caption);
  const captionFault = (index: number) => {
    const other = shownInstead(shot.captions, index);
    if (other !== null) return words.captionHidden(other + 1);
    return longCaption(shot.captions[index]!.text) ? words.tooLong : null;
  };
  useKeys(
    words.shot,
    locked
      ? []
      : [
          { keys: "[", words: words.beginsHere, run: beginHere },
          { keys: "]", words: words.endsHere, run: endHere },
          { keys: "f", words: words.holdHere, run: holdHere },
          { keys: "c", words: words.addCaption, run: addCaption },
        ],
  );
  return (
    <>
      <section className="stack" aria-labelledby="build-cut">
        <h3 id="build-cut">{words.cut}</h3>
        <TrimBar shot={shot} clip={clip} locked={locked} onLook={onLook} onTrim={cut} />
        <p className="row apart small">
          <span>
            {words.begins} {words.clipTime(clockText(shot.mediaStartS))}
          </span>
          <span>
            {words.ends} {words.clipTime(clockText(shot.mediaEndS))}
          </span>
        </p>
        {!locked && (
          <div className="row">
            <Button keys="[" onClick={beginHere}>
              {words.beginsHere}
            </Button>
            <Button keys="]" onClick={endHere}>
              {words.endsHere}
            </Button>
          </div>
        )}
      </section>
      <section className="stack" aria-label={words.speed}>
        <div className="field">
          <label htmlFor="build-speed">{words.speed}</label>
          <select
            id="build-speed"
            className="input build-narrow"
            value={shot.speed}
            disabled={locked}
            onChange={(event) =>
              onChange(atSpeed(shot, Number(event.target.value), clip.durationS), words.labels.speed)
            }
          >
            {[...new Set([...SPEEDS, shot.speed])]
              .sort((a, b) => a - b)
              .map((speed) => (
                <option key={speed} value={speed}>
                  {speed === 1 ? words.asFilmed : words.times(speed)}
                </option>
              ))}
          </select>
        </div>
        {!first && (
          <NumberField
            label={words.fade}
            unit={words.seconds}
            hint={words.fadeOff + ": 0"}
            value={shot.crossfadeS}
            least={0}
            most={2}
            disabled={locked}
            onChange={(value) => onChange({ ...shot, crossfadeS: value ?? 0 }, words.labels.fade)}
          />
        )}
        <label className="row">
          <input
            type="checkbox"
            checked={shot.keepRideSound === true}
            disabled={locked}
            onChange={(event) => onChange({ ...shot, keepRideSound: event.target.checked }, words.labels.sound)}
          />
          <span>{words.rideSound}</span>
        </label>
      </section>
      <section className="stack" aria-labelledby="build-hold">
        <h3 id="build-hold">{words.hold}</h3>
        {shot.freezes.map((freeze) =>
          freeze.forComment === true ? (
            <p key={freeze.atMediaS} className="quiet small">
              {words.holdWaits(clockText(freeze.atMediaS))}
            </p>
          ) : (
            <div key={freeze.atMediaS} className="row">
              <NumberField
                label={words.holdFor(clockText(freeze.atMediaS))}
                unit={words.seconds}
                value={tenth(freeze.durationS)}
                least={0}
                most={30}
                disabled={locked}
                onChange={(value) => onChange(frozenAt(shot, freeze.atMediaS, value ?? 0), words.labels.hold)}
              />
              {!locked && (
                <Button kind="bare" onClick={() => onChange(frozenAt(shot, freeze.atMediaS, 0), words.labels.hold)}>
                  {words.removeHold}
                </Button>
              )}
            </div>
          ),
        )}
        {!locked && (
          <div>
            <Button keys="f" onClick={holdHere}>
              {words.holdHere}
            </Button>
          </div>
        )}
      </section>
      <section className="stack" aria-labelledby="build-captions">
        <h3 id="build-captions">{words.captions}</h3>
        {shot.captions.map((caption, index) => (
          <div key={`${index}-${caption.startS}`} className="build-caption">
            <TextField
              label={words.caption(index + 1)}
              value={caption.text}
              disabled={locked}
              fault={captionFault(index)}
              onChange={(text) =>
                onChange(captioned(shot, index, { ...caption, text: text ?? "" }), words.labels.caption)
              }
            />
            <NumberField
              label={words.captionFrom}
              unit={words.seconds}
              value={tenth(caption.startS)}
              least={0}
              most={600}
              disabled={locked}
              onChange={(value) =>
                value !== null && onChange(captioned(shot, index, { ...caption, startS: value }), words.labels.caption)
              }
            />
            <NumberField
              label={words.captionTo}
              unit={words.seconds}
              value={tenth(caption.endS)}
              least={0}
              most={600}
              disabled={locked}
              onChange={(value) =>
                value !== null && onChange(captioned(shot, index, { ...caption, endS: value }), words.labels.caption)
              }
            />
          </div>
        ))}
        {!locked && (
          <div>
            <Button keys="c" onClick={addCaption}>
              {words.addCaption}
            </Button>
          </div>
        )}
      </section>
    </>
  );
}
