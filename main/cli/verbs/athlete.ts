import { createInterface } from "node:readline/promises";
import { Failure } from "../../contract/failure.ts";
import { athleteHelp } from "../../debrief/athleteHelp.ts";
import { athleteListing, deleteListed, type AthleteListing } from "../../debrief/athleteListing.edge.ts";
import { ExitCode } from "../exitCode.ts";
import { textOption } from "../options.ts";
import { plainText } from "../plainText.ts";
import type { Verb } from "../verb.ts";
import { cliWords, type CliWords } from "../../../overlay/words/cliWords.ts";
import { note } from "../../contract/notice.ts";
import { texts } from "../optionKinds.ts";

function listingLines(listing: AthleteListing, words: CliWords): string[] {
  return [
    words.athleteFiles(listing.athlete.name, listing.files.length),
    ...listing.files.map((path) => `  ${path}`),
    ...(listing.others.length === 0 ? [] : ["", words.others, ...listing.others.map((path) => `  ${path}`)]),
    ...(listing.outside.length === 0 ? [] : ["", words.elsewhere, ...listing.outside.map((path) => `  ${path}`)]),
  ];
}

/** The name as typed at the question; empty where nobody can be asked. */
async function askName(listing: AthleteListing, words: CliWords): Promise<string> {
  if (!process.stdin.isTTY) return "";
  const question = createInterface({ input: process.stdin, output: process.stderr });
  try {
    return await question.question(words.typeName(listing.athlete.name));
  } finally {
    question.close();
  }
}

export const athlete: Verb = {
  name: "athlete",
  summary: "lists or deletes every file of an athlete",
  options: texts("confirm"),
  help: `followcar athlete files DIR
followcar athlete delete DIR [--confirm NAME]

files   lists every file of the athlete whose folder DIR is (the one with athlete.json): debriefs, films, pages, also those
        in other folders that were opened in the window, the rides and clips of these debriefs that lie in DIR, and the
        squad.html of a batch beside it that tells of the athlete (debrief --batch makes it again).
delete  shows that list, asks for the athlete's name, and deletes all of it for good, and with it the pictures kept for
        speed (of all athletes: they are made again when they are needed). What else lies in DIR, a folder of another
        athlete in it, and rides and clips elsewhere are named and stay.

Options:
  --confirm NAME         the athlete's name, where nobody can be asked
  --json                 { "name", "files": [paths], "others": [paths], "outside": [paths], "removed": [paths], "kept": [paths] }

${athleteHelp}
Exit codes: 0 listed, or deleted whole; 1 some files could not be deleted (they are named); 2 no athlete's folder, or
the name was not the athlete's: nothing was deleted; 3 athlete.json cannot be read.`,
  async run(positionals, values, { language }) {
    const words = cliWords(language);
    const [action, folder, ...more] = positionals;
    if ((action !== "files" && action !== "delete") || folder === undefined || more.length > 0) {
      throw new Failure("verb-misused", { verb: "athlete" });
    }
    const listing = await athleteListing(folder);
    const { files, others, outside } = listing;
    const listed = { name: listing.athlete.name, files, others, outside };
    if (action === "files")
      return { json: { ...listed, removed: [], kept: [] }, lines: listingLines(listing, words), warnings: [] };
    process.stderr.write(plainText(`${listingLines(listing, words).join("\n")}\n\n`));
    const { removed, kept } = await deleteListed(
      folder,
      listing,
      textOption(values, "confirm") ?? (await askName(listing, words)),
    );
    return {
      json: { ...listed, removed, kept },
      lines: [words.deleted(removed.length, listing.athlete.name), ...kept.map((path) => words.notDeleted(path))],
      warnings: listing.outside.map((path) => note("athlete-file-elsewhere", { path })),
      exitCode: kept.length === 0 ? ExitCode.done : ExitCode.failed,
    };
  },
};
