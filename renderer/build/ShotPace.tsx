import type { ClipView } from "../../main/contract/debriefApi.ts";
import type { Shot } from "../../main/contract/film.ts";
import { SelectField } from "../look/SelectField.tsx";
import { Tick } from "../look/Tick.tsx";
import { build as words } from "../words/build.ts";
import { SPEEDS, atSpeed } from "../film/filmEdits.ts";
import { FadeField } from "./FadeField.tsx";

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
      <SelectField
        narrow
        label={words.speed}
        value={String(shot.speed)}
        options={[...new Set([...SPEEDS, shot.speed])]
          .sort((a, b) => a - b)
          .map((speed) => [String(speed), speed === 1 ? words.asFilmed : words.times(speed)])}
        disabled={locked}
        onChoose={(speed) => onChange(atSpeed(shot, Number(speed), clip.durationS), words.labels.speed)}
      />
      {!first && <FadeField item={shot} locked={locked} onChange={onChange} />}
      <Tick
        className="row"
        on={shot.keepRideSound === true}
        disabled={locked}
        onChange={(keepRideSound) => onChange({ ...shot, keepRideSound }, words.labels.sound)}
      >
        <span>{words.rideSound}</span>
      </Tick>
    </>
  );
}
