import type { CliFailures, MisusedVerb, OptionUnit, OutFile } from "../../../../main/contract/notices/cli.ts";
import type { FailureWords } from "../tables.ts";

const TAKES: Readonly<Record<MisusedVerb, string>> = {
  athlete: "athlete verlangt `files` oder `delete` und den Ordner eines Sportlers.",
  compare: "compare verlangt zwei Fahrtdateien und Clips davon.",
  debrief: "debrief verlangt eine Fahrtdatei und Clips; angegeben ist nichts.",
  judge: "judge verlangt den Ordner einer Nachbesprechung und mindestens ein --break T=GRUND oder --skill NAME=ANZAHL.",
  overlay: "overlay verlangt eine Fahrt, mindestens einen Clip und --out.",
  plan: "plan nimmt keine Datei außer --plan FILE.",
  read: "read verlangt eine Fahrtdatei.",
  render: "render verlangt den Ordner einer Nachbesprechung.",
  say: "say verlangt den Ordner einer Nachbesprechung.",
  still: "still verlangt den Ordner einer Nachbesprechung, --at und --out.",
  weeks: "weeks verlangt einen Ordner mit Nachbesprechungen.",
};
const FILES: Readonly<Record<OutFile, string>> = {
  picture: "ein PNG-Bild",
  film: "ein MP4-Film",
  track: "eine QuickTime-Spur",
};
const NUMBERS: Readonly<Record<OptionUnit, string>> = {
  seconds: "eine Dauer in Sekunden",
  minutes: "eine Dauer in Minuten",
  times: "wie oft es gemacht wurde",
  watts: "eine Leistung in Watt",
  MB: "eine Größe in MB",
  "times the usual size": "ein Vielfaches der üblichen Größe",
};
const ONE_AWAY = "Eine der beiden Optionen weglassen.";
const comma = (value: number) => String(value).replace(".", ",");

export const cliFailures: FailureWords<CliFailures> = {
  "verb-unknown": ({ verb, verbs, meant }) => [
    `Den Befehl „${verb}“ gibt es nicht.${meant === null ? "" : ` War ${meant} gemeint?`}`,
    `Es gibt ${verbs.join(", ")}; followcar --help sagt, was sie tun.`,
  ],
  "verb-misused": ({ verb }) => [TAKES[verb], `Siehe followcar ${verb} --help.`],
  "option-unknown": ({ verb, option, meant }) => [
    `${verb} kennt die Option ${option} nicht.${meant === null ? "" : ` War --${meant} gemeint?`}`,
    `Siehe followcar ${verb} --help. Eine Datei, deren Name mit einem Strich beginnt, hinter ein einzelnes -- schreiben.`,
  ],
  "option-unclear": ({ verb, option, fault }) => {
    const remedy = `Siehe followcar ${verb} --help.`;
    switch (fault) {
      case "no value":
        return [`Hinter ${option} fehlt ein Wert.`, remedy];
      case "value with a dash":
        return [
          `Was hinter ${option} steht, beginnt mit einem Strich: ein Wert oder eine weitere Option?`,
          `Einen solchen Wert als ${option}=WERT schreiben.`,
        ];
      case "takes no value":
        return [`${option} nimmt keinen Wert.`, `${option} ohne Wert schreiben.`];
    }
  },
  "option-no-number": ({ option, text, unit, least, most }) => [
    `--${option} ${text}: verlangt ist ${NUMBERS[unit]} zwischen ${comma(least)} und ${comma(most)}.`,
    `Zum Beispiel so: --${option} ${Math.max(least, Math.min(most, 120))}.`,
  ],
  "option-not-one-of": ({ option, text, choices }) => [
    `--${option} ${text} ist nicht bekannt.`,
    `Möglich sind: ${choices.join(", ")}.`,
  ],
  "option-no-time": ({ option, text }) => [
    `--${option} ${text} ist keine Zeit.`,
    "Sekunden oder m:ss.s angeben, wie 0:31.5.",
  ],
  "option-no-panel": ({ text, panel, panels }) => [
    panel === ""
      ? `--panels ${text}: zwischen zwei Kommas fehlt ein Name.`
      : `--panels ${text}: Eine Anzeige „${panel}“ gibt es nicht.`,
    `Es gibt ${panels.join(", ")}; none lässt alle weg.`,
  ],
  "out-wrong-ending": ({ fileName, file, ending, better }) => [
    `--out ${fileName}: geschrieben wird ${FILES[file]}, und das endet auf ${ending}.`,
    `Die Datei ${better} nennen.`,
  ],
  "option-idle": ({ option, transparent }) =>
    transparent
      ? [
          `--${option} bewirkt mit --transparent nichts: die Spur hat die Größe der Clips und ist verlustfrei oder ProRes.`,
          `--${option} weglassen.`,
        ]
      : [`--${option} gilt nur für eine transparente Spur.`, `--${option} weglassen oder --transparent ergänzen.`],
  "names-not-two": ({ text }) => [
    `--names ${text} enthält keine zwei Namen.`,
    "Zwei mit Komma angeben: --names du,Trainer.",
  ],
  "option-no-share": ({ text }) => [
    `--share ${text} ist kein Teil eines Ganzen.`,
    "Zum Beispiel so: --share 2/5, der zweite von fünf Teilen.",
  ],
  "share-without-batch": () => ["--share gehört zu --batch DIR.", "--share weglassen oder --batch ergänzen."],
  "break-form": ({ text }) => [
    `--break ${text} nennt keine Zeit oder keinen Grund.`,
    "Zum Beispiel so: --break 1:54:00=descent.",
  ],
  "break-reason-unknown": ({ text, reason, reasons }) => [
    `--break ${text}: den Grund ${reason} gibt es nicht.`,
    `Möglich sind: ${reasons.join(", ")}; oder eigene Worte, mindestens zwei.`,
  ],
  "questions-too-many": () => ["Eine Nachbesprechung stellt höchstens drei Fragen.", "Einige weglassen."],
  "made-and-said": ({ what }) => [`--made ${what} nimmt zurück, was hier eine andere Option sagt.`, ONE_AWAY],
  "option-empty": ({ option }) => [
    `--${option} sagt nichts.`,
    `Die Zeile des Programms kommt mit --made ${option} zurück.`,
  ],
  "as-filmed-and-shape": () => ["--as-filmed und --shape widersprechen sich.", ONE_AWAY],
  "hand-over-and-out": () => ["--hand-over schreibt in den Ordner der Nachbesprechung und nimmt kein --out.", ONE_AWAY],
  "batch-and-files": () => [
    "--batch DIR nimmt keine Dateien, kein --anchor und kein eigenes --out.",
    "Die Fahrten und ihre Clips in den Ordner legen.",
  ],
};
