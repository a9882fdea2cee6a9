import { Button } from "../look/Button.tsx";
import { framing as words } from "../words/framing.ts";
import { clipTimeText } from "./clipTimeText.ts";

interface Props {
  readonly keys: readonly { readonly atMediaS: number; readonly said?: string }[];
  readonly onLook: (mediaS: number) => void;
  /** Null: none can be taken away. */
  readonly onRemove: ((index: number) => void) | null;
}

/** Instants at which a box was put somewhere: each is gone to, or taken away. */
export function KeyList({ keys, onLook, onRemove }: Props) {
  return (
    <ul className="draw-list" aria-label={words.keys}>
      {keys.map(({ atMediaS, said }, index) => {
        const at = clipTimeText(atMediaS);
        return (
          <li key={atMediaS} className="row">
            <Button kind="bare" onClick={() => onLook(atMediaS)}>
              {words.key(at)}
              {said !== undefined && `, ${said}`}
            </Button>
            {onRemove !== null && (
              <Button kind="bare" aria-label={words.removeKey(at)} onClick={() => onRemove(index)}>
                {"\u00d7"}
              </Button>
            )}
          </li>
        );
      })}
    </ul>
  );
}
