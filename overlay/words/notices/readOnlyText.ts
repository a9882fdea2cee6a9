import type { Language } from "../../../main/contract/languageAndUnits.ts";
import type { ReadOnlyReason } from "../../../main/contract/notices/debrief.ts";

/** Why a debrief may only be looked at, without a full stop. */
export function readOnlyText(reason: ReadOnlyReason, language: Language): string {
  return language === "de" ? readOnlyDe(reason) : readOnlyEn(reason);
}

/** In English. */
export function readOnlyEn(reason: ReadOnlyReason): string {
  switch (reason.kind) {
    case "newer version":
      return `${reason.fileName} was made by a newer version of this program`;
    case "folder not writable":
      return "This folder cannot be written to";
    case "open elsewhere":
      return `Another window has it open (process ${reason.pid} on ${reason.host})`;
  }
}

/** In German. */
export function readOnlyDe(reason: ReadOnlyReason): string {
  switch (reason.kind) {
    case "newer version":
      return `${reason.fileName} stammt von einer neueren Version dieses Programms`;
    case "folder not writable":
      return "In diesen Ordner lässt sich nicht schreiben";
    case "open elsewhere":
      return `Ein anderes Fenster hat sie offen (Prozess ${reason.pid} auf ${reason.host})`;
  }
}
