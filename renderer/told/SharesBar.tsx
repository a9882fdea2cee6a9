import type { PressureReading } from "../../main/contract/reading.ts";
import { told as words } from "../words/told.ts";

/** The main part as one bar, shared out by what the pressure was; its figures stand in the table below it. */
export function SharesBar({ pressure }: { readonly pressure: PressureReading }) {
  const { inBandS, belowS, aboveS, offS, unknownS, judgedBy, cranksKnown } = pressure;
  if (judgedBy === null && !cranksKnown) return null;
  const parts: readonly (readonly [kind: keyof typeof words.sharesKey, lengthS: number, said: string])[] =
    judgedBy === null
      ? [
          ["in", inBandS + belowS + aboveS, words.pressedKey.in],
          ["off", offS, words.pressedKey.off],
          ["unknown", unknownS, words.pressedKey.unknown],
        ]
      : [
          ["in", inBandS, words.sharesKey.in],
          ["below", belowS, words.sharesKey.below],
          ["above", aboveS, words.sharesKey.above],
          ["off", offS, words.sharesKey.off],
          ["unknown", unknownS, words.sharesKey.unknown],
        ];
  const shown = parts.filter(([, lengthS]) => lengthS > 0);
  if (shown.length === 0) return null;
  return (
    <div className="told-shares" aria-hidden="true">
      <div className="told-bar">
        {shown.map(([kind, lengthS]) => (
          <span key={kind} className={`told-share ${kind}`} style={{ flexGrow: lengthS }} />
        ))}
      </div>
      <ul className="told-key small">
        {shown.map(([kind, , said]) => (
          <li key={kind}>
            <span className={`told-share ${kind}`} />
            {said}
          </li>
        ))}
      </ul>
    </div>
  );
}
