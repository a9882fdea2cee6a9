import type { Session } from "electron";
import { isOurs, SCHEME } from "./origin.ts";

/** Whether a comment is being recorded: between pressing record and stop. */
export interface RecordingState {
  readonly recording: boolean;
}

/** What the page may use without more ado. */
const GIVEN = new Set(["fullscreen", "clipboard-sanitized-write"]);

/**
 * Refuses every permission but full screen, writing the clipboard, and the microphone (sound alone) while a comment is
 * being recorded; refuses devices; and stops any request that leaves the window's own scheme.
 */
export function guardSession(session: Session, state: RecordingState): void {
  const allowed = (permission: string, origin: string, kinds: readonly string[]): boolean =>
    isOurs(origin) &&
    (GIVEN.has(permission) ||
      (permission === "media" && state.recording && kinds.length > 0 && kinds.every((kind) => kind === "audio")));

  session.setPermissionRequestHandler((_contents, permission, answer, details) => {
    answer(allowed(permission, details.requestingUrl, "mediaTypes" in details ? (details.mediaTypes ?? []) : []));
  });
  session.setPermissionCheckHandler((_contents, permission, origin, details) =>
    allowed(permission, origin, details.mediaType === undefined ? [] : [details.mediaType]),
  );
  session.setDevicePermissionHandler(() => false);
  session.webRequest.onBeforeRequest((details, answer) => {
    answer({ cancel: !new RegExp(`^(${SCHEME}|blob|data|devtools):`).test(details.url) });
  });
}
