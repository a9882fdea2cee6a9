// `npm run gallery`: every panel, card and drawing as a PNG in dist/gallery, at full size and 400 px wide.
import { mkdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { testCanvas } from "../../support/canvas.ts";
import { paintGround } from "../support/grounds.ts";
import { scenes } from "./scenes.ts";

const FOLDER = join("dist", "gallery");
const PHONE_PX = 400;

mkdirSync(FOLDER, { recursive: true });
const wished = process.argv[2] ?? "";
for (const scene of scenes.filter(({ name }) => name.includes(wished))) {
  const [width, height] = scene.gallery;
  const { canvas, context } = testCanvas(width, height);
  if (scene.ground !== null) paintGround(context, scene.ground, width, height);
  scene.paint(context, width, height);
  writeFileSync(join(FOLDER, `${scene.name}.png`), canvas.toBuffer("image/png"));
  const small = testCanvas(PHONE_PX, Math.round((height * PHONE_PX) / width));
  small.context.imageSmoothingQuality = "high";
  small.context.drawImage(canvas, 0, 0, small.canvas.width, small.canvas.height);
  writeFileSync(join(FOLDER, `${scene.name}-400.png`), small.canvas.toBuffer("image/png"));
}
process.stdout.write(`${scenes.length} scenes in ${FOLDER}\n`);
