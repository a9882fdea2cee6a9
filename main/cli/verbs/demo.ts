import { join } from "node:path";
import { makeDemo } from "../../demo/makeDemo.edge.ts";
import { debriefJourney } from "../../journey/preparedDebrief.ts";
import { textOption } from "../options.ts";
import { hostHere } from "../../journey/host.ts";
import { cliWords } from "../../../overlay/words/cliWords.ts";
import type { Verb } from "../verb.ts";
import { debriefLines, FILM_LENGTH_S, writtenJson } from "./debrief.ts";

/** Share of the demo's progress that making ride and footage takes. */
const MAKING_SHARE = 0.5;

export const demo: Verb = {
  name: "demo",
  summary: "makes a ride and footage of our own and runs the whole job on them",
  options: { out: { type: "string" }, small: { type: "boolean" } },
  help: `followcar demo [--out DIR]

Makes a ride of an invented rider on an invented road, three clips from a camera whose clock is wrong, and debriefs
them: line-up, reading, film, written debrief. Nothing is asked: the camera wrote where it was, and that places its
clips. The file of a second rider, ride-second.fit, is there to try --show with.

Options:
  --out DIR              where to write (default: followcar-demo in this folder)
  --small                short clips at 320x180 placed by an anchor, for a quick look
  --json                 { "written": [paths], "warnings": [] }`,
  async run(_positionals, values, context) {
    const outDir = textOption(values, "out") ?? "followcar-demo";
    const { language } = context;
    const host = hostHere(context.signal);
    const part = (from: number, share: number) => ({
      signal: context.signal,
      report: (progress: Parameters<typeof context.report>[0]) =>
        context.report({ ...progress, done: from + share * progress.done }),
    });
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
        preset: "share",
        forWhom: "athlete",
        language,
        asPercent: false,
        athleteDir: null,
        consent: null,
      },
      host,
      part(MAKING_SHARE, 1 - MAKING_SHARE),
    );
    return {
      json: writtenJson(outcome, language),
      lines: [...debriefLines(outcome, true, language), "", cliWords(language).watch(join(outcome.folder, "film.mp4"))],
      warnings: outcome.warnings,
    };
  },
};
