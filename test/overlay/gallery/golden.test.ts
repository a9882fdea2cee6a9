import { existsSync, mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { loadImage } from "@napi-rs/canvas";
import { expect, test } from "vitest";
import { testCanvas } from "../../support/canvas.ts";
import { scenes } from "./scenes.ts";

// Goldens were made by this program and then looked at; they guard against change, not against error.
const GOLDEN = join("test", "golden");
const CHANGED = join("dist", "changed");

for (const scene of scenes) {
  test(`${scene.name} looks as it did`, async () => {
    const [width, height] = scene.golden;
    const { canvas, context } = testCanvas(width, height);
    const ramp = context.createLinearGradient(0, 0, 0, height);
    ramp.addColorStop(0, "#f4f7fa");
    ramp.addColorStop(1, "#5d6a58");
    context.fillStyle = ramp;
    context.fillRect(0, 0, width, height);
    scene.paint(context, width, height);
    const file = join(GOLDEN, `${scene.name}.png`);
    if (process.env.FOLLOWCAR_UPDATE_GOLDEN === "1") writeFileSync(file, canvas.toBuffer("image/png"));
    expect(
      existsSync(file),
      `no golden ${file}: look at the scene (npm run gallery), then FOLLOWCAR_UPDATE_GOLDEN=1`,
    ).toBe(true);
    const stored = testCanvas(width, height);
    stored.context.drawImage(await loadImage(readFileSync(file)), 0, 0);
    const now = context.getImageData(0, 0, width, height).data;
    const then = stored.context.getImageData(0, 0, width, height).data;
    let sum = 0;
    let most = 0;
    for (let k = 0; k < now.length; k += 1) {
      const difference = Math.abs(now[k]! - then[k]!);
      sum += difference;
      most = Math.max(most, difference);
    }
    if (sum / now.length > scene.tolerance) {
      mkdirSync(CHANGED, { recursive: true });
      writeFileSync(join(CHANGED, `${scene.name}.png`), canvas.toBuffer("image/png"));
    }
    expect(sum / now.length, `most ${most} of 255; the new picture is in ${CHANGED}`).toBeLessThanOrEqual(
      scene.tolerance,
    );
  });
}
