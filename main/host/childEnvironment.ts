import type { ChildName } from "../contract/childLine.ts";

/**
 * glibc then keeps picture-sized buffers instead of mapping them anew for every frame: half the cost of reading pixels.
 * Nothing but speed depends on it.
 */
export function pictureEnvironment(env: NodeJS.ProcessEnv, platform: NodeJS.Platform): NodeJS.ProcessEnv {
  if (platform !== "linux") return env;
  return { ...env, MALLOC_MMAP_THRESHOLD_: "134217728", MALLOC_TRIM_THRESHOLD_: "536870912" };
}

/** What a process of ours is started with. */
export function childEnvironment(
  name: ChildName,
  env: NodeJS.ProcessEnv,
  platform: NodeJS.Platform,
): NodeJS.ProcessEnv {
  const given = pictureEnvironment(env, platform);
  // Listing every installed font takes longer than all other preparations; foreign letters are found without it.
  return name === "paintChild" && platform === "linux" ? { ...given, DISABLE_SYSTEM_FONTS_LOAD: "1" } : given;
}
