import { useEffect, useState } from "react";
import type { HandOverChoices } from "../../main/contract/debriefApi.ts";
import type { FailureData } from "../../main/contract/failure.ts";
import { desk } from "../desk/desk.ts";
import { FailureNote } from "../look/FailureNote.tsx";
import { failureOf } from "../desk/failureOf.ts";
import { handover as words } from "../words/handover.ts";

interface Props {
  readonly choices: Omit<HandOverChoices, "agreed">;
  /** Number of the document: another one, another page. */
  readonly edit: number;
}

/** The written page as it will be: at once without its pictures, then with them. */
export function PageSeen({ choices, edit }: Props) {
  const [seen, setSeen] = useState<{ readonly address: string; readonly pictures: boolean } | null>(null);
  const [failure, setFailure] = useState<FailureData | null>(null);
  const { forWhom, preset, language, asPercent, playingPage, slowSound } = choices;
  useEffect(() => {
    let here = true;
    const asked = { forWhom, preset, language, asPercent, playingPage, slowSound, agreed: [] };
    const ask = async (pictures: boolean) => {
      const { address } = await desk.handOverPage(asked, pictures);
      if (here) setSeen({ address, pictures });
    };
    ask(false)
      .then(() => (here ? ask(true) : undefined))
      .then(
        () => here && setFailure(null),
        (error: unknown) => here && setFailure(failureOf(error)),
      );
    return () => {
      here = false;
    };
  }, [forWhom, preset, language, asPercent, playingPage, slowSound, edit]);
  return (
    <section className="part" aria-labelledby="page-title">
      <header>
        <h2 id="page-title">{words.page}</h2>
        <span className="quiet small" role="status">
          {seen?.pictures === true ? words.pageMore : words.pageWaits}
        </span>
      </header>
      {failure !== null && <FailureNote failure={failure} />}
      {seen !== null && <iframe className="handover-page" title={words.page} src={seen.address} sandbox="" />}
    </section>
  );
}
