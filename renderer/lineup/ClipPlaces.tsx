import type { ClipView } from "../../main/contract/debriefApi.ts";
import type { Anchor, ClipPlacement, Lineup } from "../../main/contract/lineup.ts";
import { keepUnits } from "../../overlay/words/keepUnits.ts";
import { clockText, fixedText } from "../../overlay/words/numbers.ts";
import { Button } from "../look/Button.tsx";
import { LineSign } from "../look/LineSign.tsx";
import { lineup as words } from "../words/lineup.ts";
import { isProposal } from "./moveFootage.ts";
import { plainReason } from "./plainReason.ts";
import { placementReasonText } from "../../overlay/words/notices/placementReason.ts";
import { WINDOW_LANGUAGE } from "../words/language.ts";

interface Props {
  readonly clips: readonly ClipView[];
  readonly lineup: Lineup | null;
  readonly anchors: readonly Anchor[];
  /** Length of the ride, s; null while it is not known here. */
  readonly rideLengthS: number | null;
  readonly chosenId: string;
  readonly locked: boolean;
  readonly onChoose: (clipId: string) => void;
  readonly onTry: (clipId: string, rideStartS: number) => void;
}

/** Words for how sure a placement is. What signals found is always shown as a proposal to be checked. */
function surenessOf(placement: ClipPlacement | undefined): {
  readonly kind: "firm" | "unsure" | "wrong";
  readonly text: string;
} {
  if (placement === undefined || placement.found === null) return { kind: "wrong", text: words.sureness["no match"] };
  if (placement.method === "signals" && placement.verdict === "sure") return { kind: "unsure", text: words.check };
  if (placement.verdict === "no match") return { kind: "wrong", text: words.outside };
  const kind = placement.sure ? "firm" : placement.verdict === "not sure" ? "unsure" : "wrong";
  return { kind, text: words.sureness[placement.verdict] };
}

/** More clips than this are too many to see at once: those in their place are folded. */
export const MANY = 6;

/** Where each clip sits in the ride, how sure that is, and why; of many the ones that need no look are folded. */
export function ClipPlaces(props: Props) {
  const { clips, lineup, chosenId } = props;
  const settled = (clip: ClipView) => {
    const placement = lineup?.clips.find((one) => one.clipId === clip.id);
    return surenessOf(placement).kind === "firm";
  };
  const folded = clips.length > MANY ? clips.filter((clip) => settled(clip) && clip.id !== chosenId) : [];
  const open = clips.filter((clip) => !folded.includes(clip));
  return (
    <div className="scroll lineup-list">
      <ul className="rows">
        {open.map((clip) => (
          <ClipPlace key={clip.id} {...props} clip={clip} />
        ))}
      </ul>
      {folded.length > 0 && (
        <details className="lineup-found">
          <summary>{words.found(folded.length)}</summary>
          <ul className="rows">
            {folded.map((clip) => (
              <ClipPlace key={clip.id} {...props} clip={clip} />
            ))}
          </ul>
        </details>
      )}
    </div>
  );
}

function ClipPlace(props: Omit<Props, "clips"> & { readonly clip: ClipView }) {
  const { clip, lineup, anchors, rideLengthS, chosenId, locked, onChoose, onTry } = props;
  const placement = lineup?.clips.find((one) => one.clipId === clip.id);
  const { kind, text } = surenessOf(placement);
  const chosen = clip.id === chosenId;
  const tries = placement === undefined ? [] : otherPlaces(placement, clip.durationS, rideLengthS);
  const byHand = placement?.sure === false && isProposal(anchors, lineup?.clips ?? [], clip.id);
  const settled = kind === "firm" && placement !== undefined && plainReason(placement.reason);
  return (
    <li className={`${kind}${chosen ? " chosen" : ""}`}>
      <button
        type="button"
        className="start-open"
        aria-pressed={chosen}
        aria-label={words.clipOf(clip.name)}
        onClick={() => onChoose(clip.id)}
      >
        <span className="row apart">
          <span className="name">{clip.name}</span>
          <span className="row place-sure">
            <LineSign kind={kind} />
            {text}
          </span>
        </span>
        <span className="quiet">{keepUnits(placedText(placement, { settled, byHand }))}</span>
      </button>
      {chosen && settled && (
        <details className="place-more small">
          <summary>{words.why}</summary>
          <p>{keepUnits(placementReasonText(placement.reason, WINDOW_LANGUAGE))}</p>
        </details>
      )}
      {chosen && !settled && placement !== undefined && (
        <div className="stack place-more">
          {byHand && <p className="note unsure">{words.byHand}</p>}
          <p>{keepUnits(placementReasonText(placement.reason, WINDOW_LANGUAGE))}</p>
          {!placement.sure && tries.length > 0 && !locked && (
            <div className="stack place-candidates">
              <span className="small">{words.candidates}</span>
              <div className="row">
                {tries.map((candidate) => (
                  <Button key={candidate.rideStartS} onClick={() => onTry(clip.id, candidate.rideStartS)}>
                    {words.tryAt(clockText(candidate.rideStartS))}
                  </Button>
                ))}
              </div>
            </div>
          )}
        </div>
      )}
    </li>
  );
}

/** The candidates apart from the place in force, best first; where nothing of the ride would be seen is none. */
export function otherPlaces(
  { candidates, found }: ClipPlacement,
  clipS: number,
  rideS: number | null,
): ClipPlacement["candidates"] {
  const meetsRide = (startS: number) => rideS === null || (startS + clipS > 0 && startS < rideS);
  return candidates
    .filter((one) => meetsRide(one.rideStartS) && (found === null || Math.abs(one.rideStartS - found.offsetS) >= 1))
    .slice(0, 4);
}

/** Where it begins: in fewer words where it needs no look, with no error that nobody has measured where it was moved by hand. */
function placedText(
  placement: ClipPlacement | undefined,
  { settled, byHand }: { readonly settled: boolean; readonly byHand: boolean },
): string {
  if (placement === undefined || placement.found === null) return words.unplaced;
  const { found, method, uncertaintyS } = placement;
  const begins = clockText(found.offsetS);
  const within =
    uncertaintyS === null || byHand ? [] : [words.within(fixedText(uncertaintyS, uncertaintyS < 10 ? 1 : 0))];
  return [settled ? words.from(begins) : words.starts(begins), words.methods[method], ...within].join(", ");
}
