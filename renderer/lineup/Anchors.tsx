import { type Ref, useEffect, useState } from "react";
import type { ClipView } from "../../main/contract/debriefApi.ts";
import type { Anchor, Lineup, RideInstant } from "../../main/contract/lineup.ts";
import { clockText, fixedText } from "../../overlay/words/numbers.ts";
import { desk } from "../desk/desk.ts";
import { useDebrief } from "../desk/useDesk.ts";
import { Button } from "../look/Button.tsx";
import { Field } from "../look/Field.tsx";
import { SharpFrames } from "./SharpFrames.tsx";
import { faultText } from "../look/faultText.ts";
import { lineup as words } from "../words/lineup.ts";

interface Props {
  readonly clips: readonly ClipView[];
  /** Of the clip that is looked at. */
  readonly clipId: string;
  readonly anchors: readonly Anchor[];
  readonly lineup: Lineup | null;
  /** Clip time of the picture that is shown, said beside the field. */
  readonly atMediaS: number;
  readonly locked: boolean;
  readonly field: Ref<HTMLInputElement>;
  readonly onSet: (instant: RideInstant) => void;
  readonly onLook: (mediaS: number) => void;
  readonly onRemove: (index: number) => void;
}

/** Anchors: what is seen in the picture now, and what the ride shows then, in any form a coach can read off something. */
export function Anchors({ clips, clipId, anchors, lineup, atMediaS, locked, field, onSet, onLook, onRemove }: Props) {
  const [typed, setTyped] = useState("");
  const [read, setRead] = useState<RideInstant | { readonly fault: string } | null>(null);
  useEffect(() => {
    setRead(null);
    if (typed.trim() === "") return;
    let here = true;
    const wait = setTimeout(() => {
      desk.parseRideTime(typed.trim()).then(
        (instant) => here && setRead(instant),
        (error: unknown) => here && setRead({ fault: faultText(error) }),
      );
    }, 250);
    return () => {
      here = false;
      clearTimeout(wait);
    };
  }, [typed]);
  const set = async () => {
    try {
      onSet(await desk.parseRideTime(typed.trim()));
      setTyped("");
    } catch (error) {
      setRead({ fault: faultText(error) });
    }
  };
  return (
    <section className="part" aria-labelledby="anchors-title">
      <header>
        <h2 id="anchors-title">{words.anchors}</h2>
      </header>
      {!locked && (
        <form
          className="anchor-form"
          onSubmit={(event) => {
            event.preventDefault();
            if (typed.trim() !== "") void set();
          }}
        >
          <Field
            label={words.anchorField(clockText(atMediaS))}
            hint={read !== null && "rideS" in read ? words.anchorIs(clockText(read.rideS)) : words.anchorHint}
            fault={read !== null && "fault" in read ? read.fault : null}
          >
            {(props) => (
              <input
                {...props}
                ref={field}
                value={typed}
                autoComplete="off"
                spellCheck={false}
                onChange={(event) => setTyped(event.target.value)}
              />
            )}
          </Field>
          <Button type="submit" disabled={typed.trim() === ""}>
            {words.setAnchor}
          </Button>
          <SharpFrames key={clipId} clipId={clipId} atMediaS={atMediaS} onLook={onLook} />
        </form>
      )}
      <AnchorList clips={clips} anchors={anchors} lineup={lineup} locked={locked} onRemove={onRemove} />
    </section>
  );
}

/** The anchors that were set, each with how far it is off the line in force. */
function AnchorList({
  clips,
  anchors,
  lineup,
  locked,
  onRemove,
}: Pick<Props, "clips" | "anchors" | "lineup" | "locked" | "onRemove">) {
  const away = useDebrief().missingMedia;
  const nameOf = (id: string) => [...clips, ...away].find((clip) => clip.id === id)?.name ?? words.clipAway;
  if (anchors.length === 0) return <p className="quiet">{words.noAnchors}</p>;
  return (
    <ul className="rows">
      {anchors.map((anchor, index) => {
        const text = words.anchorLine(nameOf(anchor.clipId), clockText(anchor.mediaS), clockText(anchor.rideS));
        const offS = offOf(anchor, lineup);
        return (
          <li
            key={`${anchor.clipId} ${anchor.mediaS} ${anchor.rideS}`}
            className={offS !== null && Math.abs(offS) > 3 * Math.max(0.3, anchor.sigmaS) ? "unsure" : "firm"}
          >
            <div className="row apart">
              <span>{text}</span>
              {!locked && (
                <Button
                  kind="bare"
                  className="small-sign"
                  aria-label={words.removeAnchor(text)}
                  onClick={() => onRemove(index)}
                >
                  {"\u00d7"}
                </Button>
              )}
            </div>
            {offS !== null && Math.abs(offS) >= 0.1 && (
              <span className="quiet small">{words.anchorOff(fixedText(Math.abs(offS), 1))}</span>
            )}
          </li>
        );
      })}
    </ul>
  );
}

function offOf(anchor: Anchor, lineup: Lineup | null): number | null {
  const clock = lineup?.clips.find((one) => one.clipId === anchor.clipId)?.found ?? null;
  return clock === null ? null : anchor.rideS - clock.offsetS - clock.rate * anchor.mediaS;
}
