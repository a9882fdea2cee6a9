import type { IpcMain, IpcMainEvent, WebContents } from "electron";
import { z } from "zod";
import type { WindowChannel } from "../rpc/serveWindow.ts";
import { isOurs } from "./origin.ts";

/** The one IPC channel. */
export const CHANNEL = "followcar";

/** What the preload sends; the page can't make the second and third kind itself. */
const message = z.discriminatedUnion("kind", [
  z.strictObject({ kind: z.literal("text"), text: z.string().max(28 * 1024 * 1024) }),
  z.strictObject({ kind: z.literal("dropped"), token: z.uuid(), path: z.string().min(1).max(32_768) }),
  z.strictObject({ kind: z.literal("recording"), on: z.boolean() }),
]);

/** What comes over the channel beside the calls. */
export interface ChannelListener {
  /** A file was dropped on the window: where it lies, under a token of the preload. */
  readonly dropped: (token: string, path: string) => void;
  /** Recording of a comment began or ended. */
  readonly recording: (on: boolean) => void;
}

/** Only our window's top frame, on our own page, is listened to; anything else is dropped without an answer. */
export function electronChannel(ipcMain: IpcMain, contents: WebContents, listener: ChannelListener): WindowChannel {
  const listeners = new Set<(text: string) => void>();
  ipcMain.on(CHANNEL, (event: IpcMainEvent, sent: unknown) => {
    if (
      event.sender !== contents ||
      event.senderFrame === null ||
      event.senderFrame !== contents.mainFrame ||
      !isOurs(event.senderFrame.url)
    )
      return;
    const parsed = message.safeParse(sent);
    if (!parsed.success) return;
    switch (parsed.data.kind) {
      case "text":
        for (const listen of listeners) listen(parsed.data.text);
        break;
      case "dropped":
        listener.dropped(parsed.data.token, parsed.data.path);
        break;
      case "recording":
        listener.recording(parsed.data.on);
        break;
    }
  });
  return {
    // Text, not structured clones: both shells then behave alike.
    post: (text) => {
      if (!contents.isDestroyed()) contents.send(CHANNEL, text);
    },
    on: (listen) => void listeners.add(listen),
  };
}
