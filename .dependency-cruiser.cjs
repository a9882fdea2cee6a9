// The rules of the rooms (DEVELOPERS.md, "Which way imports point"). Each was seen to fail on a planted violation:
// test/rules/planted.test.ts.
const STEPS = "(ride|footage|lineup|reading|film|render|handover|weeks)";
const MACHINE_PACKAGES = ["@napi-rs/canvas", "fluent-ffmpeg", "ffmpeg-static", "electron", "playwright-core"];

/** Pure rooms: everything under a step, debrief, maths, contract or overlay that is not an edge. */
const PURE = `^(overlay/|main/(contract|maths|page|debrief|${STEPS.slice(1, -1)})/)(?!.*\\.edge\\.ts$)`;

module.exports = {
  forbidden: [
    {
      name: "no-circles",
      severity: "error",
      from: {},
      to: { circular: true, viaOnly: { dependencyTypesNot: ["type-only"] } },
    },
    {
      name: "step-not-to-step",
      severity: "error",
      from: { path: `^main/${STEPS}/` },
      to: { path: `^main/${STEPS}/`, pathNot: "^main/$1/" },
    },
    {
      name: "steps-not-upwards",
      severity: "error",
      from: { path: `^main/(${STEPS.slice(1, -1)}|debrief)/` },
      to: { path: "^(main/(journey|cli|app|demo|setup)|renderer)/" },
    },
    {
      name: "step-not-to-debrief",
      severity: "error",
      from: { path: `^main/${STEPS}/` },
      to: { path: "^main/debrief/" },
    },
    {
      name: "overlay-sees-contract",
      severity: "error",
      from: { path: "^overlay/" },
      to: { pathNot: "^(overlay|main/contract)/" },
    },
    {
      name: "maths-imports-nothing",
      severity: "error",
      from: { path: "^main/maths/" },
      to: { pathNot: "^main/maths/" },
    },
    {
      name: "page-of-contract-overlay-and-react",
      severity: "error",
      from: { path: "^main/page/" },
      to: { pathNot: "^(main/(page|contract)|overlay)/|node_modules/(@types/)?(react|react-dom)/" },
    },
    {
      name: "contract-imports-nothing",
      severity: "error",
      // failure.ts asks the words for its sentences until every room gives its failures as data.
      from: { path: "^main/contract/", pathNot: "^main/contract/failure\\.ts$" },
      to: { pathNot: "^main/contract/" },
    },
    {
      name: "journey-not-upwards",
      severity: "error",
      from: { path: "^main/journey/" },
      to: { path: "^(main/(cli|app|demo)|renderer)/" },
    },
    {
      name: "doors-not-to-steps",
      comment: "window and command line come by way of journey, which alone knows the order of the steps",
      severity: "error",
      from: { path: "^main/(app|cli)/" },
      to: { path: `^main/${STEPS}/` },
    },
    {
      name: "doors-not-to-debrief-store",
      comment: "a debrief is opened, gathered and saved by journey; an athlete's own file is no step of it",
      severity: "error",
      from: { path: "^main/(app|cli)/" },
      to: { path: "^main/debrief/(?!athlete)[^/]*\\.edge\\.ts$" },
    },
    {
      name: "host-imports-no-room",
      severity: "error",
      from: { path: "^main/host/" },
      to: { path: "^main/", pathNot: "^main/(host|contract|setup)/" },
    },
    { name: "main-not-to-renderer", severity: "error", from: { path: "^main/" }, to: { path: "^renderer/" } },
    {
      name: "renderer-sees-overlay-and-contract",
      severity: "error",
      from: { path: "^renderer/" },
      to: { path: "^main/", pathNot: "^main/contract/" },
    },
    {
      name: "nothing-imports-tests",
      severity: "error",
      from: { path: "^(main|overlay|renderer)/" },
      to: { path: "^test/" },
    },
    {
      name: "ffmpeg-commands-in-one-file",
      severity: "error",
      from: { pathNot: "^main/host/ffmpegArguments\\.edge\\.ts$" },
      to: { path: "node_modules/(@types/)?fluent-ffmpeg/" },
    },
    {
      name: "pure-not-to-edge",
      severity: "error",
      from: { path: PURE },
      to: { path: "\\.edge\\.ts$" },
    },
    {
      name: "pure-not-to-node",
      comment: "zlib and crypto compute on bytes handed in; they touch nothing",
      severity: "error",
      from: { path: PURE },
      to: { dependencyTypes: ["core"], pathNot: "^(node:)?(zlib|crypto)$" },
    },
    {
      name: "pure-not-to-machine",
      severity: "error",
      from: { path: PURE },
      to: { path: `node_modules/(${MACHINE_PACKAGES.join("|")})/` },
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
