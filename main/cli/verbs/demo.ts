import { join } from "node:path";
import { type Demo, makeDemo } from "../../demo/makeDemo.edge.ts";
import { type Compared, compareJourney } from "../../journey/comparedRides.ts";
import { PLAIN_OUTPUT } from "../../journey/outputChoice.ts";
import { debriefJourney } from "../../journey/preparedDebrief.ts";
import { partOfJob } from "../../contract/job.ts";
import { USUAL_PRESET } from "../../contract/presets.ts";
import { textOption } from "../options.ts";
import { type Host, hostHere } from "../../journey/host.ts";
import { cliWords } from "../../../overlay/words/cliWords.ts";
import { clockText } from "../../../overlay/words/numbers.ts";
import type { Verb, VerbContext } from "../verb.ts";
import { debriefLines, FILM_LENGTH_S, writtenJson } from "./debrief.ts";
import { flags, texts } from "../optionKinds.ts";

/** Share of the demo's time that making ride and footage takes: 55 of 135 s on two cores … */
const MAKING_SHARE = 0.41;
/** … and what the film of both riders takes: 23 s. */
const PAIR_SHARE = 0.17;
const SECOND_RIDER = "Marit";

export const demo: Verb = {
  name: "demo",
  summary: "makes a ride and footage of our own and runs the whole job on them",
  options: { ...texts("out"), ...flags("small") },
  help: `followcar demo [--out DIR]

Makes a ride of an invented rider on an invented road, three clips from a camera whose clock is wrong, and debriefs
them: line-up, reading, film, written debrief. Nothing is asked: the camera wrote where it was, and that places its
clips. The file of a second rider, ride-second.fit, is there too: side-by-side.mp4 shows both on one rise.

Options:
  --out DIR              where to write (default: followcar-demo in this folder)
  --small                short clips at 320x180 placed by an anchor, for a quick look
  --json                 { "written": [paths], "warnings": [] }`,
  async run(_positionals, values, context) {
    const outDir = textOption(values, "out") ?? "followcar-demo";
    const { language } = context;
    const host = hostHere(context.signal);
    const part = (from: number, share: number) => partOfJob(context, from, share);
    const small = values.small === true;
    const made = await makeDemo(outDir, host.tools, part(0, MAKING_SHARE), { small, secondRider: true, language });
    const outcome = await debriefJourney(
      {
        paths: [made.ridePath, ...made.clipPaths],
        // The short clips carry no telemetry: there the anchor places them.
        anchors: small ? [made.anchor] : [],
        deviceDelayS: 0,
        show: null,
        acceptUnsure: false,
        plan: { planPath: made.planPath, targetW: null, toleranceW: null, setting: null },
        outDir: join(outDir, "debrief"),
        lengthS: FILM_LENGTH_S,
        preset: USUAL_PRESET,
        forWhom: "athlete",
        language,
        asPercent: false,
        athleteDir: null,
        consent: null,
      },
      host,
      part(MAKING_SHARE, 1 - MAKING_SHARE - PAIR_SHARE),
    );
    const pair = await bothRiders(made, outDir, small, host, { ...context, ...part(1 - PAIR_SHARE, PAIR_SHARE) });
    const words = cliWords(language);
    const films = [join(outcome.folder, "film.mp4"), ...pair.written].map((path) => words.watch(path));
    return {
      json: writtenJson({ ...outcome, written: [...outcome.written, ...pair.written] }, language),
      lines: [...debriefLines(outcome, true, language), "", ...films],
      warnings: [...outcome.warnings, ...pair.warnings],
    };
  },
};

/** The demo's two riders side by side over the rise that the first takes hard. */
function bothRiders(made: Demo, outDir: string, small: boolean, host: Host, context: VerbContext): Promise<Compared> {
  const clip = made.clips[small ? 2 : 1]!;
  const inClip = (atS: number): boolean => atS > clip.startS && atS < clip.startS + clip.durationS;
  const topS = made.truth.events.find(({ kind, startS }) => kind === "rest over the top" && inClip(startS))!.startS;
  const [beforeS, afterS] = small ? [8, 4] : [26, 14];
  return compareJourney(
    {
      ...{ paths: [made.ridePath, made.secondRidePath!, ...(small ? [] : [made.clipPaths[1]!])], secondClips: [] },
      ...{ anchors: [], deviceDelayS: 0, acceptUnsure: false, pass: null, follow: "place" },
      ...{
        from: clockText(topS - beforeS),
        to: clockText(topS + afterS),
        names: [made.truth.rider.split(" ")[0]!, SECOND_RIDER],
      },
      plan: { planPath: made.planPath, targetW: null, toleranceW: null, setting: null },
      ...{ language: context.language, units: null, look: {}, output: PLAIN_OUTPUT },
      outPath: join(outDir, "side-by-side.mp4"),
      preset: USUAL_PRESET,
    },
    host,
    context,
  );
}
