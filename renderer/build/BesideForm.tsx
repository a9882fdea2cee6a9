import { PANEL_NAMES, type PanelName } from "../../main/contract/filmLook.ts";
import type { Shot } from "../../main/contract/film.ts";
import { FOLLOW_WAYS, type FollowWay, type ShotBeside } from "../../main/contract/pair.ts";
import { rideTimeAt } from "../../overlay/instant/rideTimeAt.ts";
import { Button } from "../look/Button.tsx";
import { Choice } from "../look/Choice.tsx";
import { Tick } from "../look/Tick.tsx";
import { build as words } from "../words/build.ts";

interface Props {
  readonly shot: Shot;
  readonly beside: ShotBeside;
  /** Numbers that the film shows. */
  readonly shown: readonly PanelName[];
  readonly locked: boolean;
  readonly onChange: (shot: Shot, label: string) => void;
}

/** Another ride on a shot's own picture: where it is, which numbers are told for both, and a way to take it off. */
export function BesideForm({ shot, beside, shown, locked, onChange }: Props) {
  const { name, panels } = beside;
  const follow: FollowWay = beside.byTimeFromS === undefined ? "place" : "time";
  const run = (way: FollowWay) => {
    const { byTimeFromS: _before, ...byPlace } = beside;
    const byTime = { byTimeFromS: Math.max(rideTimeAt(shot.clock, shot.mediaStartS), beside.spots.firstS[0]!) };
    onChange(
      { ...shot, beside: { ...byPlace, ...(way === "time" ? byTime : {}) } },
      `${words.pair.follow}: ${words.pair[way]}`,
    );
  };
  const toggle = (panel: PanelName) =>
    onChange(
      {
        ...shot,
        beside: { ...beside, panels: PANEL_NAMES.filter((one) => panels.includes(one) !== (one === panel)) },
      },
      `${words.beside.numbers}: ${words.panelNames[panel]}`,
    );
  const takeOff = () => {
    const { beside: _gone, ...alone } = shot;
    onChange(alone, words.beside.gone(name));
  };
  return (
    <div className="stack">
      <Choice
        label={words.pair.follow}
        options={FOLLOW_WAYS}
        chosen={follow}
        said={words.pair}
        locked={locked}
        onChoose={run}
      />
      <fieldset disabled={locked}>
        <legend>{words.beside.panels}</legend>
        <div className="oneof">
          {PANEL_NAMES.filter((panel) => shown.includes(panel)).map((panel) => (
            <Tick key={panel} on={panels.includes(panel)} onChange={() => toggle(panel)}>
              {words.panelNames[panel]}
            </Tick>
          ))}
        </div>
      </fieldset>
      <p className="small quiet">{words.beside.more[follow]}</p>
      <div>
        <Button disabled={locked} onClick={takeOff}>
          {words.beside.remove(name)}
        </Button>
      </div>
    </div>
  );
}
