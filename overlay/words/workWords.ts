import type { WorkStep } from "../../main/contract/workStep.ts";
import type { Language } from "../../main/contract/languageAndUnits.ts";

/** Less than this is not worth saying, and wrong as soon as something small comes after it; s. */
const LEAST_LEFT_S = 1.5;

/** How much time left is said, s; null: nothing is. */
export function leftToSay(leftS: number | null): number | null {
  return leftS === null || leftS < LEAST_LEFT_S ? null : leftS;
}

/** What is being worked on, e.g. `shot 2 of 6`. */
export function workText(step: WorkStep, language: Language): string {
  return language === "de" ? textDe(step) : textEn(step);
}

function textEn(step: WorkStep): string {
  switch (step.what) {
    case "file":
      return step.name;
    case "signals":
      return `looking at ${step.fileName}`;
    case "shot":
    case "card":
      return `${step.what} ${step.number} of ${step.count}`;
    case "clip":
      return `${step.fileName ?? "clip"}, ${step.number} of ${step.count}`;
    case "joining":
      return "putting the parts together";
    case "placing":
      return "holding the clips against the ride";
    case "pages":
      return "page, stills and files";
    case "handed over":
      return "handed over";
    case "demo clips":
      return `drawing ${step.count} demo clips`;
    case "demo made":
      return "demo made";
    case "ride":
      return `ride ${step.number} of ${step.count}: ${textEn(step.step)}`;
  }
}

function textDe(step: WorkStep): string {
  switch (step.what) {
    case "file":
      return step.name;
    case "signals":
      return `${step.fileName} wird angesehen`;
    case "shot":
      return `Einstellung ${step.number} von ${step.count}`;
    case "card":
      return `Tafel ${step.number} von ${step.count}`;
    case "clip":
      return `${step.fileName ?? "Clip"}, ${step.number} von ${step.count}`;
    case "joining":
      return "die Teile werden zusammengefügt";
    case "placing":
      return "die Clips werden mit der Fahrt verglichen";
    case "pages":
      return "Seite, Bilder und Dateien";
    case "handed over":
      return "übergeben";
    case "demo clips":
      return `${step.count} Clips der Demo werden gezeichnet`;
    case "demo made":
      return "die Demo ist fertig";
    case "ride":
      return `Fahrt ${step.number} von ${step.count}: ${textDe(step.step)}`;
  }
}
