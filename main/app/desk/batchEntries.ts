import { join } from "node:path";
import type { BatchEntry } from "../../contract/debriefApi.ts";
import { batchRows } from "../../journey/preparedRides.ts";
import { keptFailureText, type FailureText } from "../../../overlay/words/notices/noticeText.ts";
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
      looks:
        failure !== null
          ? said(keptFailureText(failure, row.ride, "en", "window"))
          : row.kept === null
            ? [words.waiting]
            : looks,
      seen: row.seen,
    };
  });
}

const said = ({ sentence, remedy }: FailureText): string[] => [sentence, remedy];
