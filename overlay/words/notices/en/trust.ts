import type { TrustFailures } from "../../../../main/contract/notices/trust.ts";
import type { FailureWords } from "../tables.ts";

export const trustFailures: FailureWords<TrustFailures> = {
  "folder-with-links": ({ folder, links, more }) => [
    `In ${folder} there are links that may lead out of it: ${links.join(", ")}${more > 0 ? ` and ${more} more` : ""}. Nothing was opened or written.`,
    "Delete the links, or put the files they lead to in their place.",
  ],
  "folder-replaced": ({ folder }, door) => [
    `${folder} is not the folder that was opened: it was replaced or moved, or its drive was taken away. Nothing was written there.`,
    door === "command"
      ? "Put it back or connect the drive again, then run this again."
      : "Put it back or connect the drive again: saving is tried again by itself. Or open the debrief where it is now.",
  ],
  "debrief-open-elsewhere": ({ folder, pid, host }, door) => [
    `The debrief in ${folder} is open in another window (process ${pid} on ${host}): nothing was written to it.`,
    door === "command" ? "Close it there, then run this again." : "Close it there, then try again.",
  ],
  "debrief-not-saved": ({ folder, keptAt, diskFull }) => [
    `The last changes could not be saved in ${folder}${diskFull ? ", since there is no room left" : ""}.${keptAt === null ? "" : ` They stand in ${keptAt}.`}`,
    keptAt === null
      ? `${diskFull ? "Free some space" : "Check that the folder can be written to"}: it is tried again by itself.`
      : `${diskFull ? "Free some space" : "Check that the folder can be written to"}: it is tried again by itself. ` +
        `Or close once more to leave it; the copy opens like any debrief.`,
  ],
};
