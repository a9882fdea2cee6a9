import { createReadStream } from "node:fs";
import { readdir, readFile, stat } from "node:fs/promises";
import { extname, join } from "node:path";
import { Readable } from "node:stream";
import rangeParser from "range-parser";
import { commonHeaders, contentPolicy, PAGE_POLICY } from "./contentPolicy.ts";
import type { StockedShelf } from "./shelf.ts";

/** Answers every request of the window, in both shells. */
export type Web = (request: Request) => Promise<Response>;

const PIECE_BYTES = 256 * 1024;

const TYPES: Readonly<Record<string, string>> = {
  ".html": "text/html; charset=utf-8",
  ".js": "text/javascript; charset=utf-8",
  ".css": "text/css; charset=utf-8",
  ".woff2": "font/woff2",
  ".svg": "image/svg+xml",
  ".png": "image/png",
  ".jpg": "image/jpeg",
  ".wav": "audio/wav",
  ".webm": "video/webm",
  ".mkv": "video/x-matroska",
};

/**
 * The one handler for pages, footage and big arrays. `windowFolder` holds the built window; its files are listed once,
 * so a request can name no other. `socket` is the address of the web socket for the page's policy, null where the
 * shell has none.
 */
export async function makeWeb(windowFolder: string, shelf: StockedShelf, socket: string | null): Promise<Web> {
  const built = new Set(
    (await readdir(windowFolder, { withFileTypes: true })).filter((entry) => entry.isFile()).map((entry) => entry.name),
  );
  const headers = commonHeaders(contentPolicy(socket));

  const refuse = (status: number, more: Readonly<Record<string, string>> = {}): Response =>
    new Response(null, { status, headers: { ...headers, ...more } });

  const whole = (
    request: Request,
    body: Uint8Array<ArrayBuffer>,
    type: string,
    more: Readonly<Record<string, string>> = {},
  ): Response =>
    new Response(request.method === "HEAD" ? null : body, {
      headers: { ...headers, "Content-Type": type, "Content-Length": String(body.byteLength), ...more },
    });

  return async (request) => {
    if (request.method !== "GET" && request.method !== "HEAD") return refuse(405, { Allow: "GET, HEAD" });
    const { pathname, search } = new URL(request.url);
    if (search !== "") return refuse(404);
    const name = pathname === "/" ? "index.html" : pathname.slice(1);
    if (built.has(name))
      return whole(
        request,
        await readFile(join(windowFolder, name)),
        TYPES[extname(name)] ?? "application/octet-stream",
      );
    const lent = shelf.find(pathname);
    if (lent === null) return refuse(404);
    switch (lent.kind) {
      case "file":
        return fileResponse(request, lent.path, headers, refuse);
      case "page":
        return whole(request, new TextEncoder().encode(lent.html), TYPES[".html"]!, {
          "Content-Security-Policy": PAGE_POLICY,
        });
      case "bytes": {
        const bytes = await lent.make();
        return bytes === null ? refuse(404) : whole(request, bytes, "application/octet-stream");
      }
    }
  };
}

type Refuse = (status: number, more?: Readonly<Record<string, string>>) => Response;

async function fileResponse(
  request: Request,
  path: string,
  headers: Readonly<Record<string, string>>,
  refuse: Refuse,
): Promise<Response> {
  const file = await stat(path).catch(() => null);
  if (file === null || !file.isFile()) return refuse(404);
  const described = {
    ...headers,
    "Content-Type": TYPES[extname(path).toLowerCase()] ?? "video/mp4",
    "Accept-Ranges": "bytes",
  };
  const range = request.headers.get("range");
  const ranges = range === null ? null : rangeParser(file.size, range);
  if (ranges === -1) return refuse(416, { "Content-Range": `bytes */${file.size}` });
  // Several ranges, another unit or a damaged header: the whole file is a fitting answer (RFC 9110, 14.2).
  const one = Array.isArray(ranges) && ranges.type === "bytes" && ranges.length === 1 ? ranges[0] : null;
  const start = one?.start ?? 0;
  const end = one?.end ?? file.size - 1;
  const lengths = {
    "Content-Length": String(Math.max(0, end - start + 1)),
    ...(one === null ? {} : { "Content-Range": `bytes ${start}-${end}/${file.size}` }),
  };
  const body =
    request.method === "HEAD" || file.size === 0
      ? null
      : Readable.toWeb(createReadStream(path, { start, end, highWaterMark: PIECE_BYTES }));
  return new Response(body as ReadableStream | null, {
    status: one === null ? 200 : 206,
    headers: { ...described, ...lengths },
  });
}
