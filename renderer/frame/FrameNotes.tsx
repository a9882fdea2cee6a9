import type { FailureData } from "../../main/contract/failure.ts";
import type { DebriefView } from "../../main/contract/debriefApi.ts";
import { readOnlyText } from "../../overlay/words/notices/readOnlyText.ts";
import type { Connection } from "../desk/desk.ts";
import { Button } from "../look/Button.tsx";
import { FailureNote } from "../look/FailureNote.tsx";
import { frame as words } from "../words/frame.ts";
import { WINDOW_LANGUAGE } from "../words/language.ts";

interface Props {
  readonly connection: Connection;
  readonly debrief: DebriefView | null;
  readonly failure: FailureData | null;
  readonly onForget: () => void;
}

/** What has to be known on every screen: the program is away, a call failed, nothing can be saved or changed. */
export function FrameNotes({ connection, debrief, failure, onForget }: Props) {
  return (
    <>
      {connection === "lost" && (
        <div className="note wrong frame-note" role="alert">
          <b>{words.lost}.</b> {words.lostMore}
        </div>
      )}
      {failure !== null && (
        <div className="frame-note row">
          <FailureNote failure={failure} />
          <Button kind="bare" onClick={onForget}>
            {words.fine}
          </Button>
        </div>
      )}
      {debrief !== null && typeof debrief.saved === "object" && (
        <div className="frame-note">
          <FailureNote failure={debrief.saved} />
        </div>
      )}
      {debrief !== null && debrief.readOnly !== null && (
        <p className="note unsure frame-note">
          <b>{words.readOnly}.</b> {readOnlyText(debrief.readOnly, WINDOW_LANGUAGE)}
        </p>
      )}
    </>
  );
}
