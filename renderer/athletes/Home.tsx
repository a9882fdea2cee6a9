import { NumberField } from "../look/NumberField.tsx";
import { HomeOnRide } from "./HomeOnRide.tsx";
import { athletes as words } from "../words/athletes.ts";

/** Hidden around the home where nothing else was said, m. */
export const DEFAULT_RADIUS_M = 500;

interface Props {
  readonly lat: number | null;
  readonly lon: number | null;
  readonly radiusM: number;
  /** One of the two was left open. */
  readonly fault: boolean;
  readonly onLat: (deg: number | null) => void;
  readonly onLon: (deg: number | null) => void;
  readonly onRadius: (radiusM: number) => void;
}

/** Where nothing of a ride is shown. */
export function Home({ lat, lon, radiusM, fault, onLat, onLon, onRadius }: Props) {
  return (
    <fieldset className="stack">
      <legend>{words.home}</legend>
      <p className="quiet small">{words.homeMore}</p>
      <HomeOnRide
        lat={lat}
        lon={lon}
        onPick={(latDeg, lonDeg) => {
          onLat(latDeg);
          onLon(lonDeg);
        }}
      />
      <div className="plan-row">
        <NumberField label={words.lat} unit={"\u00b0"} value={lat} least={-90} most={90} onChange={onLat} />
        <NumberField label={words.lon} unit={"\u00b0"} value={lon} least={-180} most={180} onChange={onLon} />
        <NumberField
          label={words.radius}
          unit="m"
          value={radiusM}
          least={50}
          most={20000}
          onChange={(wished) => onRadius(wished ?? DEFAULT_RADIUS_M)}
        />
      </div>
      {fault && <p className="fault">{words.homeFault}</p>}
    </fieldset>
  );
}
