import type { DebriefView, GatheredFile } from "../../main/contract/debriefApi.ts";
import { durationText } from "../../overlay/words/numbers.ts";
import { Button } from "../look/Button.tsx";
import { gather as words } from "../words/gather.ts";
import { failureText } from "../../overlay/words/notices/noticeText.ts";
import { WINDOW_LANGUAGE } from "../words/language.ts";

interface Props {
  readonly debrief: DebriefView;
  /** Files are on their way: nothing is said of what is not there yet. */
  readonly reading: boolean;
  readonly onRemove: (mediaId: string) => void;
  readonly onShow: (mediaId: string) => void;
}

/** The files on the desk, each with what it holds, clips of one kind with what they share said once, and what is missing with what that costs. */
export function FilesOnDesk({ debrief, reading, onRemove, onShow }: Props) {
  const rides = debrief.files.filter((file) => file.kind === "ride");
  const clips = debrief.files.filter((file) => file.kind === "clip");
  const broken = debrief.files.filter((file) => file.kind === "unusable");
  const locked = debrief.readOnly !== null;
  const missing = new Set(
    debrief.document.media
      .filter(({ id }) => debrief.missingMedia.some((one) => one.id === id))
      .map(({ kind }) => kind),
  );
  const shared = sharedBy(clips);
  const row = (file: GatheredFile) => (
    <FileRow
      key={file.id}
      file={file}
      shared={shared}
      locked={locked}
      oneOfMany={file.kind === "ride" && rides.length > 1}
      onRemove={onRemove}
      onShow={onShow}
    />
  );
  return (
    <div className="stack">
      {broken.length > 0 && (
        <div className="stack">
          <h3>{words.unusable}</h3>
          <ul className="rows">{broken.map(row)}</ul>
        </div>
      )}
      <div className="stack">
        <h3>{rides.length > 1 ? words.whose : words.rides}</h3>
        {rides.length === 0 ? (
          <p className={reading ? "note" : "note unsure"}>
            {reading ? words.readingNow : missing.has("ride") ? words.rideAway : words.noRide}
          </p>
        ) : (
          <ul className="rows">{rides.map(row)}</ul>
        )}
      </div>
      <div className="stack">
        <h3>{words.clips}</h3>
        {shared !== null && (
          <p className="quiet">
            {words.shared(
              shared,
              clips.every(({ holds }) => holds === shared),
            )}
          </p>
        )}
        {clips.length === 0 ? (
          <p className="note">{reading ? words.readingNow : missing.has("clip") ? words.clipsAway : words.noClips}</p>
        ) : (
          <ul className="rows">{clips.map(row)}</ul>
        )}
      </div>
    </div>
  );
}

interface RowProps extends Pick<Props, "onRemove" | "onShow"> {
  readonly file: GatheredFile;
  readonly shared: string | null;
  readonly locked: boolean;
  /** A ride beside others: it is chosen whose carries the camera. */
  readonly oneOfMany: boolean;
}

function FileRow({ file, shared, locked, oneOfMany, onRemove, onShow }: RowProps) {
  return (
    <li className={file.kind === "unusable" ? "wrong" : file.missing.length > 0 ? "unsure" : "firm"}>
      <div className="row apart file-head">
        <p>
          <span className="name">{file.name}</span>
          {file.kind === "clip" && <span className="file-lasts">{durationText(file.durationS)}</span>}
        </p>
        {!locked && (
          <Button
            kind="bare"
            className="small-sign"
            aria-label={words.remove(file.name)}
            onClick={() => onRemove(file.id)}
          >
            {"\u00d7"}
          </Button>
        )}
      </div>
      {file.failure === null ? (
        <Holds file={file} shared={shared} />
      ) : (
        <p>
          {failureText(file.failure.notice, WINDOW_LANGUAGE, "window").sentence}{" "}
          <b>{failureText(file.failure.notice, WINDOW_LANGUAGE, "window").remedy}</b>
        </p>
      )}
      {file.missing.length > 0 && (
        <ul className="file-missing quiet" aria-label={words.costs}>
          {file.missing.map((sentence) => (
            <li key={sentence}>{sentence}</li>
          ))}
        </ul>
      )}
      {oneOfMany && (
        <label className="row small">
          <input type="radio" name="carrier" checked={file.shown} disabled={locked} onChange={() => onShow(file.id)} />
          {words.carrier}
        </label>
      )}
    </li>
  );
}

/** What a file holds, where that is not said of all of its kind. */
function Holds({ file, shared }: { readonly file: GatheredFile; readonly shared: string | null }) {
  if (file.kind === "ride") return <p>{[durationText(file.durationS), file.holds].join(", ")}</p>;
  return file.holds === shared ? null : <p>{file.holds}</p>;
}

/** What most clips hold, two at least; null: no two hold the same. */
function sharedBy(clips: readonly GatheredFile[]): string | null {
  const often = (one: string) => clips.filter(({ holds }) => holds === one).length;
  const [most] = clips.map(({ holds }) => holds).sort((a, b) => often(b) - often(a));
  return most !== undefined && often(most) > 1 ? most : null;
}
