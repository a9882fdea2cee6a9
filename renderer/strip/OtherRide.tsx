import { useKeys } from "../look/keys.ts";
import { strip as words } from "../words/strip.ts";

/** Which other ride's thread lies below this one's. */
export interface OtherRideChoice {
  /** Rides along this one's roads, the newest first. */
  readonly names: readonly string[];
  /** Null: none is drawn. */
  readonly chosen: string | null;
  readonly onChoose: (name: string | null) => void;
}

const KEY = "Shift+b";

/** The list of rides that passed on this one's roads, of which one is drawn; its key goes on to the next. */
export function OtherRide({ names, chosen, onChoose }: OtherRideChoice) {
  const next = () => onChoose(chosen === null ? names[0]! : (names[names.indexOf(chosen) + 1] ?? null));
  useKeys(words.title, names.length === 0 ? [] : [{ keys: KEY, words: words.nextOther, run: next }]);
  if (names.length === 0) return null;
  return (
    <label className="strip-other">
      <span>{words.other}</span>{" "}
      <select value={chosen ?? ""} title="Shift B" onChange={({ target }) => onChoose(target.value || null)}>
        {names.map((name) => (
          <option key={name}>{name}</option>
        ))}
        <option value="">{words.noOther}</option>
      </select>
    </label>
  );
}
