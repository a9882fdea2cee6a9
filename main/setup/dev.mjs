// `npm run dev [-- DEBRIEF]`: the window, with what is changed in the sources. A change to the window alone is bundled
// and its page loads anew, the program with its debrief goes on; a change to the program ends it (the last edits are
// saved) and starts it again. Either shell will do; closing the window ends it.
import { spawn } from "node:child_process";
import { createHash } from "node:crypto";
import { readFileSync, readdirSync, watch } from "node:fs";
import { dirname, join, resolve } from "node:path";
import { fileURLToPath } from "node:url";
import { bundle } from "./bundle.mjs";

/** An editor saves in several steps; the last of them counts, ms. */
const SETTLED_MS = 200;

const root = resolve(dirname(fileURLToPath(import.meta.url)), "..", "..");
const dist = join(root, "dist");

/** @param {string} line */
const say = (line) => void process.stderr.write(`dev: ${line}\n`);

/** What the program runs, as one number: the window's bundle lies in a folder of its own. */
function programMark() {
  const hash = createHash("sha256");
  for (const name of readdirSync(dist).sort())
    if (/\.(mjs|cjs)$/.test(name)) hash.update(name).update(readFileSync(join(dist, name)));
  return hash.digest("hex");
}

/** @type {import("node:child_process").ChildProcess | null} */
let program = null;
let again = false;

function start() {
  again = false;
  const args = ["--enable-source-maps", join(dist, "followcar.mjs"), "open", ...process.argv.slice(2)];
  program = spawn(process.execPath, args, { stdio: "inherit" });
  program.on("exit", (code) => {
    program = null;
    if (again) start();
    else process.exit(code ?? 0);
  });
}

async function build() {
  const before = programMark();
  try {
    if (!(await bundle(root, { watched: true }))) return;
  } catch {
    say("not built; the window stays as it was.");
    return;
  }
  if (before === programMark()) say("the window loads anew.");
  else if (program !== null) {
    say("the program starts anew.");
    again = true;
    program.kill("SIGTERM");
  }
}

/** One build at a time; what changes meanwhile is built after it. @type {Promise<void>} */
let building = Promise.resolve();
/** @type {NodeJS.Timeout | undefined} */
let settling;

await bundle(root, { watched: true });
for (const folder of ["main", "overlay", "renderer"])
  watch(join(root, folder), { recursive: true }, () => {
    clearTimeout(settling);
    settling = setTimeout(() => (building = building.then(build)), SETTLED_MS);
  });
for (const signal of /** @type {const} */ (["SIGINT", "SIGTERM"]))
  process.on(signal, () => {
    if (program === null) process.exit(0);
    again = false;
    program.kill(signal);
  });
start();
