import { useEffect, useState } from "react";
import type { AthleteEntry } from "../../main/contract/debriefApi.ts";
import { keepUnits } from "../../overlay/words/keepUnits.ts";
import { desk } from "../desk/desk.ts";
import { Button } from "../look/Button.tsx";
import { FailureNote } from "../look/FailureNote.tsx";
import { useCalls } from "../look/useCalls.ts";
import { athletes as words } from "../words/athletes.ts";

/** An athlete's weeks: what they say in a few lines, and the page itself. */
export function Weeks({ athlete, onBack }: { readonly athlete: AthleteEntry; readonly onBack: () => void }) {
  const [page, setPage] = useState<{ readonly lines: readonly string[]; readonly address: string } | null>(null);
  const { failure, call } = useCalls();
  useEffect(() => void call(async () => setPage(await desk.weeksPage(athlete.id))), [call, athlete.id]);
  return (
    <section className="weeks part" aria-labelledby="weeks-title">
      <header>
        <h1 id="weeks-title">{words.weeksOf(athlete.name)}</h1>
        <Button keys="Escape" onClick={onBack}>
          {words.back}
        </Button>
      </header>
      {failure !== null && <FailureNote failure={failure} />}
      {page === null && failure === null && <p className="quiet">{words.weeksLoading}</p>}
      {page !== null && athlete.debriefs === 0 && <p className="note">{words.weeksNone}</p>}
      {page !== null && athlete.debriefs > 0 && (
        <>
          {page.lines.length > 0 && (
            <ul className="gather-lines">
              {page.lines.map((line) => (
                <li key={line}>{keepUnits(line)}</li>
              ))}
            </ul>
          )}
          <iframe className="weeks-page" title={words.weeksOf(athlete.name)} src={page.address} sandbox="" />
        </>
      )}
    </section>
  );
}
