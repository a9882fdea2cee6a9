/**
 * The few canvas calls that overlay code uses. A DOM context, an offscreen context and a @napi-rs/canvas context all
 * fit, so one painter serves the window, stills and the film. Pixels are straight-alpha sRGB; y grows downwards.
 */
export interface PathLike {
  moveTo(x: number, y: number): void;
  lineTo(x: number, y: number): void;
  bezierCurveTo(ax: number, ay: number, bx: number, by: number, x: number, y: number): void;
  quadraticCurveTo(ax: number, ay: number, x: number, y: number): void;
  arc(x: number, y: number, radius: number, startRad: number, endRad: number, anticlockwise?: boolean): void;
  rect(x: number, y: number, width: number, height: number): void;
  closePath(): void;
}

export interface Surface extends PathLike {
  fillStyle: unknown;
  strokeStyle: unknown;
  lineWidth: number;
  lineCap: "butt" | "round" | "square";
  lineJoin: "bevel" | "miter" | "round";
  globalAlpha: number;
  font: string;
  textAlign: "left" | "right" | "center" | "start" | "end";
  textBaseline: "alphabetic" | "top" | "middle" | "bottom" | "hanging" | "ideographic";
  save(): void;
  restore(): void;
  beginPath(): void;
  fill(): void;
  stroke(): void;
  clip(): void;
  translate(x: number, y: number): void;
  scale(x: number, y: number): void;
  rotate(rad: number): void;
  setLineDash(segments: number[]): void;
  clearRect(x: number, y: number, width: number, height: number): void;
  fillRect(x: number, y: number, width: number, height: number): void;
  fillText(text: string, x: number, y: number): void;
  strokeText(text: string, x: number, y: number): void;
  measureText(text: string): { readonly width: number };
}

/** Whole pixels. */
export interface Rect {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}
