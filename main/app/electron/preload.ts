// The sandboxed preload: one object with four functions for the page. It hands over no event, no path and no Electron.
import { contextBridge, ipcRenderer, webUtils } from "electron";

const CHANNEL = "followcar";

contextBridge.exposeInMainWorld("followcar", {
  post(text: string) {
    ipcRenderer.send(CHANNEL, { kind: "text", text });
  },
  onText(listener: (text: string) => void) {
    ipcRenderer.on(CHANNEL, (_event, text: string) => listener(text));
  },
  tokenOf(file: File) {
    const path = webUtils.getPathForFile(file);
    if (path === "") return "";
    const token = crypto.randomUUID();
    ipcRenderer.send(CHANNEL, { kind: "dropped", token, path });
    return token;
  },
  recording(on: boolean) {
    ipcRenderer.send(CHANNEL, { kind: "recording", on });
  },
});
