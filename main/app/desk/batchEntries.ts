import { join } from "node:path";
import type { BatchEntry } from "../../contract/debriefApi.ts";
import { batchRows } from "../../journey/preparedRides.ts";
import { squadWords } from "../../../overlay/words/squadWords.ts";
import type { PathBook } from "./pathBook.ts";

/** The rides of a batch's folder for the window. Failure `usage` where it holds none. */
export async function batchEntries(folder: string, paths: PathBook): Promise<BatchEntry[]> {
  const words = squadWords("en");
  return (await batchRows(folder)).map(({ row, there }) => {
    const { told = null, failure = null } = row.kept ?? {};
    const looks = told?.looks.map((look) => words.look(look)) ?? [];
    return {
      id: there ? paths.idOf(join(folder, row.folder)) : null,
      name: told?.rider ?? row.ride,
      rideDateText: told?.dateText ?? null,
      looks: failure !== null ? [failure.sentence, failure.remedy] : row.kept === null ? [words.waiting] : looks,
      seen: row.seen,
    };
  });
}
