import { Fragment, type ReactNode } from "react";
import { CHART_WIDTH, Drawing, fixed } from "../page/parts.tsx";

export interface EventLadder {
  readonly title: string;
  readonly alt: string;
  /** Bars from top to bottom; `highS` null: at least so long, drawn open-ended. */
  readonly rungs: readonly {
    readonly label: string;
    readonly text: string;
    readonly lowS: number;
    readonly highS: number | null;
    readonly kind: "asked" | "ridden";
  }[];
}

const RUNG = 44;
const BAR = 14;

/**
 * What the event asks for and what the ride held, as bars on one time scale from zero. A held time known only between
 * two ends is full to the lower and hatched to the upper; one known only as "at least" ends in an arrow.
 */
export function EventLadderSvg({ ladder }: { readonly ladder: EventLadder }): ReactNode {
  const most = Math.max(1, ...ladder.rungs.map((rung) => rung.highS ?? rung.lowS * 1.05));
  const x = (seconds: number): number => (seconds / most) * (CHART_WIDTH - 20);
  return (
    <Drawing id="ladder" title={ladder.title} alt={ladder.alt} height={ladder.rungs.length * RUNG + 4}>
      {ladder.rungs.map(({ label, text, lowS, highS, kind }, index) => {
        const y = 18 + index * RUNG;
        return (
          <Fragment key={index}>
            <text x="0" y={y} className="strong">{`${label}: ${text}`}</text>
            <rect className={kind} x="0" y={y + 6} width={fixed(Math.max(1, x(lowS)))} height={BAR} />
            {highS === null ? (
              <path className={kind} d={`M${fixed(x(lowS))} ${y + 6}l9 7l-9 7z`} />
            ) : (
              highS > lowS && (
                <rect className="maybe" x={fixed(x(lowS))} y={y + 6} width={fixed(x(highS) - x(lowS))} height={BAR} />
              )
            )}
          </Fragment>
        );
      })}
    </Drawing>
  );
}
