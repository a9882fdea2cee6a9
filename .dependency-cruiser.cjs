// The rules of the rooms (DEVELOPERS.md, "Which way imports point"): for each room what it may import. What no line
// allows is an error, and so is a file outside every room. Each was seen to fail on a planted violation:
// test/rules/planted.test.ts.

/**
 * Paths are those of DEVELOPERS.md. `rooms`: rooms that its files may import beside their own. `packages`: npm packages,
 * `node`: modules of Node. A room with `edge` is pure: only its `*.edge.ts` may import what stands there, and no pure
 * file imports an edge.
 */
const STEPS = {
  "main/ride": {
    rooms: ["main/contract", "main/maths"],
    packages: ["@photostructure/tz-lookup", "fit-file-parser", "saxes"],
    node: ["zlib"],
    edge: { rooms: ["main/host"], node: ["fs/promises", "path"] },
  },
  "main/footage": {
    rooms: ["main/contract", "main/maths"],
    packages: ["zod"],
    edge: { rooms: ["main/host"], node: ["crypto", "fs/promises", "path", "stream/promises"] },
  },
  "main/lineup": {
    rooms: ["main/contract", "main/maths", "overlay"],
    edge: { rooms: ["main/host"], packages: ["@napi-rs/canvas"], node: ["worker_threads"] },
  },
  "main/reading": { rooms: ["main/contract", "main/maths", "overlay"], packages: ["zod"], edge: {} },
  "main/film": { rooms: ["main/contract", "main/maths", "overlay"], edge: {} },
  "main/render": {
    rooms: ["main/contract", "overlay"],
    edge: {
      rooms: ["main/host"],
      packages: ["@napi-rs/canvas"],
      node: ["crypto", "events", "fs", "fs/promises", "os", "path", "stream", "string_decoder", "v8", "vm"],
    },
  },
  "main/handover": {
    rooms: ["main/contract", "main/maths", "main/page", "overlay"],
    packages: ["react", "react-dom"],
    edge: { rooms: ["main/host"], node: ["crypto", "fs/promises", "path", "url"] },
  },
  "main/roads": { rooms: ["main/contract", "main/maths"], packages: [], edge: {} },
  "main/weeks": { rooms: ["main/contract", "main/page", "overlay"], packages: ["react", "react-dom"], edge: {} },
};
const ALL_STEPS = Object.keys(STEPS);

const ROOMS = {
  ...STEPS,
  overlay: { rooms: ["main/contract"], edge: {} },
  "main/maths": { edge: {} },
  "main/contract": { edge: {} },
  "main/page": { rooms: ["main/contract", "overlay"], packages: ["react", "react-dom"], edge: {} },
  "main/debrief": {
    rooms: ["main/contract", "main/maths"],
    packages: ["zod"],
    edge: { rooms: ["main/host"], node: ["crypto", "fs", "fs/promises", "os", "path"] },
  },
  "main/host": {
    rooms: ["main/contract", "main/setup"],
    packages: ["fluent-ffmpeg", "zod"],
    node: ["child_process", "crypto", "fs", "fs/promises", "os", "path", "stream", "url"],
  },
  // Of the demo it knows the files that a newcomer tries the program on; the demo knows nothing of the journey.
  "main/journey": {
    rooms: ["main/contract", "main/debrief", "main/demo", "main/host", "main/maths", "overlay", ...ALL_STEPS],
    node: ["crypto", "fs", "fs/promises", "path", "worker_threads"],
  },
  "main/demo": {
    rooms: ["main/contract", "main/maths", "main/ride", "overlay"],
    edge: {
      rooms: ["main/footage", "main/host", "main/render"],
      packages: ["@napi-rs/canvas"],
      node: ["fs", "fs/promises", "path", "stream"],
    },
  },
  // The doors come by way of journey, which alone knows the order of the steps: no step stands in their lists.
  "main/cli": {
    rooms: [
      "main/app",
      "main/app/launch",
      "main/contract",
      "main/debrief",
      "main/demo",
      "main/host",
      "main/journey",
      "overlay",
    ],
    node: ["fs", "path", "readline/promises", "url", "util"],
    packages: ["leven"],
  },
  "main/app": {
    rooms: ["main/app/launch", "main/contract", "main/debrief", "main/host", "main/journey", "overlay"],
    packages: ["@hono/node-server", "birpc", "range-parser", "ws", "zod"],
    node: ["crypto", "fs", "fs/promises", "http", "net", "os", "path", "stream", "timers/promises"],
  },
  "main/app/electron": {
    rooms: ["main/app", "main/app/launch", "main/contract", "main/host", "overlay"],
    packages: ["electron", "zod"],
    node: ["path", "url"],
  },
  "main/app/launch": {
    rooms: ["main/app", "main/contract", "main/host", "main/setup"],
    node: ["fs", "fs/promises", "path", "url"],
  },
  "main/setup": {
    packages: ["esbuild", "opentype.js"],
    node: ["child_process", "crypto", "fs", "path", "url"],
  },
  renderer: { rooms: ["main/contract", "overlay"], packages: ["birpc", "react", "react-dom"] },
};

/** Folders of the window that are a screen, or stand around one; the others are what screens share. */
const SCREENS = "(athletes|build|frame|gather|handover|lineup|shortcuts|skim|weeks)/";

const escaped = (text) => text.replace(/[.*+?^${}()|[\]\\/]/g, "\\$&");
/** Files of a room; a room within a room is one of its own. @param {string} room @param {string} rest */
const inRoom = (room, rest = "") => {
  const within = Object.keys(ROOMS).filter((other) => other.startsWith(`${room}/`));
  const apart = within.map((other) => `${escaped(other.slice(room.length + 1))}/`);
  return `^${escaped(room)}/${apart.length > 0 ? `(?!${apart.join("|")})` : ""}${rest}`;
};
const EDGE = ".*\\.edge\\.ts$";

/** One line for each kind of thing that the files may import. */
function allow(from, { rooms = [], packages = [], node = [] }) {
  const lines = rooms.map((room) => ({ from: { path: from }, to: { path: inRoom(room) } }));
  const names = packages.map(escaped).join("|");
  if (packages.length > 0)
    lines.push({ from: { path: from }, to: { path: `node_modules/(@types/)?(${names})/|^(${names})$` } });
  if (node.length > 0)
    lines.push({
      from: { path: from },
      to: { dependencyTypes: ["core"], path: `^(node:)?(${node.map(escaped).join("|")})$` },
    });
  return lines;
}

const pureRooms = Object.keys(ROOMS).filter((room) => ROOMS[room].edge !== undefined);

module.exports = {
  allowedSeverity: "error",
  allowed: [
    ...Object.entries(ROOMS).flatMap(([room, may]) => [
      { from: { path: inRoom(room) }, to: { path: inRoom(room) } },
      ...allow(inRoom(room), may),
      ...(may.edge ? allow(inRoom(room, EDGE), may.edge) : []),
    ]),
  ],
  forbidden: [
    {
      name: "no-circles",
      severity: "error",
      from: {},
      to: { circular: true, viaOnly: { dependencyTypesNot: ["type-only"] } },
    },
    {
      name: "no-room-without-a-rule",
      comment: "a file that imports and is imported is held by the lines above; this one holds the others",
      severity: "error",
      from: {
        orphan: true,
        path: "^(main|overlay|renderer)/",
        pathNot: Object.keys(ROOMS).map((room) => inRoom(room)),
      },
      to: {},
    },
    {
      name: "doors-not-to-debrief-store",
      comment: "a debrief is opened, gathered and saved by journey; an athlete's own file is no step of it",
      severity: "error",
      from: { path: "^main/(app|cli)/" },
      to: { path: "^main/debrief/(?!athlete)[^/]*\\.edge\\.ts$" },
    },
    {
      name: "ffmpeg-commands-in-one-file",
      severity: "error",
      from: { pathNot: "^main/host/ffmpegArguments\\.edge\\.ts$" },
      to: { path: "node_modules/(@types/)?fluent-ffmpeg/" },
    },
    {
      name: "programs-by-one-edge",
      comment: "set-up runs before anything is there that could be imported",
      severity: "error",
      from: { pathNot: "^main/host/program\\.edge\\.ts$|^main/setup/" },
      to: { path: "^(node:)?child_process$" },
    },
    {
      name: "window-shared-not-to-screen",
      severity: "error",
      from: { path: `^renderer/(?!${SCREENS})[^/]+/` },
      to: { path: `^renderer/${SCREENS}` },
    },
    {
      name: "window-desk-below-all",
      comment: "what the window knows of the program: only edits of the film stand below it",
      severity: "error",
      from: { path: "^renderer/desk/" },
      to: { path: "^renderer/(?!(desk|film)/)" },
    },
    {
      name: "pure-not-to-edge",
      severity: "error",
      from: { path: pureRooms.map((room) => inRoom(room)), pathNot: "\\.edge\\.ts$" },
      to: { path: "\\.edge\\.ts$" },
    },
  ],
  options: {
    doNotFollow: { path: "node_modules" },
    tsPreCompilationDeps: true,
    tsConfig: { fileName: "tsconfig.json" },
    enhancedResolveOptions: {
      exportsFields: ["exports"],
      conditionNames: ["import", "types", "default"],
      extensions: [".ts", ".tsx", ".mts", ".mjs", ".js", ".d.ts"],
    },
  },
};
