import { useState } from "react";
import type { DebriefView } from "../../main/contract/debriefApi.ts";
import { desk } from "../desk/desk.ts";
import { Button } from "../look/Button.tsx";
import type { Calls } from "../look/useCalls.ts";
import { Picker } from "../picker/Picker.tsx";
import { frame as words } from "../words/frame.ts";

interface Props {
  readonly debrief: DebriefView;
  readonly onCall: Calls["call"];
}

/** Files that are not where they were, with the way to find them; nothing where all are there. */
export function MissingMedia({ debrief, onCall }: Props) {
  const [looking, setLooking] = useState(false);
  const { missingMedia } = debrief;
  if (missingMedia.length === 0) return null;
  return (
    <div className="note wrong frame-note row apart frame-missing" role="status">
      <p>
        <b>{words.missing(missingMedia.map(({ name }) => name).join(", "))}</b> {words.missingMore}
      </p>
      <Button kind="main" onClick={() => setLooking(true)}>
        {words.look}
      </Button>
      {looking && (
        <Picker
          wants="media"
          onClose={() => setLooking(false)}
          onPick={([id]) => {
            setLooking(false);
            if (id !== undefined) void onCall(() => desk.lookForMedia(id));
          }}
        />
      )}
    </div>
  );
}
