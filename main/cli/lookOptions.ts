import { Failure } from "../contract/failure.ts";
import { INKS, PLACES, type FilmLook, type PanelName } from "../contract/filmLook.ts";
import { UNIT_SYSTEMS } from "../contract/languageAndUnits.ts";
import { FITS, SHAPE_NAMES, SLOW_SOUNDS } from "../contract/presets.ts";
import { defaultPanels } from "../../overlay/layout/layout.ts";
import type { OutputWish } from "../journey/outputChoice.ts";
import { choiceOption, numberOption, textOption } from "./options.ts";
import type { OptionValues } from "./verb.ts";
import { flags, texts } from "./optionKinds.ts";

/** Options for how a picture looks. */
export const lookOptions = {
  ...texts("shape", "fit", "panels", "place", "scale", "ink", "units", "plan-band", "thread"),
  ...flags("as-filmed"),
} as const;

/** Each panel's name in the option. */
const OPTION_NAMES: Readonly<Record<PanelName, string>> = {
  heartRate: "heart-rate",
  cadence: "cadence",
  power: "power",
  speed: "speed",
  gradient: "gradient",
  time: "time",
  mainPart: "main-part",
  drift: "at-like-power",
  route: "route",
};
const PANELS: Readonly<Record<string, PanelName>> = Object.fromEntries(
  (Object.keys(OPTION_NAMES) as PanelName[]).map((panel) => [OPTION_NAMES[panel], panel]),
);

/** The usual panels as one types them, and the others. */
const USUAL = defaultPanels.map((panel) => OPTION_NAMES[panel]);
const OTHERS = Object.keys(PANELS).filter((name) => !USUAL.includes(name));

export const lookOptionsHelp = `  --shape S              16:9, 9:16 or 1:1 (default: the preset's); --as-filmed keeps the footage's own
  --fit F                crop: fill that shape and lose the sides; pad: the whole picture on black
                         (default: crop where the shape is not the footage's own)
  --panels LIST          numbers in their order, with commas: ${USUAL.join(",")},
                         ${OTHERS.join(",")}; or none (default: the first ${USUAL.length})
  --place P              bottom (default), top, left or right
  --scale X              size of the numbers, 0.6 to 1.6 (default 1)
  --ink I                light (default) or dark
  --units U              metric or imperial (default: the plan's)
  --plan-band on|off     the plan's band beneath the power (default on)
  --thread on|off        the line that tells the pressure (default on)`;

/** What the command line wishes of the look; what it does not name is not there. */
export function lookChoices(values: OptionValues): Partial<FilmLook> {
  const shape = values["as-filmed"] === true ? "as filmed" : choiceOption(values, "shape", SHAPE_NAMES.slice(1));
  if (values["as-filmed"] === true && textOption(values, "shape") !== null) {
    throw new Failure("as-filmed-and-shape", {});
  }
  return given({
    shape,
    fit: choiceOption(values, "fit", FITS),
    panels: panelChoice(values),
    place: choiceOption(values, "place", PLACES),
    scale: numberOption(values, "scale", "times the usual size", 0.6, 1.6),
    ink: choiceOption(values, "ink", INKS),
    units: choiceOption(values, "units", UNIT_SYSTEMS),
    showPlan: switchOption(values, "plan-band"),
    showThread: switchOption(values, "thread"),
  });
}

/** Options for one output's file. */
export const outputOptions = {
  ...texts("size", "encoder", "slow-sound"),
  ...flags("anew"),
} as const;

const SLOW_SOUND_HELP = `  --slow-sound S         sound of slowed shots: stretched (its pitch kept) or none (default: the debrief's own, else
                         stretched)`;

export const outputOptionsHelp = `  --size MB              largest size of the file, in millions of bytes (phone: 30)
  --encoder E            auto (default: libx264), x264, hevc, or hardware: the graphics card's or the system's, where it
                         passes a short test, else libx264
${SLOW_SOUND_HELP}
  --anew                 makes every part anew; else what an earlier run finished is used again, and that is said`;

/** The same where no shot is slowed. */
export const fileOptionsHelp = outputOptionsHelp.replace(`${SLOW_SOUND_HELP}\n`, "");

/** What the command line wishes of one output's file. */
export function outputChoices(values: OptionValues): OutputWish {
  return {
    sizeMb: numberOption(values, "size", "MB", 1, 100_000),
    encoder: choiceOption(values, "encoder", ["auto", "x264", "hevc", "hardware"]) ?? "auto",
    slowSound: choiceOption(values, "slow-sound", SLOW_SOUNDS),
    anew: values.anew === true,
  };
}

function panelChoice(values: OptionValues): PanelName[] | null {
  const text = textOption(values, "panels");
  if (text === null) return null;
  if (text.trim() === "none") return [];
  return text.split(",").map((entry) => {
    const panel = PANELS[entry.trim()];
    if (panel === undefined)
      throw new Failure("option-no-panel", { text, panel: entry.trim(), panels: Object.keys(PANELS) });
    return panel;
  });
}

function switchOption(values: OptionValues, name: string): boolean | null {
  const choice = choiceOption(values, name, ["on", "off"]);
  return choice === null ? null : choice === "on";
}

type Given<T> = { readonly [K in keyof T]?: Exclude<T[K], null> };

/** Without the entries that are null. */
function given<T extends object>(wishes: T): Given<T> {
  return Object.fromEntries(Object.entries(wishes).filter(([, value]) => value !== null)) as Given<T>;
}
