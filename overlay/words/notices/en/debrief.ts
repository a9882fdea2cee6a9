import type {
  DebriefFailures,
  DebriefFault,
  EditFault,
  ReadOnlyReason,
} from "../../../../main/contract/notices/debrief.ts";
import type { FailureWords } from "../tables.ts";
import { formFaultEn } from "./formFault.ts";
import { readOnlyEn } from "../readOnlyText.ts";

function debriefFault(fault: DebriefFault): string {
  return fault.kind === "no schema" ? "it does not say which schema it has" : formFaultEn(fault);
}

function editFault(fault: EditFault): string {
  switch (fault.kind) {
    case "no such part":
      return `${fault.part} is no part that is edited`;
    case "comment outside":
      return "a comment's sound file lies outside the debrief's folder";
    default:
      return formFaultEn(fault);
  }
}

const READ_ONLY: Readonly<Record<ReadOnlyReason["kind"], string>> = {
  "newer version": "Update this program to work on it.",
  "folder not writable": "Allow writing to the folder, or work on a copy of it.",
  "open elsewhere": "Close it there, or work on a copy of its folder.",
};

export const debriefFailures: FailureWords<DebriefFailures> = {
  "athlete-unusable": ({ fileName, fault }, door) => [
    `${fileName} is not a usable athlete file: ${formFaultEn(fault)}.`,
    door === "window" ? "Correct the file." : "Correct the file; `followcar athlete --help` shows the form.",
  ],
  "lesson-without-consent": ({ name }, door) => [
    `${name === null ? "No athlete file says" : `${name}'s file does not say`} that the athlete agreed to a lesson for others.`,
    door === "window"
      ? "Ask, then agree to it below or write it into the athlete's page, or make the debrief for the athlete only."
      : 'Ask, then say so with --consent "when and how" (athlete.json keeps it), or make the debrief for the athlete only.',
  ],
  "athlete-folder-without-file": ({ folder }) => [
    `${folder} is no athlete's folder: it has no athlete.json.`,
    "Name the folder that holds the athlete's file.",
  ],
  "athlete-name-differs": ({ typed, name }) => [
    `"${typed}" is not the name of this athlete; nothing was deleted.`,
    `Type the name as athlete.json has it: ${name}.`,
  ],
  "athlete-files-changed": ({ folder }) => [
    `The files of ${folder} are not the ones that were shown; nothing was deleted.`,
    "Look at the list again, then delete.",
  ],
  "athlete-file-unreadable": ({ path }) => [`${path} could not be read.`, "Check the path and its permissions."],
  "path-outside-debrief": ({ path }, door) => [
    `The debrief points at ${path}, outside its folder.`,
    door === "command"
      ? "Give --trust-paths (render, still, say and judge take it) if you trust who made the debrief."
      : "Agree to open it if you trust who made the debrief.",
  ],
  "debrief-unreadable": ({ path }) => [
    `${path} could not be read.`,
    "Name the folder of a debrief, the one that holds debrief.json.",
  ],
  "debrief-unusable": ({ fileName, fault }) => [
    `${fileName} is not a usable debrief: ${debriefFault(fault)}.`,
    "Use the copy beside it that ends in .bak, or make the debrief again.",
  ],
  "debrief-not-savable": ({ fileName, fault }) => [
    `Not saved, because ${fileName} could not be opened again: ${debriefFault(fault)}.`,
    "Shorten or correct that and save again; nothing on disk has changed.",
  ],
  "debrief-newer": ({ fileName, schema }) => [
    `${fileName} was made by a newer version of this program (schema ${schema}).`,
    "Update this program to open it.",
  ],
  "debrief-newer-kept": ({ fileName }) => [
    `${fileName} was made by a newer version of this program: it was not overwritten.`,
    "Update this program, or save to another folder.",
  ],
  "debrief-changed-elsewhere": ({ path }) => [
    `${path} was changed by another window since it was opened.`,
    "Open it again, or save to another folder.",
  ],
  "backup-not-written": ({ fileName, folder }) => [
    `The copy ${fileName} in ${folder} could not be written.`,
    "Check that you may write to the folder.",
  ],
  "debriefs-folder-unreadable": ({ folder }) => [
    `The folder ${folder} could not be read.`,
    "Name a folder that holds debriefs.",
  ],
  "debriefs-folder-empty": ({ folder }) => [
    `${folder} holds no debrief: nothing was written.`,
    "Name the folder that the athlete's debriefs lie in.",
  ],
  "debrief-not-folder-of": ({ name, parent }) => [
    `${name} is one debrief: nothing was written into it.`,
    `Name the folder that it and the others lie in: ${parent}.`,
  ],
  "edit-refused": ({ fault }) => [
    `This edit cannot be made: ${editFault(fault)}.`,
    "Nothing was changed; try it another way.",
  ],
  "debrief-read-only": ({ reason }) => [
    `${readOnlyEn(reason)}: this debrief may only be looked at.`,
    READ_ONLY[reason.kind],
  ],
};
