import type { App, Event } from "electron";
import { isOurs } from "./origin.ts";

/** No page of ours goes anywhere else, opens a window, or holds a page of others. */
export function guardContents(app: App): void {
  app.on("web-contents-created", (_event, contents) => {
    const stay = (event: Event<{ url: string }>): void => {
      if (!isOurs(event.url)) event.preventDefault();
    };
    contents.on("will-navigate", stay);
    contents.on("will-frame-navigate", stay);
    contents.on("will-redirect", stay);
    contents.on("will-attach-webview", (event) => event.preventDefault());
    contents.setWindowOpenHandler(() => ({ action: "deny" }));
  });
}
