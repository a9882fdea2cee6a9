// Bundles the TypeScript sources into dist/, since Node 20 runs no TypeScript. Nothing is done when nothing changed.
import { createHash } from "node:crypto";
import {
  copyFileSync,
  existsSync,
  mkdirSync,
  readFileSync,
  readdirSync,
  rmSync,
  statSync,
  writeFileSync,
} from "node:fs";
import { basename, join } from "node:path";
import { writePackageNotices } from "./licences.mjs";

/** @param {string} folder @returns {string[]} every file below, sorted */
function filesBelow(folder) {
  if (!existsSync(folder)) return [];
  return readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => join(entry.parentPath ?? entry.path, entry.name))
    .sort();
}

/** @param {readonly string[]} files */
function stampOf(files) {
  const hash = createHash("sha256").update(process.version);
  for (const file of files) {
    const { size, mtimeMs } = statSync(file);
    hash.update(`${file}\0${size}\0${mtimeMs}\n`);
  }
  return hash.digest("hex");
}

/**
 * Names what a film's picture and sound are made by: the same exactly while no such source, font or package has changed.
 * @param {string} root project folder @returns {string}
 */
export function filmRecipe(root) {
  const hash = createHash("sha256");
  const folders = [
    "overlay",
    join("main", "render"),
    join("main", "host"),
    join("main", "maths"),
    join("assets", "fonts"),
  ];
  for (const file of [...folders.flatMap((folder) => filesBelow(join(root, folder))), join(root, "package-lock.json")])
    hash
      .update(`${file.slice(root.length)}\0`)
      .update(readFileSync(file))
      .update("\0");
  return hash.digest("hex").slice(0, 16);
}

/** A package of many small modules: finding each on disk at every start costs more than it does. */
const INLINED = new Set(["zod"]);

/** @type {import("esbuild").Plugin} */
const packagesStayOutside = {
  name: "packages-stay-outside",
  setup({ onResolve }) {
    onResolve({ filter: /^[^./]/ }, ({ path, kind }) => {
      if (kind === "entry-point" || INLINED.has(path.split("/")[0])) return undefined;
      return { path, external: true };
    });
  },
};

/**
 * What runs as a process or a worker of its own gets a bundle of its own: the command line, and every `*Child.edge.ts`
 * and `*Worker.edge.ts`, each as dist/<name>.mjs.
 * @param {string} root project folder
 * @param {{ watched?: boolean }} options `watched`: the window's page loads anew when its bundle has changed
 * @returns {Promise<boolean>} false when the bundles were up to date
 */
export async function bundle(root, { watched = false } = {}) {
  const sources = ["main", "overlay", "renderer"].flatMap((folder) => filesBelow(join(root, folder)));
  const stampPath = join(root, "dist", "bundle.stamp");
  const fonts = filesBelow(join(root, "assets", "fonts"));
  const stamp = stampOf([...sources, ...fonts, join(root, "package-lock.json")]) + (watched ? " watched" : "");
  if (existsSync(stampPath) && readFileSync(stampPath, "utf8") === stamp) return false;

  const { build } = await import("esbuild");
  const own = sources.filter((file) => /(Child|Worker)\.edge\.ts$/.test(file));
  const entryPoints = Object.fromEntries(own.map((file) => [basename(file).replace(/\.edge\.ts$/, ""), file]));
  entryPoints.followcar = join(root, "main", "cli", "followcar.ts");
  const electronMain = join(root, "main", "app", "electron", "main.ts");
  if (existsSync(electronMain)) entryPoints.electronMain = electronMain;
  mkdirSync(join(root, "dist"), { recursive: true });
  for (const name of readdirSync(join(root, "dist")))
    if (/^chunk-.*\.mjs(\.map)?$/.test(name)) rmSync(join(root, "dist", name));
  await build({
    entryPoints,
    outdir: join(root, "dist"),
    outExtension: { ".js": ".mjs" },
    bundle: true,
    splitting: true,
    chunkNames: "chunk-[hash]",
    platform: "node",
    target: "node20",
    format: "esm",
    plugins: [packagesStayOutside],
    define: { FOLLOWCAR_FILM_RECIPE: JSON.stringify(filmRecipe(root)) },
    sourcemap: true,
    logLevel: "error",
  });
  await bundleWindow(root, build, watched ? stamp : null);
  writePackageNotices(root);
  writeFileSync(stampPath, stamp);
  return true;
}

/** Says which bundle the window's folder holds, while it is watched. */
const MARK_FILE = "bundle.txt";

/** In a watched window's script: its page loads anew once another bundle is there. */
const LOAD_ANEW = `{
  let first = null;
  setInterval(async () => {
    const mark = await fetch("/${MARK_FILE}").then((answer) => (answer.ok ? answer.text() : null)).catch(() => null);
    if (first !== null && mark !== null && mark !== first) location.reload();
    first ??= mark;
  }, 500);
}`;

/**
 * The window's page, and the two files that Electron runs. A sandboxed preload must be one CommonJS file.
 * @param {string} root @param {typeof import("esbuild").build} build
 * @param {string | null} mark of a bundle that is watched
 */
async function bundleWindow(root, build, mark) {
  const page = join(root, "renderer", "main.tsx");
  if (existsSync(page)) {
    await build({
      entryPoints: { main: page },
      outdir: join(root, "dist", "window"),
      bundle: true,
      platform: "browser",
      target: "chrome120",
      format: "esm",
      jsx: "automatic",
      minify: true,
      define: { "process.env.NODE_ENV": '"production"' },
      loader: { ".woff2": "file" },
      assetNames: "[name]",
      banner: mark === null ? {} : { js: LOAD_ANEW },
      logLevel: "error",
    });
    for (const name of ["index.html", "icon.svg"])
      copyFileSync(join(root, "renderer", name), join(root, "dist", "window", name));
    const markPath = join(root, "dist", "window", MARK_FILE);
    if (mark === null) rmSync(markPath, { force: true });
    else writeFileSync(markPath, mark);
  }
  const shared = {
    bundle: true,
    platform: /** @type {const} */ ("node"),
    target: "node20",
    sourcemap: true,
    logLevel: /** @type {const} */ ("error"),
  };
  const preload = join(root, "main", "app", "electron", "preload.ts");
  if (existsSync(preload)) {
    await build({
      ...shared,
      entryPoints: [preload],
      outfile: join(root, "dist", "preload.cjs"),
      format: "cjs",
      external: ["electron"],
    });
  }
}
