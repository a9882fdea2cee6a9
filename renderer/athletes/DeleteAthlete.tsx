import { useEffect, useState } from "react";
import type { AthleteEntry } from "../../main/contract/debriefApi.ts";
import { desk } from "../desk/desk.ts";
import { Button } from "../look/Button.tsx";
import { Dialog } from "../look/Dialog.tsx";
import { FailureNote } from "../look/FailureNote.tsx";
import { Field } from "../look/Field.tsx";
import { useCalls } from "../look/useCalls.ts";
import { athletes as words } from "../words/athletes.ts";
import { common } from "../words/common.ts";

interface Props {
  readonly athlete: AthleteEntry;
  readonly onClose: () => void;
  readonly onDeleted: () => void;
}

function PathList({ title, paths }: { readonly title: string; readonly paths: readonly string[] }) {
  return (
    <>
      <p>{title}</p>
      <ul className="delete-files scroll" tabIndex={0} aria-label={title}>
        {paths.map((path) => (
          <li key={path}>{path}</li>
        ))}
      </ul>
    </>
  );
}

/** Shows every file that would go, and asks for the athlete's name before it goes. */
export function DeleteAthlete({ athlete, onClose, onDeleted }: Props) {
  const [found, setFound] = useState<Awaited<ReturnType<typeof desk.filesOfAthlete>> | null>(null);
  const [typed, setTyped] = useState("");
  const { failure, busy, call } = useCalls();
  useEffect(() => void call(async () => setFound(await desk.filesOfAthlete(athlete.id))), [call, athlete.id]);
  const sure = found !== null && typed.trim() === athlete.name && !busy;
  const remove = async () => {
    if (sure && (await call(() => desk.deleteAthlete(athlete.id, typed.trim())))) onDeleted();
  };
  return (
    <Dialog
      title={words.deleteTitle(athlete.name)}
      onClose={onClose}
      actions={
        <>
          <Button onClick={onClose}>{common.cancel}</Button>
          <Button kind="wrong" disabled={!sure} onClick={() => void remove()}>
            {words.deleteGo}
          </Button>
        </>
      }
    >
      <div className="stack">
        {failure !== null && <FailureNote failure={failure} />}
        {found === null ? (
          <p className="quiet">{words.deleteLoading}</p>
        ) : (
          <>
            <PathList title={words.deleteMore(found.files.length)} paths={found.files} />
            {found.others.length > 0 && <PathList title={words.deleteOthers} paths={found.others} />}
            <p className="quiet">{words.rest}</p>
            <Field label={words.deleteConfirm(athlete.name)}>
              {(props) => (
                <input {...props} value={typed} autoComplete="off" onChange={(event) => setTyped(event.target.value)} />
              )}
            </Field>
          </>
        )}
      </div>
    </Dialog>
  );
}
