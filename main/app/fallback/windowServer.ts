import { getRequestListener } from "@hono/node-server";
import { createServer, type IncomingMessage } from "node:http";
import type { AddressInfo, Socket } from "node:net";
import { WebSocketServer, type WebSocket } from "ws";
import type { WindowChannel } from "../rpc/serveWindow.ts";
import type { Web } from "../web/makeWeb.ts";
import { Gatekeeper, type Knock } from "./gatekeeper.ts";

/** Longest message of the window, bytes: a spoken comment of ten minutes. */
const LONGEST_MESSAGE = 28 * 1024 * 1024;

/** Leads on from the ticket by itself: the cookie goes only with what our own pages ask for, which a redirect from the opening page is not. */
const LEAD_ON =
  '<!doctype html><meta charset="utf-8"><title>Followcar</title><meta http-equiv="refresh" content="0;url=/">';

/** The window over loopback. */
export interface WindowServer {
  /** Opens the window once; holds a ticket, so it stands in no program's arguments. */
  readonly openUrl: string;
  readonly origin: string;
  /** Windows connected now. */
  readonly connected: number;
  close(): Promise<void>;
}

/** What the server needs to know of the program. */
export interface WindowServerParts {
  /** Made once the origin is known, since the page's policy names the socket. */
  readonly makeWeb: (socket: string) => Promise<Web>;
  /** A window has connected; the function given back is called when it is gone. */
  readonly onWindow: (channel: WindowChannel) => () => void;
  /** The window's one-time address was used. */
  readonly onOpened: () => void;
  /** Somebody came with the one-time address after it was used, and was refused. */
  readonly onSecond: () => void;
}

/** Listens on 127.0.0.1, on a port that the system picks. */
export async function startWindowServer(parts: WindowServerParts): Promise<WindowServer> {
  const server = createServer({ maxHeaderSize: 16 * 1024, requestTimeout: 10_000, headersTimeout: 10_000 });
  await new Promise<void>((resolve, reject) => {
    server.once("error", reject);
    server.listen({ host: "127.0.0.1", port: 0, exclusive: true }, resolve);
  });
  const { port } = server.address() as AddressInfo;
  const gate = new Gatekeeper(port);
  const listener = getRequestListener(await parts.makeWeb(`ws://127.0.0.1:${port}`), {
    hostname: `127.0.0.1:${port}`,
    overrideGlobalObjects: false,
  });

  server.on("request", (request, response) => {
    const verdict = gate.judge(knockOf(request, false));
    if (verdict.kind === "in") return void listener(request, response);
    response.setHeader("Cache-Control", "no-store");
    response.setHeader("Content-Security-Policy", "default-src 'none'");
    response.setHeader("Referrer-Policy", "no-referrer");
    if (verdict.kind === "out") {
      response.writeHead(verdict.status, { Connection: "close" }).end();
      if (verdict.again) parts.onSecond();
      return;
    }
    response.writeHead(200, { "Content-Type": "text/html; charset=utf-8", "Set-Cookie": verdict.cookie }).end(LEAD_ON);
    parts.onOpened();
  });

  const sockets = new WebSocketServer({ noServer: true, maxPayload: LONGEST_MESSAGE, perMessageDeflate: false });
  server.on("upgrade", (request: IncomingMessage, socket: Socket, head: Buffer) => {
    socket.on("error", () => socket.destroy());
    const verdict = gate.judge(knockOf(request, true));
    if (verdict.kind !== "in")
      return void socket.end(
        `HTTP/1.1 ${verdict.kind === "out" ? verdict.status : 404} Refused\r\nConnection: close\r\nContent-Length: 0\r\n\r\n`,
      );
    sockets.handleUpgrade(request, socket, head, (webSocket) => serve(webSocket, parts.onWindow));
  });

  return {
    openUrl: gate.openUrl,
    origin: gate.origin,
    get connected() {
      return sockets.clients.size;
    },
    async close() {
      for (const client of sockets.clients) client.terminate();
      sockets.close();
      const closed = new Promise<void>((resolve) => server.close(() => resolve()));
      server.closeAllConnections();
      await closed;
    },
  };
}

function knockOf(request: IncomingMessage, upgrade: boolean): Knock {
  return { method: request.method ?? "", target: request.url ?? "", headers: request.headersDistinct, upgrade };
}

function serve(socket: WebSocket, onWindow: WindowServerParts["onWindow"]): void {
  socket.on("error", () => socket.terminate());
  const gone = onWindow({
    post: (text) => {
      if (socket.readyState === socket.OPEN) socket.send(text);
    },
    on: (listener) => {
      socket.on("message", (data, isBinary) => {
        // A window sends text; anything else is not ours.
        if (isBinary) socket.close(1003);
        else listener((data as Buffer).toString("utf8"));
      });
    },
  });
  socket.on("close", gone);
}
