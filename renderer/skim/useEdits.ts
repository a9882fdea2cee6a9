import type { DebriefDocument, EditablePart, Edit } from "../../main/contract/debrief.ts";
import { desk } from "../desk/desk.ts";
import { useDebrief } from "../desk/useDesk.ts";
import { type Calls, useCalls } from "../look/useCalls.ts";

/** Changes one part of the document; what could not be done is in `failure`. */
export interface Edits extends Pick<Calls, "failure" | "forget" | "call" | "busy"> {
  readonly edit: <Part extends EditablePart>(
    part: Part,
    value: DebriefDocument[Part],
    label: string,
  ) => Promise<boolean>;
}

/** Edits made on the debrief as it stands on the screen. */
export function useEdits(): Edits {
  const debrief = useDebrief();
  const calls = useCalls();
  return {
    ...calls,
    edit: (part, value, label) => calls.call(() => desk.edit({ part, value, label } as unknown as Edit, debrief.edit)),
  };
}
