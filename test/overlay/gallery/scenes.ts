import { cardScenes } from "./cardScenes.ts";
import { drawingScenes } from "./drawingScenes.ts";
import { pairScenes } from "./pairScenes.ts";
import { panelScenes } from "./panelScenes.ts";
import type { Scene } from "./scene.ts";

/** All scenes of the gallery and of the golden test. */
export const scenes: readonly Scene[] = [...panelScenes, ...cardScenes, ...pairScenes, ...drawingScenes];
