import { Failure } from "../../contract/failure.ts";
import { settleAsked } from "../../debrief/settleAsked.ts";
import type { Session } from "./session.ts";

/**
 * A coach's answer to what is asked about. `index`: in the standing's list; `to`: the moment (for a reason: the break) it
 * belongs to, null: let it go.
 * @throws Failure `usage` where there is no such question, moment or break
 */
export async function settleOnDesk(session: Session, index: number, to: number | null): Promise<void> {
  const { standing } = session.debrief;
  const asked = standing?.asked[index];
  const reading = standing?.judged.reading;
  const there = asked?.what === "break" ? reading?.breaks : reading?.moments;
  if (standing === null || asked === undefined || reading === undefined || (to !== null && there?.[to] === undefined))
    throw new Failure("desk-no-such-question", {});
  const label = to === null ? "let go" : "say which moment it is";
  await session.change(settleAsked(session.document, reading, standing.film, asked, to, label));
}
