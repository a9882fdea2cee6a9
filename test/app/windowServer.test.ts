// The loopback server of the fallback shell: who gets in, and that nobody else does.
import { connect } from "node:net";
import { mkdtemp, rm, symlink, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { WebSocket } from "ws";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { startFallback, type FallbackProgram } from "../../main/app/fallback/openInBrowser.ts";
import { testTools } from "../support/tools.ts";
import { seededRandom } from "../../main/demo/seededRandom.ts";
import { fakeDesk } from "./fakeDesk.ts";

const fake = fakeDesk((name) => (name === "about" ? { version: "1" } : null));
let program: FallbackProgram;
let folder = "";
let port = 0;
let cookie = "";
let lent = "";

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), "followcar-server-"));
  await writeFile(join(folder, "clip.mp4"), "footage of a person");
  program = await startFallback(
    {
      shell: "chromium",
      tools: testTools(),
      toolWords: () => Promise.resolve([]),
      printPage: null,
      drops: null,
      given: [],
      makeDesk: fake.makeDesk,
      openFolder: () => Promise.resolve(),
    },
    50,
  );
  port = Number(new URL(program.server.origin).port);
  lent = fake.surroundings().shelf.lendFile("media", join(folder, "clip.mp4"));
});
afterAll(async () => {
  await program.close();
  await rm(folder, { recursive: true, force: true });
});

interface Answer {
  readonly status: number;
  readonly text: string;
}

/** Sends bytes as they are, so that nothing of a client library tidies them; gives the status and all that came back. */
function raw(text: string): Promise<Answer> {
  return new Promise((done) => {
    const socket = connect(port, "127.0.0.1");
    let answer = "";
    const finish = () => {
      socket.destroy();
      done({ status: Number(/^HTTP\/1\.1 (\d+)/.exec(answer)?.[1] ?? 0), text: answer });
    };
    socket.setTimeout(3000, finish);
    socket.on("data", (bytes) => {
      answer += bytes.toString("latin1");
      // An upgraded connection stays open: its first line is all that is wanted.
      if (answer.startsWith("HTTP/1.1 101")) finish();
    });
    socket.on("error", finish);
    socket.on("close", finish);
    socket.write(text, "latin1");
  });
}

function request(lines: readonly string[], body = ""): string {
  return `${[...lines, "Connection: close"].join("\r\n")}\r\n\r\n${body}`;
}

describe("opening", () => {
  it("the ticket is swapped once for a cookie that no script and no other site can use", async () => {
    const url = new URL(program.server.openUrl);
    const first = await fetch(url, { redirect: "manual" });
    expect(first.status).toBe(200);
    // Not a redirect: the cookie would not go with one that a page of another site began.
    expect(await first.text()).toContain('content="0;url=/"');
    const set = first.headers.get("set-cookie")!;
    expect(set).toMatch(/HttpOnly/);
    expect(set).toMatch(/SameSite=Strict/);
    expect(set).not.toMatch(/Domain/i);
    cookie = set.split(";")[0]!;
    expect((await fetch(url, { redirect: "manual" })).status).toBe(401);
  });

  it("with the cookie: the page, under a policy without inline script, eval or foreign address, with Trusted Types", async () => {
    const page = await fetch(`${program.server.origin}/`, { headers: { cookie } });
    expect(page.status).toBe(200);
    const policy = page.headers.get("content-security-policy")!;
    expect(policy).toContain("default-src 'none'");
    expect(policy).toContain("require-trusted-types-for 'script'");
    expect(policy).not.toMatch(/unsafe|\*|https?:/);
    expect(page.headers.get("x-content-type-options")).toBe("nosniff");
  });

  it("with the cookie: footage by ranges", async () => {
    const part = await fetch(program.server.origin + lent, { headers: { cookie, range: "bytes=0-6" } });
    expect([part.status, await part.text(), part.headers.get("content-range")]).toEqual([
      206,
      "footage",
      "bytes 0-6/19",
    ]);
  });

  it("with the cookie and our origin: the socket, and a call over it", async () => {
    const socket = new WebSocket(`ws://127.0.0.1:${port}/desk`, { headers: { cookie }, origin: program.server.origin });
    const answer = await new Promise<string>((resolve, reject) => {
      socket.on("open", () => socket.send(JSON.stringify({ t: "q", i: "1", m: "about", a: [] })));
      socket.on("message", (data) => resolve((data as Buffer).toString()));
      socket.on("error", reject);
    });
    expect(JSON.parse(answer)).toEqual({ t: "s", i: "1", r: { version: "1" } });
    socket.close();
    // The last window is gone: the program may end.
    await program.left;
  });
});

/** `npm run torture` asks for 10,000. */
const HOSTILE = Number(process.env.FOLLOWCAR_HOSTILE ?? 1000);

describe(`${HOSTILE} hostile requests`, () => {
  /** Each kind makes one request that must not get in; the cookie and origin are right except for what the kind is about. */
  const kinds: Readonly<Record<string, (random: () => number) => string>> = {
    "no cookie": () => request([`GET ${pick(["/", "/main.js", lent, "/desk"])} HTTP/1.1`, `Host: 127.0.0.1:${port}`]),
    "a wrong secret": (random) =>
      request([
        `GET ${lent} HTTP/1.1`,
        `Host: 127.0.0.1:${port}`,
        `Cookie: ${cookie.split("=")[0]}=${letters(random, 43)}`,
      ]),
    "the secret of another name": () =>
      request([`GET / HTTP/1.1`, `Host: 127.0.0.1:${port}`, `Cookie: followcar=${cookie.split("=")[1]}`]),
    "a foreign host": (random) =>
      request([
        `GET / HTTP/1.1`,
        `Host: ${pick([
          `localhost:${port}`,
          `rides.example:${port}`,
          "127.0.0.1",
          `127.0.0.1:${port + 1}`,
          `[::1]:${port}`,
          `127.0.0.1:${port}.example`,
          letters(random, 9),
        ])}`,
        `Cookie: ${cookie}`,
      ]),
    "two hosts": () =>
      request([`GET / HTTP/1.1`, `Host: 127.0.0.1:${port}`, "Host: rides.example", `Cookie: ${cookie}`]),
    "a foreign origin": (random) =>
      request([
        `GET ${lent} HTTP/1.1`,
        `Host: 127.0.0.1:${port}`,
        `Cookie: ${cookie}`,
        `Origin: ${pick([
          "null",
          "https://rides.example",
          `http://localhost:${port}`,
          `http://127.0.0.1:${port}.example`,
          `https://127.0.0.1:${port}`,
          `http://127.0.0.1:${port + 1}`,
          letters(random, 12),
        ])}`,
      ]),
    "another site": () =>
      request([
        `GET / HTTP/1.1`,
        `Host: 127.0.0.1:${port}`,
        `Cookie: ${cookie}`,
        `Sec-Fetch-Site: ${pick(["cross-site", "same-site", "", "none, cross-site"])}`,
      ]),
    "another method": () =>
      request([
        `${pick(["POST", "PUT", "DELETE", "OPTIONS", "PATCH", "TRACE", "CONNECT"])} ${lent} HTTP/1.1`,
        `Host: 127.0.0.1:${port}`,
        `Cookie: ${cookie}`,
      ]),
    "a guessed ticket": (random) =>
      request([
        `GET /open/${pick([letters(random, 43), "used", "", "../main.js", "%00"])} HTTP/1.1`,
        `Host: 127.0.0.1:${port}`,
      ]),
    "a way out of the folder": (random) =>
      request([
        `GET ${pick([
          "/../package.json",
          "/..%2f..%2fpackage.json",
          "/%2e%2e/%2e%2e/etc/passwd",
          `${lent}/../../../etc/passwd`,
          "/media//etc/passwd",
          "/strip/..%5c..%5c",
          "/main.js%00.html",
          "//etc/passwd",
          "/media/%zz",
          `/media/${letters(random, 32)}`,
          `${lent}/clip.mp4`,
          "/main.js?x=/../../",
          `/data/${"0".repeat(32)}`,
        ])} HTTP/1.1`,
        `Host: 127.0.0.1:${port}`,
        `Cookie: ${cookie}`,
      ]),
    "a whole address as target": () =>
      request([
        `GET ${pick(["http://rides.example/", "file:///etc/passwd", "*", "main.js"])} HTTP/1.1`,
        `Host: 127.0.0.1:${port}`,
        `Cookie: ${cookie}`,
      ]),
    "an oversize target": (random) =>
      request([
        `GET /${letters(random, 2100 + Math.floor(random() * 10_000))} HTTP/1.1`,
        `Host: 127.0.0.1:${port}`,
        `Cookie: ${cookie}`,
      ]),
    "oversize headers": (random) =>
      request([`GET / HTTP/1.1`, `Host: 127.0.0.1:${port}`, `Cookie: ${cookie}`, `X-Long: ${letters(random, 40_000)}`]),
    "a body": () =>
      request([`GET / HTTP/1.1`, `Host: 127.0.0.1:${port}`, `Cookie: ${cookie}`, "Content-Length: 5"], "12345"),
    "two framings of a body": () =>
      request(
        [
          `GET / HTTP/1.1`,
          `Host: 127.0.0.1:${port}`,
          `Cookie: ${cookie}`,
          "Content-Length: 6",
          "Transfer-Encoding: chunked",
        ],
        "0\r\n\r\nG",
      ),
    "a damaged request": (random) => `${letters(random, 5)} ${letters(random, 20)}\r\n${letters(random, 30)}\r\n\r\n`,
    "a socket without cookie": () => request(upgrade("/desk", [`Origin: http://127.0.0.1:${port}`])),
    "a socket without origin": () => request(upgrade("/desk", [`Cookie: ${cookie}`])),
    "a socket of a foreign origin": () =>
      request(
        upgrade("/desk", [
          `Cookie: ${cookie}`,
          `Origin: ${pick(["https://rides.example", "null", `http://localhost:${port}`, `https://127.0.0.1:${port}`])}`,
        ]),
      ),
    "a socket elsewhere": () =>
      request(
        upgrade(pick(["/", lent, "/desk/", "/desk?x", "//desk"]), [
          `Cookie: ${cookie}`,
          `Origin: http://127.0.0.1:${port}`,
        ]),
      ),
  };
  const seeded = seededRandom(20_261_125);
  const random = () => seeded.uniform();
  const pick = <T>(choices: readonly T[]): T => choices[Math.floor(random() * choices.length)]!;
  const letters = (uniform: () => number, count: number): string =>
    Array.from(
      { length: count },
      () => "abcdefghijklmnopqrstuvwxyzABCDEF0123456789_-"[Math.floor(uniform() * 44)],
    ).join("");
  const upgrade = (path: string, more: readonly string[]) => [
    `GET ${path} HTTP/1.1`,
    `Host: 127.0.0.1:${port}`,
    "Upgrade: websocket",
    "Sec-WebSocket-Version: 13",
    "Sec-WebSocket-Key: dGhlIHNhbXBsZSBub25jZQ==",
    ...more,
  ];

  it("0 are let in", { timeout: 300_000 }, async () => {
    const before = fake.asked.length;
    const names = Object.keys(kinds);
    const letIn: string[] = [];
    const seen = new Map<string, number>();
    for (let n = 0; n < HOSTILE; n += 20) {
      await Promise.all(
        Array.from({ length: 20 }, async (_, k) => {
          const name = names[(n + k) % names.length]!;
          // `Connection: close` on an upgrade would make it a plain request.
          const text = kinds[name]!(random).replace(
            /Connection: close(?=\r\n\r\n$)/,
            name.startsWith("a socket") ? "Connection: Upgrade" : "Connection: close",
          );
          const { status, text: answer } = await raw(text);
          // 0: the connection was closed without an answer.
          if ((status !== 0 && status < 400) || /footage|<!doctype/.test(answer))
            letIn.push(`${name}: ${status} for ${text.split("\r\n")[0]!.slice(0, 80)}`);
          seen.set(`${name} ${status}`, (seen.get(`${name} ${status}`) ?? 0) + 1);
        }),
      );
    }
    expect(letIn).toEqual([]);
    expect(fake.asked.length).toBe(before);
    expect([...seen.values()].reduce((sum, count) => sum + count, 0)).toBe(HOSTILE);
  });

  it("the same request is let in when nothing is wrong with it, so the refusals above are not for another reason", async () => {
    const plain = await raw(
      request([
        `GET ${lent} HTTP/1.1`,
        `Host: 127.0.0.1:${port}`,
        `Cookie: ${cookie}`,
        `Origin: http://127.0.0.1:${port}`,
        "Sec-Fetch-Site: same-origin",
      ]),
    );
    expect([plain.status, plain.text.endsWith("footage of a person")]).toEqual([200, true]);
    const socket = await raw(
      [
        ...upgrade("/desk", [`Cookie: ${cookie}`, `Origin: http://127.0.0.1:${port}`]),
        "Connection: Upgrade",
        "",
        "",
      ].join("\r\n"),
    );
    expect(socket.status).toBe(101);
  });

  it("ranges of every odd form give bytes of the file, or none", async () => {
    const whole = "footage of a person";
    const asked = async (range: string): Promise<Answer> =>
      raw(request([`GET ${lent} HTTP/1.1`, `Host: 127.0.0.1:${port}`, `Cookie: ${cookie}`, `Range: ${range}`]));
    for (const range of [
      "bytes=0-999999999999999999999",
      "bytes=18-",
      "bytes=-5",
      "bytes=-999999",
      "bytes=99-",
      "bytes=5-2",
      "bytes=0-0,1-1,2-2",
      `bytes=${Array.from({ length: 400 }, () => "0-18").join(",")}`,
      "bytes=1e1-",
      "bytes=NaN-NaN",
      "lines=0-1",
      "bytes=",
      "bytes=0x0-0x5",
    ]) {
      const { status, text } = await asked(range);
      expect([200, 206, 400, 416], range).toContain(status);
      const body = text.split("\r\n\r\n").slice(1).join("\r\n\r\n");
      if (status < 300) expect(whole, range).toContain(body);
      expect(body.length, range).toBeLessThanOrEqual(status < 300 ? whole.length : 500);
    }
  });

  it("a link put in place of a lent file, out of the debrief's folder, is not followed by who asks without the cookie", async () => {
    await writeFile(join(folder, "secret.txt"), "somebody's letters");
    await symlink(join(folder, "secret.txt"), join(folder, "link.mp4"));
    const answers = await Promise.all(
      ["/media/link.mp4", `${lent}/../link.mp4`, "/link.mp4", `/media/${encodeURIComponent("../link.mp4")}`].map(
        (path) => raw(request([`GET ${path} HTTP/1.1`, `Host: 127.0.0.1:${port}`, `Cookie: ${cookie}`])),
      ),
    );
    for (const { status, text } of answers) {
      expect(status === 0 || status >= 400).toBe(true);
      expect(text).not.toContain("letters");
    }
  });

  it("2,000 connections that say nothing do not keep the window out", { timeout: 60_000 }, async () => {
    const idle = Array.from({ length: 2000 }, () => connect(port, "127.0.0.1").on("error", () => undefined));
    try {
      await Promise.all(idle.slice(0, 500).map((socket) => new Promise((open) => socket.once("connect", open))));
      const beganMs = performance.now();
      const plain = await raw(request([`GET ${lent} HTTP/1.1`, `Host: 127.0.0.1:${port}`, `Cookie: ${cookie}`]));
      expect(plain.status).toBe(200);
      expect(performance.now() - beganMs).toBeLessThan(5000);
    } finally {
      for (const socket of idle) socket.destroy();
    }
  });

  it("a message above the limit ends the socket and reaches no handler", async () => {
    const socket = new WebSocket(`ws://127.0.0.1:${port}/desk`, { headers: { cookie }, origin: program.server.origin });
    await new Promise((resolve) => socket.on("open", resolve));
    const before = fake.asked.length;
    const closed = new Promise<number>((resolve) => socket.on("close", resolve));
    socket.on("error", () => undefined);
    socket.send(Buffer.alloc(29 * 1024 * 1024, 32));
    // 1009, RFC 6455, 7.4.1: the message is too big.
    expect(await closed).toBe(1009);
    expect(fake.asked.length).toBe(before);
  });
});
