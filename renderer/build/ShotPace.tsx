import type { ClipView } from "../../main/contract/debriefApi.ts";
import type { Shot } from "../../main/contract/film.ts";
import { NumberField } from "../look/NumberField.tsx";
import { build as words } from "../words/build.ts";
import { SPEEDS, atSpeed } from "../film/filmEdits.ts";

interface Props {
  readonly shot: Shot;
  readonly clip: ClipView;
  readonly first: boolean;
  readonly locked: boolean;
  readonly onChange: (shot: Shot, label: string) => void;
}

/** How fast a shot runs, how it comes in, and whether it is heard. */
export function ShotPace({ shot, clip, first, locked, onChange }: Props) {
  return (
    <>
      <div className="field">
        <label htmlFor="build-speed">{words.speed}</label>
        <select
          id="build-speed"
          className="input build-narrow"
          value={shot.speed}
          disabled={locked}
          onChange={(event) => onChange(atSpeed(shot, Number(event.target.value), clip.durationS), words.labels.speed)}
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
    </>
  );
}
