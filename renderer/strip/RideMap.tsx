import { type PointerEvent, type Ref, useCallback, useImperativeHandle, useMemo, useRef } from "react";
import type { WindowColumns } from "../../main/contract/columnBytes.ts";
import { type RoutePath, routePath } from "../../overlay/instant/routePath.ts";
import { type CanvasView, useCanvas } from "../look/useCanvas.ts";
import { strip as words } from "../words/strip.ts";
import type { StripMoment } from "./paintStrip.ts";
import type { StripHandle } from "./useStripCursor.ts";

interface Props {
  readonly handle: Ref<StripHandle>;
  /** Ride time on the screen as the map opens, s; null: none. */
  readonly here: () => number | null;
  readonly columns: WindowColumns;
  readonly moments: readonly StripMoment[];
  readonly selected: number | null;
  readonly onGo: (rideS: number) => void;
}

/** Room between the shape and the map's edges, px. */
const EDGE_PX = 14;
/** A press this near to the shape means the place, px. */
const REACH_PX = 24;
/** The shape is drawn with about so many points. */
const MOST_POINTS = 1500;

/** The ride's own shape, north up, without a map beneath: the moments on it, the chosen one firm, and where one is. */
export function RideMap({ handle, here, columns, moments, selected, onGo }: Props) {
  const route = useMemo(() => routePath(columns), [columns]);
  const dot = useRef<HTMLSpanElement>(null);
  const box = useRef<HTMLDivElement>(null);
  const at = useRef<number | null>(null);
  const pointAt = (rideS: number): { readonly x: number; readonly y: number } | null => {
    const { current } = box;
    const k = Math.round(rideS);
    if (current === null || route === null || !Number.isFinite(route.x[k])) return null;
    return placed(current.clientWidth, current.clientHeight, route.x[k]!, route.y[k]!);
  };
  const show = (rideS: number | null) => {
    at.current = rideS;
    const point = rideS === null ? null : pointAt(rideS);
    if (dot.current === null) return;
    dot.current.hidden = point === null;
    if (point !== null) dot.current.style.transform = `translate(${point.x}px, ${point.y}px)`;
  };
  useImperativeHandle(handle, () => ({ show }));
  const draw = useCallback(
    (context: CanvasRenderingContext2D, view: CanvasView) => {
      paintMap(context, view, route, moments, selected);
      show(at.current ?? here());
    },
    [route, moments, selected],
  );
  const canvas = useCanvas(draw);
  const onPointerDown = (event: PointerEvent<HTMLDivElement>) => {
    if (event.button !== 0 || route === null) return;
    const { left, top, width, height } = event.currentTarget.getBoundingClientRect();
    let best = { far: REACH_PX, rideS: null as number | null };
    for (let k = 0; k < route.x.length; k++) {
      if (!Number.isFinite(route.x[k])) continue;
      const { x, y } = placed(width, height, route.x[k]!, route.y[k]!);
      const far = Math.hypot(event.clientX - left - x, event.clientY - top - y);
      if (far < best.far) best = { far, rideS: k };
    }
    if (best.rideS !== null) onGo(best.rideS);
  };
  return (
    <div ref={box} className="ride-map" title={words.mapHint} onPointerDown={onPointerDown}>
      <canvas ref={canvas} role="img" aria-label={words.mapSaid} />
      <span ref={dot} className="ride-map-dot" hidden />
      {route === null && <p className="small quiet">{words.mapNone}</p>}
    </div>
  );
}

/** The shape as a thin line, the moments on it, the chosen one firm. */
function paintMap(
  context: CanvasRenderingContext2D,
  { widthPx, heightPx, colours }: CanvasView,
  route: RoutePath | null,
  moments: readonly StripMoment[],
  selected: number | null,
): void {
  context.clearRect(0, 0, widthPx, heightPx);
  if (route === null) return;
  const line = (fromS: number, toS: number, width: number, colour: string) => {
    const step = Math.max(1, Math.floor((toS - fromS) / MOST_POINTS));
    context.beginPath();
    let joined = false;
    for (let k = Math.max(0, Math.floor(fromS)); k <= Math.min(toS, route.x.length - 1); k += step) {
      const known = Number.isFinite(route.x[k]) && Number.isFinite(route.y[k]);
      if (known) {
        const { x, y } = placed(widthPx, heightPx, route.x[k]!, route.y[k]!);
        if (joined) context.lineTo(x, y);
        else context.moveTo(x, y);
      }
      joined = known;
    }
    context.lineJoin = "round";
    context.lineCap = "round";
    context.lineWidth = width;
    context.strokeStyle = colour;
    context.stroke();
  };
  line(0, route.x.length - 1, 1.6, colours.quiet);
  const ordered = [...moments].sort((a, b) => Number(a.index === selected) - Number(b.index === selected));
  for (const { index, startS, endS, inFilm } of ordered) {
    const k = Math.round(startS);
    if (!Number.isFinite(route.x[k])) continue;
    const chosen = index === selected;
    if (chosen) line(startS, endS, 5, colours.ink);
    const { x, y } = placed(widthPx, heightPx, route.x[k]!, route.y[k]!);
    context.beginPath();
    context.arc(x, y, chosen ? 6.5 : 4, 0, 2 * Math.PI);
    context.fillStyle = inFilm ? colours.ink : colours.ground;
    context.fill();
    context.lineWidth = chosen ? 2.6 : 1.6;
    context.strokeStyle = colours.ink;
    context.stroke();
  }
}

/** A share of the map's square as a place in its box, px. */
function placed(widthPx: number, heightPx: number, x: number, y: number): { readonly x: number; readonly y: number } {
  const size = Math.min(widthPx, heightPx) - 2 * EDGE_PX;
  return { x: widthPx / 2 + (x - 0.5) * size, y: heightPx / 2 + (y - 0.5) * size };
}
