import type { RefObject } from "react";
import type { ClipView } from "../../main/contract/debriefApi.ts";
import type { FailureData } from "../../main/contract/failure.ts";
import type { Lineup } from "../../main/contract/lineup.ts";
import { durationText } from "../../overlay/words/numbers.ts";
import { noticeTexts } from "../../overlay/words/notices/noticeText.ts";
import type { Calls } from "../look/useCalls.ts";
import { desk } from "../desk/desk.ts";
import { useDebrief, useDesk } from "../desk/useDesk.ts";
import { Button } from "../look/Button.tsx";
import { FailureNote } from "../look/FailureNote.tsx";
import { JobLine } from "../look/JobLine.tsx";
import { NumberField } from "../look/NumberField.tsx";
import { common } from "../words/common.ts";
import { lineup as words } from "../words/lineup.ts";
import { WINDOW_LANGUAGE } from "../words/language.ts";
import type { LookedAt } from "./useLookedAt.ts";
import type { Placing } from "./usePlacing.ts";
import { Anchors } from "./Anchors.tsx";
import { ClipPlaces, MANY } from "./ClipPlaces.tsx";
import { Glance } from "./Glance.tsx";

interface Props {
  /** In the order in which they are listed. */
  readonly clips: readonly ClipView[];
  readonly clip: ClipView;
  readonly placing: Placing;
  readonly looked: LookedAt;
  readonly rideLengthS: number | null;
  readonly failure: FailureData | null;
  readonly call: Calls["call"];
  readonly anchorField: RefObject<HTMLInputElement | null>;
  readonly onChoose: (clipId: string) => void;
  readonly onAnchor: () => void;
  readonly onNext: () => void;
}

/** Beside the picture: where each clip lies, what would show that, anchors. */
export function LineUpSide(props: Props) {
  const { clips, clip, placing, looked, rideLengthS, failure, call, anchorField, onChoose, onAnchor, onNext } = props;
  const { jobs } = useDesk();
  const debrief = useDebrief();
  const { lineup } = debrief;
  const { anchors, plan } = debrief.document;
  const { placement, locked } = placing;
  const job = jobs.find(
    (one) => (one.what === "lineup" || one.what === "signals") && (one.state === "running" || one.state === "waiting"),
  );
  const unsure = lineup === null || lineup.clips.some((one) => !one.sure);
  return (
    <div className="lineup-side scroll" tabIndex={-1}>
      {failure !== null && <FailureNote failure={failure} />}
      <section
        className={clips.length > MANY ? "part lineup-places many" : "part lineup-places"}
        aria-labelledby="places-title"
      >
        <header>
          <h2 id="places-title">{words.clips}</h2>
          <Button kind="main" keys="Ctrl+Enter" onClick={onNext}>
            {words.next}
          </Button>
        </header>
        <ClipPlaces
          clips={clips}
          lineup={lineup}
          anchors={anchors}
          rideLengthS={rideLengthS}
          chosenId={clip.id}
          locked={locked}
          onChoose={onChoose}
          onTry={placing.tryAt}
        />
        {job !== undefined && (
          <div className="row lineup-job">
            <div className="grow">
              <JobLine job={job} title={words.searching} />
            </div>
            <Button onClick={() => void call(() => desk.cancelJob(job.id))}>{common.cancel}</Button>
          </div>
        )}
        {!locked && unsure && job === undefined && <SearchBySignals clips={clips} onCall={call} />}
        {noticeTexts(lineup?.warnings ?? [], WINDOW_LANGUAGE, "window").map((warning) => (
          <p key={warning} className="note unsure">
            {warning}
          </p>
        ))}
      </section>
      {placement !== undefined && placement.found !== null && (
        <Glance
          places={placing.glance.places}
          units={plan.units}
          at={placing.glance.at}
          locked={locked}
          onGo={placing.glance.goTo}
          onAgree={placing.agree}
          onDisagree={onAnchor}
        />
      )}
      <Anchors
        clips={clips}
        clipId={clip.id}
        anchors={anchors}
        lineup={lineup}
        atMediaS={looked.atMediaS}
        locked={locked}
        field={anchorField}
        onSet={placing.setAt}
        onLook={looked.look}
        onRemove={placing.removeAt}
      />
      <DeviceDelay onCall={call} />
      {lineup !== null && lineup.rides.length > 1 && <OtherRides rides={lineup.rides} />}
    </div>
  );
}

/** Where the clocks leave it open: the picture's motion against the ride's speed. */
function SearchBySignals({ clips, onCall }: { readonly clips: readonly ClipView[]; readonly onCall: Calls["call"] }) {
  return (
    <div className="stack">
      <div className="row">
        <Button onClick={() => void onCall(() => desk.lineUp(true))}>{words.search}</Button>
      </div>
      <p className="quiet small">{clips.every((one) => one.hasSignals) ? words.searchOpen : words.searchMore}</p>
      <p className="quiet small">{words.unsureNext}</p>
    </div>
  );
}

/** Picture and numbers off by the same little bit everywhere. */
function DeviceDelay({ onCall }: { readonly onCall: Calls["call"] }) {
  const debrief = useDebrief();
  const { deviceDelayS } = debrief.document;
  return (
    <NumberField
      label={words.delay}
      hint={words.delayHint}
      unit="s"
      value={deviceDelayS}
      least={-10}
      most={10}
      disabled={debrief.readOnly !== null}
      onChange={(value) =>
        void onCall(() =>
          desk.edit(
            { part: "deviceDelayS", value: value ?? 0, label: words.delayLabel(String(value ?? 0)) },
            debrief.edit,
          ),
        )
      }
    />
  );
}

/** The other rides of the outing, each with its place on the clock of the one that is shown. */
function OtherRides({ rides }: { readonly rides: Lineup["rides"] }) {
  return (
    <section className="part" aria-labelledby="rides-title">
      <header>
        <h2 id="rides-title">{words.rides}</h2>
      </header>
      <ul className="rows">
        {rides
          .filter((ride) => !ride.shown)
          .map((ride) => (
            <li key={ride.file} className={ride.uncertaintyS === null ? "unsure" : "firm"}>
              {words.rideAt(ride.file, offsetText(ride.offsetS))}
            </li>
          ))}
      </ul>
    </section>
  );
}

function offsetText(offsetS: number): string {
  if (Math.abs(offsetS) < 0.5) return words.same;
  return offsetS > 0 ? words.after(durationText(offsetS)) : words.before(durationText(-offsetS));
}
