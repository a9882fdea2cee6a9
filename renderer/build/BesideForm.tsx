import type { PanelName } from "../../main/contract/filmLook.ts";
import type { Shot } from "../../main/contract/film.ts";
import { THEN_PANELS, type ShotBeside } from "../../main/contract/pair.ts";
import { Button } from "../look/Button.tsx";
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

/** Another ride on a shot's own picture: which numbers are told for both, and a way to take it off. */
export function BesideForm({ shot, beside, shown, locked, onChange }: Props) {
  const { name, panels } = beside;
  const toggle = (panel: (typeof THEN_PANELS)[number]) =>
    onChange(
      {
        ...shot,
        beside: { ...beside, panels: THEN_PANELS.filter((one) => panels.includes(one) !== (one === panel)) },
      },
      `${words.beside.numbers}: ${words.panelNames[panel]}`,
    );
  const takeOff = () => {
    const { beside: _gone, ...alone } = shot;
    onChange(alone, words.beside.gone(name));
  };
  return (
    <div className="stack">
      <fieldset disabled={locked}>
        <legend>{words.beside.panels}</legend>
        <div className="oneof">
          {THEN_PANELS.filter((panel) => shown.includes(panel)).map((panel) => (
            <Tick key={panel} on={panels.includes(panel)} onChange={() => toggle(panel)}>
              {words.panelNames[panel]}
            </Tick>
          ))}
        </div>
      </fieldset>
      <p className="small quiet">{words.beside.more}</p>
      <div>
        <Button disabled={locked} onClick={takeOff}>
          {words.beside.remove(name)}
        </Button>
      </div>
    </div>
  );
}
