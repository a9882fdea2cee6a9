import type { SKRSContext2D } from "@napi-rs/canvas";
import type { Surface } from "../../../overlay/surface.ts";

/** A surface on which all is drawn but what is in one colour: what lies beneath the ink. */
export function inkless(context: SKRSContext2D, ink: string): Surface {
  const skips: Record<string, "fillStyle" | "strokeStyle"> = {
    fill: "fillStyle",
    fillRect: "fillStyle",
    fillText: "fillStyle",
    stroke: "strokeStyle",
  };
  return new Proxy(context, {
    get(target, key: string) {
      const value: unknown = Reflect.get(target, key);
      if (typeof value !== "function") return value;
      return (...given: unknown[]) => {
        const style = skips[key];
        if (style !== undefined && target[style] === ink) return undefined;
        return (value as (...list: unknown[]) => unknown).apply(target, given);
      };
    },
    set: (target, key, value) => Reflect.set(target, key, value),
  });
}
