import { useCallback, useEffect, useState } from "react";
import type { Athlete } from "../../main/contract/athlete.ts";
import type { AthleteEntry, PathId } from "../../main/contract/debriefApi.ts";
import { desk } from "../desk/desk.ts";
import { FailureNote } from "../look/FailureNote.tsx";
import { useKeys } from "../look/keys.ts";
import { useCalls } from "../look/useCalls.ts";
import { Picker } from "../picker/Picker.tsx";
import { Weeks } from "../weeks/Weeks.tsx";
import { athletes as words } from "../words/athletes.ts";
import { AthleteList } from "./AthleteList.tsx";
import { AthleteForm } from "./AthleteForm.tsx";
import { DeleteAthlete } from "./DeleteAthlete.tsx";
import { emptyAthlete } from "./emptyAthlete.ts";
import "./athletes.css";

type View =
  | { readonly kind: "list" }
  | { readonly kind: "form"; readonly id: PathId | null; readonly values: Athlete }
  | { readonly kind: "weeks"; readonly athlete: AthleteEntry };

/** The athletes: made, changed, deleted; their weeks. */
export function Athletes({ onUse }: { readonly onUse: (id: PathId) => void }) {
  const [list, setList] = useState<readonly AthleteEntry[] | null>(null);
  const [view, setView] = useState<View>({ kind: "list" });
  const [deleting, setDeleting] = useState<AthleteEntry | null>(null);
  const [making, setMaking] = useState<Athlete | null>(null);
  const { failure, call, forget } = useCalls();
  const fetchList = useCallback(() => call(async () => setList(await desk.athletes())), [call]);
  useEffect(() => void fetchList(), [fetchList]);
  const toList = () => {
    forget();
    setView({ kind: "list" });
  };
  const make = () => setView({ kind: "form", id: null, values: emptyAthlete });
  useKeys(
    words.title,
    view.kind === "list"
      ? [{ keys: "n", words: words.make, run: make }]
      : [{ keys: "Escape", words: words.back, run: toList }],
  );

  const save = (folder: PathId, values: Athlete) =>
    void call(async () => {
      await desk.saveAthlete(folder, values);
      setList(await desk.athletes());
      setView({ kind: "list" });
    });

  const edit = ({ id }: AthleteEntry) =>
    void call(async () => setView({ kind: "form", id, values: (await desk.readAthlete(id)) as Athlete }));

  return (
    <main className="athletes">
      {failure !== null && <FailureNote failure={failure} />}
      {view.kind === "weeks" && <Weeks athlete={view.athlete} onBack={toList} />}
      {view.kind === "form" && (
        <AthleteForm
          title={view.id === null ? words.makeTitle : view.values.name}
          values={view.values}
          onCancel={toList}
          onSave={(values) => (view.id === null ? setMaking(values) : save(view.id, values))}
        />
      )}
      {view.kind === "list" && (
        <AthleteList
          list={list}
          loading={list === null && failure === null}
          onMake={make}
          onUse={onUse}
          onWeeks={(athlete) => setView({ kind: "weeks", athlete })}
          onEdit={edit}
          onDelete={setDeleting}
        />
      )}
      {making !== null && (
        <Picker
          wants="folder"
          title={words.where}
          onClose={() => setMaking(null)}
          onPick={([folder]) => {
            setMaking(null);
            if (folder !== undefined) save(folder, making);
          }}
        />
      )}
      {deleting !== null && (
        <DeleteAthlete
          athlete={deleting}
          onClose={() => setDeleting(null)}
          onDeleted={() => {
            setDeleting(null);
            void fetchList();
          }}
        />
      )}
    </main>
  );
}
