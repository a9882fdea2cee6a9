import { Button } from "../look/Button.tsx";
import { frame as words } from "../words/frame.ts";
import type { Taken } from "./useDroppedFiles.ts";

interface Props {
  readonly taken: Taken;
  readonly onFiles: () => void;
  readonly onFine: () => void;
}

/** What came of files that were dropped where the files on the desk are not seen. */
export function TakenNote({ taken, onFiles, onFine }: Props) {
  return (
    <div
      className={taken.unusable > 0 ? "note unsure frame-note row apart" : "note frame-note row apart"}
      role="status"
    >
      <p>{words.taken(taken.files, taken.unusable)}</p>
      <div className="row">
        <Button onClick={onFiles}>{words.seeFiles}</Button>
        <Button kind="bare" onClick={onFine}>
          {words.fine}
        </Button>
      </div>
    </div>
  );
}
