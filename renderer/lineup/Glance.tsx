import type { UnitSystem } from "../../main/contract/languageAndUnits.ts";
import { keepUnits } from "../../overlay/words/keepUnits.ts";
import { clockText, speedText } from "../../overlay/words/numbers.ts";
import { Button } from "../look/Button.tsx";
import { lineup as words } from "../words/lineup.ts";
import type { PlaceToCheck } from "./placesToCheck.ts";

interface Props {
  readonly places: readonly PlaceToCheck[];
  readonly units: UnitSystem;
  /** Index of the place that is looked at, or null. */
  readonly at: number | null;
  readonly locked: boolean;
  readonly onGo: (index: number) => void;
  readonly onAgree: () => void;
  readonly onDisagree: () => void;
}

/** The glance that settles a line-up: two or three places where picture and numbers can't both be wrong unseen. */
export function Glance({ places, units, at, locked, onGo, onAgree, onDisagree }: Props) {
  const speed = (mps: number) => {
    const { figure, unit } = speedText(mps, units);
    return `${figure} ${unit}`;
  };
  const sentence = (place: PlaceToCheck) => {
    const time = clockText(place.rideS);
    if (place.kind === "stops") return words.stops(time);
    return place.kind === "starts"
      ? words.starts_off(time)
      : words.slows(time, speed(place.fromMps), speed(place.toMps));
  };
  return (
    <section className="part" aria-labelledby="glance-title">
      <header>
        <h2 id="glance-title">{words.glance}</h2>
      </header>
      {places.length === 0 ? (
        <p className="quiet">{words.glanceNone}</p>
      ) : (
        <>
          <p className="quiet small">{words.glanceMore}</p>
          <ul className="rows">
            {places.map((place, index) => (
              <li key={place.rideS} className={at === index ? "firm chosen" : ""}>
                <button type="button" className="start-open" aria-pressed={at === index} onClick={() => onGo(index)}>
                  {keepUnits(sentence(place))}
                </button>
              </li>
            ))}
          </ul>
        </>
      )}
      {!locked && (
        <div className="row">
          <Button kind="main" keys="y" disabled={places.length > 0 && at === null} onClick={onAgree}>
            {words.agrees}
          </Button>
          <Button onClick={onDisagree}>{words.disagrees}</Button>
        </div>
      )}
    </section>
  );
}
