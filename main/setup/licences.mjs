// Licences of the npm packages, by npm's own data (package-lock.json) and the texts that the packages bring. Bundling
// writes dist/packages.txt: every package that goes with the program, which installers pack and About shows.
import { existsSync, readFileSync, readdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";

/** Licences that any package may have (names of the SPDX list); a choice of several needs one of them. */
const ALLOWED = new Set([
  "0BSD",
  "Apache-2.0",
  "BSD-2-Clause",
  "BSD-3-Clause",
  "BlueOak-1.0.0",
  "CC0-1.0",
  "ISC",
  "MIT",
  "OFL-1.1",
  "Python-2.0",
  "WTFPL",
]);

/** Others, and why a package may have them all the same. @type {readonly (readonly [RegExp, string, string])[]} */
const EXCEPTIONS = [
  [/^ffmpeg-static$/, "GPL-3.0-or-later", "a program of its own that is started, not linked"],
  [/^@ffprobe-installer\//, "GPL-3.0", "a program of its own that is started, not linked"],
  [/^@ffprobe-installer\//, "LGPL-2.1", "finds that program; used unchanged, and may be exchanged"],
  [/^(axe-core|@axe-core\/.*|lightningcss.*)$/, "MPL-2.0", "runs in development only; a part of no installer"],
];

/** Licences that old packages name in a form of their own, looked up in their `licenses` by hand. */
const BY_HAND = { "async@0.2.10": "MIT", "parse-cache-control@1.0.1": "BSD-3-Clause" };

/**
 * @typedef {{ name: string, version: string, licence: string, path: string, shipped: boolean }} Package
 * @param {{ packages: Record<string, { version?: string, license?: string, dev?: boolean, devOptional?: boolean }> }} lock
 * @returns {readonly Package[]} each package of the lock file once, by name
 */
export function packagesOf(lock) {
  const found = new Map();
  for (const [path, { version = "", license, dev, devOptional }] of Object.entries(lock.packages)) {
    if (path === "") continue;
    const name = path.slice(path.lastIndexOf("node_modules/") + "node_modules/".length);
    const key = `${name}@${version}`;
    const shipped = dev !== true && devOptional !== true;
    if (found.get(key)?.shipped) continue;
    found.set(key, { name, version, licence: license ?? BY_HAND[key] ?? "", path, shipped });
  }
  return [...found.values()].sort((a, b) => (a.name < b.name ? -1 : a.name > b.name ? 1 : 0));
}

/** One sentence for each package whose licence is not allowed. @param {readonly Package[]} packages */
export function licenceFaults(packages) {
  return packages.flatMap(({ name, version, licence, shipped }) => {
    const choices = licence.replace(/[()]/g, "").split(" OR ");
    const excepted = EXCEPTIONS.some(
      ([names, one, why]) => names.test(name) && one === licence && !(shipped && /development only/.test(why)),
    );
    if (excepted || choices.some((one) => ALLOWED.has(one))) return [];
    return [`${name} ${version}: ${licence || "no licence named"} is not among what main/setup/licences.mjs allows`];
  });
}

const TEXT_FILE = /^(licen[cs]e|copying|notice|unlicense)/i;

/** The licence's text as a package brings it: in a file, or under that heading of its README; null where it brings none. */
function ownText(folder) {
  if (!existsSync(folder)) return null;
  const names = readdirSync(folder);
  const files = names.filter((name) => TEXT_FILE.test(name)).sort();
  if (files.length > 0) return files.map((name) => readFileSync(join(folder, name), "utf8").trim()).join("\n\n");
  const readme = names.find((name) => /^readme/i.test(name));
  if (readme === undefined) return null;
  const [, text] = /^#*\s*Licen[cs]e\s*\n[-=]*\s*([\s\S]+)/im.exec(readFileSync(join(folder, readme), "utf8")) ?? [];
  return text !== undefined && text.length > 500 ? text.trim() : null;
}

/** The text of a licence for a package that brings none. @returns {string | null} */
function commonText(root, licence) {
  if (licence.startsWith("GPL-3.0")) return ownText(join(root, "node_modules", "ffmpeg-static"));
  const file = join(root, "assets", "licences", `${licence}.txt`);
  return existsSync(file) ? readFileSync(file, "utf8").trim() : null;
}

/** Who made a package, as it says. */
function makerOf(root, { path }) {
  const file = join(root, path, "package.json");
  if (!existsSync(file)) return "";
  const { author } = JSON.parse(readFileSync(file, "utf8"));
  return typeof author === "string" ? author : (author?.name ?? "");
}

/** What a native package says is linked into it (its CycloneDX list), in one line. */
function linkedInto(root, { path }) {
  const file = join(root, path, "sbom.cdx.json");
  if (!existsSync(file)) return "";
  const names = JSON.parse(readFileSync(file, "utf8")).components.flatMap(({ type, name, version, licenses }) => {
    const licence = (licenses ?? []).map((one) => one.expression ?? one.license?.id ?? one.license?.name).join(", ");
    return type === "file" ? [] : [`${name} ${version ?? ""}${licence === "" ? "" : ` (${licence})`}`];
  });
  return `Linked into it: ${names.join("; ")}.\n`;
}

const RULE = `\n${"-".repeat(80)}\n`;

/**
 * The notice of all packages that go with the program. Packages of one text stand together over it; one for another
 * system, which is not installed here, stands with the package that chooses between them.
 * @param {string} root project folder
 */
export function packageNotices(root) {
  const lock = JSON.parse(readFileSync(join(root, "package-lock.json"), "utf8"));
  const shipped = packagesOf(lock).filter((one) => one.shipped);
  /** @type {Map<string, Package[]>} */
  const byText = new Map();
  for (const one of shipped) {
    const chooser = shipped.find(({ name }) => one.name.startsWith(`${name}-`));
    const text =
      ownText(join(root, one.path)) ??
      (chooser && ownText(join(root, chooser.path))) ??
      commonText(root, one.licence) ??
      "";
    byText.set(text, [...(byText.get(text) ?? []), one]);
  }
  const heads = (packages) =>
    packages
      .map((one) => {
        const maker = makerOf(root, one);
        return `${one.name} ${one.version} (${one.licence})${maker === "" ? "" : `, ${maker}`}\n${linkedInto(root, one)}`;
      })
      .join("");
  return [
    "Followcar comes with these packages. Each keeps its own licence, which follows its name.\n" +
      "ffmpeg and ffprobe are programs of their own; their sources: https://ffmpeg.org and the addresses in their packages.\n" +
      "Electron and Chromium, where the program runs in them: LICENSE.electron.txt and LICENSES.chromium.html beside it.\n",
    ...[...byText].map(([text, packages]) => `${heads(packages)}\n${text}\n`),
    `The figures' face, Barlow Semi Condensed\n\n${readFileSync(join(root, "assets", "fonts", "OFL.txt"), "utf8").trim()}\n`,
  ].join(RULE);
}

/** Name of the notice in dist/. */
const NOTICES_FILE = "packages.txt";

/** Writes the notice to where installers and About look for it. @param {string} root */
export function writePackageNotices(root) {
  writeFileSync(join(root, "dist", NOTICES_FILE), packageNotices(root));
}
