import type { JobTitle } from "../../main/contract/debriefApi.ts";
import type { PresetName } from "../../main/contract/presets.ts";

const FILMS: Readonly<Record<PresetName, string>> = {
  share: "Film to share",
  phone: "Film for a phone",
  draft: "Film for a quick look",
  archive: "Film to keep",
};

/** What a job is called. */
export function jobTitle(title: JobTitle): string {
  switch (title.of) {
    case "files":
      return title.count === 1 ? title.first : `${title.count} files`;
    case "signals":
      return "Line up by motion, sound and turning";
    case "example ride":
      return "The example ride";
    case "small films":
      return "Small pictures around the moments";
    case "small film":
      return `Small picture of ${title.fileName}`;
    case "small pictures":
      return `Small pictures of ${title.fileName}`;
    case "film":
      return [FILMS[title.preset], title.forWhom === "lesson" ? "as a lesson" : null, title.rider, title.dateText]
        .filter((one) => one !== null)
        .join(", ");
  }
}
