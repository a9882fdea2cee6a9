import { type MouseEvent, useMemo } from "react";
import type { WindowColumns } from "../../main/contract/columnBytes.ts";
import { routePath } from "../../overlay/instant/routePath.ts";
import { fetchRideColumns } from "../desk/columns.ts";
import { useDesk } from "../desk/useDesk.ts";
import { useFetched } from "../desk/useFetched.ts";
import { Button } from "../look/Button.tsx";
import { athletes as words } from "../words/athletes.ts";

interface Props {
  readonly lat: number | null;
  readonly lon: number | null;
  readonly onPick: (latDeg: number, lonDeg: number) => void;
}

/** Points of the ride's shape that are drawn, at most. */
const MOST_POINTS = 600;
/** So far from the line a press still means it, share of the drawing. */
const REACH = 0.08;

/** Home as a point of the ride on the desk: its start, its end, or a press on its shape. Nothing where no ride has places. */
export function HomeOnRide({ lat, lon, onPick }: Props) {
  const { debrief } = useDesk();
  const columns = useFetched(debrief?.addresses.columns ?? null, fetchRideColumns).value;
  const points = useMemo(() => (columns === null ? [] : shapeOf(columns)), [columns]);
  const [first, last] = [points.at(0), points.at(-1)];
  if (debrief === null || first === undefined || last === undefined)
    return <p className="quiet small">{words.homeNoRide}</p>;
  const near = points.find(({ latDeg, lonDeg }) => latDeg === lat && lonDeg === lon);
  const onPress = (event: MouseEvent<SVGSVGElement>) => {
    const box = event.currentTarget.getBoundingClientRect();
    const at = { x: (event.clientX - box.left) / box.width, y: (event.clientY - box.top) / box.height };
    const away = (point: Point) => Math.hypot(point.x - at.x, point.y - at.y);
    const nearest = points.reduce((best, point) => (away(point) < away(best) ? point : best));
    if (away(nearest) <= REACH) onPick(nearest.latDeg, nearest.lonDeg);
  };
  return (
    <div className="home-ride">
      <svg viewBox="0 0 1 1" className="home-shape" aria-hidden="true" onClick={onPress}>
        <polyline points={points.map(({ x, y }) => `${x},${y}`).join(" ")} />
        {near !== undefined && <circle cx={near.x} cy={near.y} r={0.03} />}
      </svg>
      <div className="stack">
        <p className="quiet small">{words.homeOnRide}</p>
        <div className="row">
          <Button onClick={() => onPick(first.latDeg, first.lonDeg)}>{words.homeStart}</Button>
          <Button onClick={() => onPick(last.latDeg, last.lonDeg)}>{words.homeEnd}</Button>
        </div>
      </div>
    </div>
  );
}

/** A place of the ride: in degrees, and in the drawing as shares of it, from its top left. */
interface Point {
  readonly latDeg: number;
  readonly lonDeg: number;
  readonly x: number;
  readonly y: number;
}

function shapeOf(columns: WindowColumns): Point[] {
  const { latDeg, lonDeg } = columns;
  const route = routePath(columns);
  if (latDeg === null || lonDeg === null || route === null) return [];
  const known = [...latDeg.keys()].filter((k) => Number.isFinite(latDeg[k]!) && Number.isFinite(lonDeg[k]!));
  const step = Math.max(1, Math.ceil(known.length / MOST_POINTS));
  return known
    .filter((_, at) => at % step === 0 || at === known.length - 1)
    .map((k) => ({ latDeg: latDeg[k]!, lonDeg: lonDeg[k]!, x: route.x[k]!, y: route.y[k]! }));
}
