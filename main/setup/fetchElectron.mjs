// Electron's binary, which its package leaves to a download of its own: fetched once for each lock file, bounded in time,
// checked against the checksums that came with the package (its install.js does that). Plain JavaScript without a
// dependency, as all of set-up.
import { existsSync, readFileSync, rmSync } from "node:fs";
import { join } from "node:path";

/** Electron's own tools (its install.js loads an ES module by require) ask for this Node. */
export const LEAST_NODE_FOR_ELECTRON = /** @type {const} */ ([22, 12]);
/** From here on Node's fetch can go by way of a proxy that the environment names: NODE_USE_ENV_PROXY, Node's documentation. */
const LEAST_NODE_FOR_PROXY = /** @type {const} */ ([22, 21]);
const LIMIT_MS = 300_000;

/** @param {string} version such as 20.19.2 @param {readonly [number, number]} least */
export function nodeIsAtLeast(version, [leastMajor, leastMinor]) {
  const [major = 0, minor = 0] = version.split(".").map(Number);
  return major > leastMajor || (major === leastMajor && minor >= leastMinor);
}

/** True where the package's folder holds the whole binary: install.js names it in path.txt as its last act. @param {string} folder */
export function electronIsThere(folder) {
  try {
    return existsSync(join(folder, "dist", readFileSync(join(folder, "path.txt"), "utf8").trim()));
  } catch {
    return false;
  }
}

/** What a failed download came of, by the codes that Node and the system give. @type {readonly [RegExp, string][]} */
const CAUSES = [
  [/\bENOSPC\b|\bEDQUOT\b/, "the disk is full"],
  [/\b(EROFS|EACCES|EPERM)\b/, "this folder can't be written"],
  [/\b(ENOTFOUND|EAI_AGAIN|ECONNREFUSED|ENETUNREACH|EHOSTUNREACH|ETIMEDOUT|UND_ERR_CONNECT_TIMEOUT)\b/, "no network"],
  [/\b(ECONNRESET|EPIPE|UND_ERR_SOCKET|UND_ERR_BODY_TIMEOUT)\b/, "the network broke off in the middle"],
  [/checksum/i, "what came is not what its checksum promises"],
];

/**
 * Brings the binary, or says in one sentence why not; never throws and never leaves half of it.
 *
 * @param {string} root project folder
 * @param {(program: string, args: readonly string[], limitMs: number, env: Record<string, string>) =>
 *   { ok: boolean, timedOut: boolean, output: string }} run
 * @param {{ node: string, env: NodeJS.ProcessEnv, limitMs?: number }} machine `node` is Node's version
 * @returns {string | null} null when it is there
 */
export function fetchElectron(root, run, { node, env, limitMs = LIMIT_MS }) {
  const folder = join(root, "node_modules", "electron");
  if (!existsSync(join(folder, "install.js"))) return "the package electron is not installed";
  if (!nodeIsAtLeast(node, LEAST_NODE_FOR_ELECTRON))
    return `Electron's own tools ask for Node ${LEAST_NODE_FOR_ELECTRON.join(".")} or newer (this is ${node})`;
  const proxy = env.HTTPS_PROXY ?? env.https_proxy;
  const { ok, timedOut, output } = run(
    process.execPath,
    [join("node_modules", "electron", "install.js")],
    limitMs,
    proxy ? { NODE_USE_ENV_PROXY: "1" } : {},
  );
  if (ok && electronIsThere(folder)) return null;
  try {
    // What was cut off in the middle would be taken for whole by nobody, but it would lie there.
    rmSync(join(folder, "dist"), { recursive: true, force: true });
    rmSync(join(folder, "path.txt"), { force: true });
  } catch {
    // A folder that can't be written holds nothing new either.
  }
  if (timedOut) return `the download took longer than ${Math.round(limitMs / 60_000)} min`;
  const cause = CAUSES.find(([sign]) => sign.test(output))?.[1] ?? "the download failed";
  const viaProxy = proxy && !nodeIsAtLeast(node, LEAST_NODE_FOR_PROXY);
  return viaProxy
    ? `${cause}; HTTPS_PROXY is set, and Node goes by way of a proxy from ${LEAST_NODE_FOR_PROXY.join(".")} on`
    : cause;
}
