import type { SKRSContext2D } from "@napi-rs/canvas";
import { cameraFinish, fractalNoise, mix, type Colour, type Picture } from "./cameraNoise.ts";
import { seededShares } from "./sampleRide.ts";

export type Ground = "snow" | "wet" | "leaves";
export const grounds: readonly Ground[] = ["snow", "wet", "leaves"];

const HORIZON = 0.44;

/**
 * Three hard pictures to read on, as a camera gives them (texture that grows towards the eye, lens softness, grain):
 * snow under a white sky, a dark wet road that mirrors a light, leaves in the sun. Invented, drawn from a seed.
 */
export function paintGround(context: SKRSContext2D, ground: Ground, width: number, height: number): void {
  const image = context.createImageData(width, height);
  const key = `${ground} ${width} ${height}`;
  const made = painted.get(key) ?? madeGround(context, ground, width, height);
  painted.set(key, made);
  image.data.set(made);
  context.putImageData(image, 0, 0);
}

const painted = new Map<string, Uint8ClampedArray>();

function madeGround(context: SKRSContext2D, ground: Ground, width: number, height: number): Uint8ClampedArray {
  const picture: Picture = { width, height, rgba: new Uint8ClampedArray(4 * width * height) };
  if (ground === "leaves") paintLeaves(context, picture);
  else shade(picture, ground === "snow" ? snowAt() : wetAt());
  cameraFinish(picture, ground === "wet" ? 7 : 4);
  return picture.rgba;
}

/** Colour at shares of width and height. */
type ColourAt = (x: number, y: number, aspect: number) => Colour;

function shade({ width, height, rgba }: Picture, colourAt: ColourAt): void {
  for (let y = 0, k = 0; y < height; y += 1) {
    for (let x = 0; x < width; x += 1, k += 4) {
      const [r, g, b] = colourAt((x + 0.5) / width, (y + 0.5) / height, width / height);
      rgba[k] = r;
      rgba[k + 1] = g;
      rgba[k + 2] = b;
      rgba[k + 3] = 255;
    }
  }
}

/** Where a point beneath the horizon lies on the ground: across and ahead, in heights of the camera. */
function onGround(x: number, y: number, aspect: number): { across: number; ahead: number } {
  const ahead = 0.55 / Math.max(0.004, y - HORIZON);
  return { across: (x - 0.5) * aspect * ahead * 1.7, ahead };
}

/** Trodden snow with a cleared lane between banks: white upon white. */
function snowAt(): ColourAt {
  const drift = fractalNoise(11, 5);
  const crust = fractalNoise(12, 4);
  const cloud = fractalNoise(13, 4);
  return (x, y, aspect) => {
    if (y < HORIZON) {
      const haze = cloud(x * 3 * aspect, y * 7);
      return mix([222, 232, 244], [255, 255, 255], Math.min(1, y / HORIZON + 0.4 * (haze - 0.5)));
    }
    const { across, ahead } = onGround(x, y, aspect);
    const far = Math.min(1, ahead / 14);
    const lump = drift(across * 1.6, ahead * 1.6) * 0.7 + crust(across * 9, ahead * 9) * 0.3;
    const bright = mix([196, 210, 230], [255, 255, 255], Math.min(1, 0.15 + 1.25 * lump + 0.3 * far));
    const lane = Math.abs(across) < 1.25 + 0.25 * (drift(7, ahead * 0.8) - 0.5);
    const slush = crust(across * 14, ahead * 3);
    return lane ? mix(bright, [176, 184, 194], 0.75 * slush * (1 - far)) : bright;
  };
}

/** Dark tarmac after rain: grain, films of water that mirror the grey sky, a lamp's streak, a worn white line. */
function wetAt(): ColourAt {
  const grain = fractalNoise(21, 3);
  const pools = fractalNoise(22, 4);
  const hedge = fractalNoise(23, 5);
  return (x, y, aspect) => {
    if (y < HORIZON) {
      const top = 0.34 + 0.12 * (hedge(x * 6 * aspect, 3) - 0.5);
      if (y < top) return mix([92, 102, 112], [128, 137, 144], y / top);
      return mix([16, 22, 16], [58, 70, 48], hedge(x * 22 * aspect, y * 22));
    }
    const { across, ahead } = onGround(x, y, aspect);
    const stone = grain(across * 42, ahead * 42) * (1 - Math.min(1, ahead / 9)) + 0.4 * Math.min(1, ahead / 9);
    const dry = mix([14, 16, 18], [66, 68, 70], stone);
    const water =
      Math.max(0, Math.min(1, (pools(across * 1.1, ahead * 0.5) - 0.5) * 6)) * 0.55 + Math.min(0.5, ahead / 16);
    const streak = Math.exp(-(((x - 0.68) / 0.035) ** 2)) * (0.35 + 0.65 * grain(x * 30, ahead * 6));
    const wet = mix(mix(dry, [116, 126, 134], water * 0.75), [255, 226, 170], streak * 0.85);
    const line = Math.abs(across + 0.55) < 0.07 && grain(across * 16, ahead * 5) > 0.38;
    return line ? mix(wet, [214, 216, 212], 0.85) : wet;
  };
}

/** Leaves upon leaves, few large and many small, sunlit or in shade: the disc model of natural pictures, with ovals. */
function paintLeaves(context: SKRSContext2D, { width, height, rgba }: Picture): void {
  const share = seededShares(4711);
  const between = (low: number, high: number): number => low + (high - low) * share();
  const unit = Math.min(width, height) / 720;
  context.fillStyle = "#1c2914";
  context.fillRect(0, 0, width, height);
  const count = Math.round((width * height * 9000) / (1280 * 720) / unit ** 2);
  for (let k = 0; k < count; k += 1) {
    const size = Math.min(34, 4 / Math.sqrt(between(0.012, 1))) * unit;
    const sun = share() ** 1.6;
    const [r, g, b] = sun > 0.82 ? [232, 246, 172] : mix([24, 40, 14], [168, 205, 74], sun);
    context.fillStyle = `rgb(${Math.round(r)},${Math.round(g)},${Math.round(b)})`;
    context.beginPath();
    context.ellipse(share() * width, share() * height, size, size * between(0.35, 0.6), between(0, 3.14), 0, 7);
    context.fill();
  }
  rgba.set(context.getImageData(0, 0, width, height).data);
}
