import { useEffect, useRef, useState } from "react";
import type { UnitSystem } from "../../main/contract/languageAndUnits.ts";
import { PLAIN_LOOK, type FilmLook, type PanelName } from "../../main/contract/filmLook.ts";
import { defaultPanels } from "../../overlay/layout/layout.ts";
import { Button } from "../look/Button.tsx";
import { NumberField } from "../look/NumberField.tsx";
import { SelectField } from "../look/SelectField.tsx";
import { Tick } from "../look/Tick.tsx";
import { build as words } from "../words/build.ts";

interface Props {
  readonly look: Partial<FilmLook>;
  readonly planUnits: UnitSystem;
  readonly locked: boolean;
  /** The whole look, plain parts left out, and what the change was. */
  readonly onChange: (look: Partial<FilmLook>, label: string) => void;
}

/** Choices are taken together until they rest for so long, ms: one edit, one undo. */
const REST_MS = 300;
const PANELS = Object.keys(words.panelNames) as PanelName[];

/** Which numbers stand where on the picture, in which ink and units, with or without plan and thread. */
export function LookForm({ look, planUnits, locked, onChange }: Props) {
  // Choices made one right after the other become one edit.
  const [chosen, setChosen] = useState(look);
  const rest = useRef<ReturnType<typeof setTimeout> | undefined>(undefined);
  const change = useRef(onChange);
  change.current = onChange;
  const there = JSON.stringify(look);
  useEffect(() => setChosen(JSON.parse(there) as Partial<FilmLook>), [there]);
  useEffect(() => () => clearTimeout(rest.current), []);
  const now = { ...PLAIN_LOOK, ...chosen };
  const panels = now.panels ?? defaultPanels;
  const take = (next: Partial<FilmLook>, what: string) => {
    setChosen(next);
    clearTimeout(rest.current);
    rest.current = setTimeout(() => change.current(next, words.labels.look(what)), REST_MS);
  };
  const set = (part: Partial<FilmLook>, what: string) => take({ ...chosen, ...part }, what);
  // A number taken away and put back stands in its usual place.
  const toggle = (panel: PanelName) =>
    set({ panels: PANELS.filter((one) => panels.includes(one) !== (one === panel)) }, words.panelNames[panel]);
  const select = <Key extends "place" | "ink" | "units" | "shape" | "fit">(
    key: Key,
    label: string,
    names: Readonly<Record<string, string>>,
    value: string,
  ) => (
    <SelectField
      label={label}
      value={value}
      options={Object.entries(names)}
      disabled={locked}
      onChoose={(one) => set({ [key]: one === "" ? null : one }, label)}
    />
  );
  return (
    <div className="stack build-look">
      <p className="quiet small">{words.lookMore}</p>
      <div className="plan-row">
        {select("shape", words.shape, words.shapes, now.shape ?? "")}
        {now.shape !== null && select("fit", words.fit, words.fits, now.fit ?? "crop")}
      </div>
      <PanelChoice now={now} locked={locked} onToggle={toggle} onSet={set} />
      <div className="plan-row">
        {select("place", words.place, words.places, now.place)}
        {select("ink", words.ink, words.inks, now.ink)}
        {select("units", words.units, words.unitNames, now.units ?? planUnits)}
        <NumberField
          label={words.size}
          hint={words.sizeMost}
          value={now.scale}
          least={0.6}
          most={1.6}
          disabled={locked}
          onChange={(scale) => set({ scale: scale ?? PLAIN_LOOK.scale }, words.size)}
        />
      </div>
      <div>
        <Button disabled={locked || Object.keys(chosen).length === 0} onClick={() => take({}, words.plainLook)}>
          {words.plainLook}
        </Button>
      </div>
    </div>
  );
}

interface PanelChoiceProps {
  readonly now: Pick<FilmLook, "panels" | "showPlan" | "showThread">;
  readonly locked: boolean;
  readonly onToggle: (panel: PanelName) => void;
  readonly onSet: (part: Partial<FilmLook>, what: string) => void;
}

/** Which numbers, with or without plan and thread. */
function PanelChoice({ now, locked, onToggle, onSet }: PanelChoiceProps) {
  const panels = now.panels ?? defaultPanels;
  return (
    <fieldset disabled={locked}>
      <legend>{words.panels}</legend>
      <div className="oneof">
        {PANELS.map((panel) => (
          <Tick key={panel} on={panels.includes(panel)} onChange={() => onToggle(panel)}>
            {words.panelNames[panel]}
          </Tick>
        ))}
        <Tick on={now.showPlan} onChange={(showPlan) => onSet({ showPlan }, words.showPlan)}>
          {words.showPlan}
        </Tick>
        <Tick on={now.showThread} onChange={(showThread) => onSet({ showThread }, words.showThread)}>
          {words.showThread}
        </Tick>
      </div>
    </fieldset>
  );
}
