import type { NoWindow } from "../../contract/notices/app.ts";

/**
 * Why a shell that ended with `exitCode` (null: from outside) showed no window. On Linux a program needs the X11 or Wayland
 * display that one of two variables names (X(7), DISPLAY NAMES; Wayland's wl_display_connect).
 */
export const whyNoWindow = (
  exitCode: number | null,
  { platform = process.platform, env = process.env }: { platform?: NodeJS.Platform; env?: NodeJS.ProcessEnv } = {},
): NoWindow =>
  platform === "linux" && !env.DISPLAY && !env.WAYLAND_DISPLAY
    ? { kind: "no screen", exitCode }
    : { kind: "ended with code", exitCode };
