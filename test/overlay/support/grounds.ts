import type { SKRSContext2D } from "@napi-rs/canvas";
import { seededShares } from "./sampleRide.ts";

export type Ground = "snow" | "wet" | "leaves";
export const grounds: readonly Ground[] = ["snow", "wet", "leaves"];

/** Three hard pictures to read on: bright snow under a white sky, a dark wet road, busy sunlit leaves. Invented, drawn from a seed. */
export function paintGround(context: SKRSContext2D, ground: Ground, width: number, height: number): void {
  const share = seededShares(4711);
  const between = (low: number, high: number): number => low + (high - low) * share();
  const unit = height / 720;
  if (ground === "snow") {
    const sky = context.createLinearGradient(0, 0, 0, height * 0.5);
    sky.addColorStop(0, "#dfeaf5");
    sky.addColorStop(1, "#ffffff");
    context.fillStyle = sky;
    context.fillRect(0, 0, width, height);
    context.fillStyle = "#fdfeff";
    context.fillRect(0, height * 0.47, width, height);
    for (let k = 0; k < 70; k += 1) {
      context.fillStyle = `rgba(${Math.round(between(200, 235))},225,245,0.35)`;
      context.beginPath();
      context.ellipse(share() * width, between(0.5, 1) * height, between(40, 220) * unit, between(3, 14) * unit, 0, 0, 7);
      context.fill();
    }
    return;
  }
  if (ground === "wet") {
    const road = context.createLinearGradient(0, 0, 0, height);
    road.addColorStop(0, "#49525b");
    road.addColorStop(0.42, "#6a747c");
    road.addColorStop(0.46, "#2a2e31");
    road.addColorStop(1, "#131517");
    context.fillStyle = road;
    context.fillRect(0, 0, width, height);
    for (let k = 0; k < 260; k += 1) {
      context.fillStyle = `rgba(190,205,220,${between(0.03, 0.2)})`;
      context.fillRect(share() * width, between(0.46, 1) * height, between(6, 90) * unit, between(1, 3) * unit);
    }
    context.fillStyle = "#c9ced0";
    context.beginPath();
    context.moveTo(width * 0.495, height * 0.46);
    context.lineTo(width * 0.505, height * 0.46);
    context.lineTo(width * 0.54, height);
    context.lineTo(width * 0.47, height);
    context.fill();
    return;
  }
  context.fillStyle = "#3f5f2b";
  context.fillRect(0, 0, width, height);
  for (let k = 0; k < 5200; k += 1) {
    const light = between(0, 1);
    context.fillStyle = `rgb(${Math.round(40 + 200 * light * light)},${Math.round(70 + 175 * light)},${Math.round(20 + 90 * light * light)})`;
    context.beginPath();
    context.ellipse(share() * width, share() * height, between(3, 17) * unit, between(2, 9) * unit, between(0, 3.1), 0, 7);
    context.fill();
  }
}
