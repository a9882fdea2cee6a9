import type { BrowserWindowConstructorOptions } from "electron";

/** What a page is printed in: hidden, sandboxed, without scripts, in a session of its own. */
export function printOptions(partition: string): BrowserWindowConstructorOptions {
  return {
    show: false,
    webPreferences: {
      partition,
      javascript: false,
      sandbox: true,
      contextIsolation: true,
      nodeIntegration: false,
      webviewTag: false,
      webSecurity: true,
      spellcheck: false,
    },
  };
}

/** The one set of options that a window of ours is made with: a sandboxed page that reaches the program by the preload alone. */
export function windowOptions(preload: string): BrowserWindowConstructorOptions {
  return {
    width: 1440,
    height: 900,
    minWidth: 720,
    minHeight: 480,
    show: false,
    title: "Followcar",
    backgroundColor: "#12181d",
    webPreferences: {
      preload,
      contextIsolation: true,
      sandbox: true,
      webSecurity: true,
      nodeIntegration: false,
      nodeIntegrationInWorker: false,
      nodeIntegrationInSubFrames: false,
      webviewTag: false,
      allowRunningInsecureContent: false,
      experimentalFeatures: false,
      navigateOnDragDrop: false,
      // Its dictionaries would be fetched from the network.
      spellcheck: false,
    },
  };
}
