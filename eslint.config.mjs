import tseslint from "typescript-eslint";

const PURE_ROOMS = [
  "overlay/**/*.ts",
  "main/{contract,maths,page,ride,footage,lineup,reading,film,render,handover,roads,weeks,debrief,demo}/**/*.{ts,tsx}",
];

/** What a pure file would take from its surroundings, by name or by way of the object that holds it. */
const AMBIENT = [
  ...["globalThis", "global", "self", "window", "document", "navigator", "location", "process", "require"],
  ...[
    "performance",
    "crypto",
    "setTimeout",
    "setInterval",
    "setImmediate",
    "queueMicrotask",
    "fetch",
    "eval",
    "Function",
  ],
];

/** A date is made of a time that is handed in; neither `Date` nor `Math` goes by another name. */
const PURE_RULES = [
  {
    selector: "NewExpression[callee.name='Date'][arguments.length=0], CallExpression[callee.name='Date']",
    message: "Time is handed in.",
  },
  {
    selector:
      "Identifier[name='Date']:not(NewExpression > .callee)" +
      ":not(MemberExpression[computed=false][property.name=/^(UTC|parse)$/] > .object)" +
      ":not(TSTypeReference > .typeName):not(BinaryExpression[operator='instanceof'] > .right)",
    message: "Of Date only UTC, parse and a date of a time that is handed in.",
  },
  {
    selector: "Identifier[name='Math']:not(MemberExpression[computed=false] > .object)",
    message: "Math goes by its own name: chance comes from a seed that is handed in.",
  },
  { selector: "MetaProperty", message: "What surrounds the program is handed in." },
];

const SAID = "/^(message|sentence|remedy|stderr|stack)$/";
const TAKEN_APART = "/^(includes|startsWith|endsWith|match|matchAll|search|indexOf|lastIndexOf|localeCompare)$/";
const NO_TEXT = "What happened is told by its code and facts: no sentence is parsed or compared.";
/** Nobody looks into what was said for people: a failure has a code, an error of Node's or a form's has one, too. */
const SAID_RULES = [
  `CallExpression[callee.property.name=${TAKEN_APART}] > MemberExpression.callee > ` +
    `:matches(MemberExpression[property.name=${SAID}], Identifier[name=${SAID}]).object`,
  `CallExpression[callee.property.name=${TAKEN_APART}] > MemberExpression.callee > ChainExpression.object > MemberExpression[property.name=${SAID}]`,
  `CallExpression[callee.property.name=/^(test|exec)$/] > :matches(MemberExpression[property.name=${SAID}], Identifier[name=${SAID}]).arguments`,
  `BinaryExpression[operator=/^[!=]==?$/] > MemberExpression[property.name=${SAID}]`,
  "BinaryExpression[operator=/^[!=]==?$/] > Literal[value=/^[A-ZÄÖÜ].* .*[.!?]$/]",
  `CallExpression[callee.property.name=${TAKEN_APART}] > Literal.arguments[value=/[a-zäöüß]{2,} [a-zäöüß]{2,}/i]`,
  "CallExpression[callee.property.name=/^(test|exec)$/] > MemberExpression.callee > " +
    "Literal.object[regex.pattern=/[A-Za-zÄÖÜäöüß]{2,} [A-Za-zÄÖÜäöüß]{2,}/]",
].map((selector) => ({ selector, message: NO_TEXT }));

/** Electron's published checklist (tutorial/security.md, 2026-08-22), as far as a linter can hold it; test/app/electronRules.test.ts plants each. */
const ELECTRON_RULES = [
  {
    selector:
      "NewExpression[callee.name='BrowserWindow'] > :not(CallExpression[callee.name=/^(windowOptions|printOptions)$/]).arguments",
    message: "A window is made with windowOptions() or printOptions() alone.",
  },
  {
    selector: "NewExpression[callee.name='BrowserWindow'][arguments.length=0]",
    message: "A window is made with windowOptions() or printOptions() alone.",
  },
  {
    selector: "NewExpression[callee.property.name='BrowserWindow']",
    message: "A window is made with windowOptions() or printOptions() alone.",
  },
  {
    selector: "MemberExpression[property.name='openExternal']",
    message: "Nothing is opened outside; the program needs no address.",
  },
  {
    selector:
      "Property[key.name=/^(nodeIntegration|nodeIntegrationInWorker|nodeIntegrationInSubFrames|webviewTag|" +
      "allowRunningInsecureContent|experimentalFeatures|bypassCSP|enableRemoteModule)$/][value.value=true]",
    message: "Electron's security checklist.",
  },
  {
    selector: "Property[key.name=/^(contextIsolation|sandbox|webSecurity)$/][value.value=false]",
    message: "Electron's security checklist.",
  },
  { selector: "Property[key.name='enableBlinkFeatures']", message: "Electron's security checklist." },
  {
    selector: "MemberExpression[object.name='net'][property.name='fetch']",
    message: "It ignores ranges, and reads any file.",
  },
  { selector: "Literal[value=/^file:\\u002f/]", message: "Nothing is read by file address." },
];

const NO_ELECTRON = {
  name: "electron",
  message: "Only main/app/electron knows Electron; asking the package elsewhere starts a download.",
};
/** The pair of writing and renaming is made in one place. */
const NO_RENAME = ["fs", "fs/promises", "node:fs", "node:fs/promises"].map((name) => ({
  name,
  importNames: ["rename", "renameSync"],
  message: "A file is made whole by host/writeAtomic.",
}));

/** A page of ours makes no markup or code from text. */
const WINDOW_RULES = [
  { selector: "JSXAttribute[name.name='dangerouslySetInnerHTML']", message: "Text becomes elements, never markup." },
  {
    selector: "AssignmentExpression > MemberExpression.left[property.name=/^(innerHTML|outerHTML|srcdoc)$/]",
    message: "Text becomes elements, never markup.",
  },
  {
    selector: "JSXAttribute[name.name='srcDoc']",
    message: "A page comes by its address (/page/…), with a policy of its own.",
  },
  {
    selector: "CallExpression[callee.name='eval'], NewExpression[callee.name='Function']",
    message: "No code from text.",
  },
];

export default tseslint.config(
  { ignores: ["dist/**", "node_modules/**", "test/fixtures/**"] },
  // What takes types to tell is oxlint's (.oxlintrc.json): the same rules in a tenth of the time.
  ...tseslint.configs.recommended,
  {
    rules: {
      "@typescript-eslint/consistent-type-imports": "error",
      "@typescript-eslint/no-non-null-assertion": "off",
      "@typescript-eslint/no-unused-vars": ["error", { argsIgnorePattern: "^_", varsIgnorePattern: "^_" }],
      eqeqeq: "error",
    },
  },
  {
    files: ["main/**/*.ts"],
    // What ffmpeg prints is its only answer: a full disk and a missing right, its version, the bytes it read.
    ignores: [
      "main/render/runFfmpeg.edge.ts",
      "main/host/ffmpegFacts.edge.ts",
      "main/footage/signals/readSignals.edge.ts",
    ],
    rules: { "no-restricted-syntax": ["error", ...SAID_RULES] },
  },
  {
    files: PURE_ROOMS,
    ignores: ["**/*.edge.ts", "**/*Child.edge.ts"],
    rules: {
      "no-restricted-globals": [
        "error",
        ...AMBIENT.map((name) => ({ name, message: "What surrounds the program is handed in." })),
      ],
      "no-restricted-properties": [
        "error",
        { object: "Date", property: "now", message: "Time is handed in, so that preview and export agree." },
        { object: "Math", property: "random", message: "Chance comes from a seed that is handed in." },
      ],
      "no-restricted-syntax": ["error", ...SAID_RULES, ...PURE_RULES],
    },
  },
  {
    files: ["main/app/**/*.ts"],
    rules: { "no-restricted-syntax": ["error", ...SAID_RULES, ...ELECTRON_RULES] },
  },
  {
    files: ["main/**/*.{ts,tsx}"],
    ignores: ["main/app/electron/**"],
    rules: {
      "no-restricted-imports": ["error", { paths: [NO_ELECTRON, ...NO_RENAME] }],
    },
  },
  {
    files: ["main/host/writeAtomic.edge.ts"],
    rules: { "no-restricted-imports": ["error", { paths: [NO_ELECTRON] }] },
  },
  {
    files: ["renderer/**/*.{ts,tsx}"],
    rules: {
      "no-restricted-syntax": ["error", ...SAID_RULES, ...WINDOW_RULES],
      // A longer one is split by what it shows.
      "max-lines-per-function": ["error", { max: 80, skipBlankLines: true, skipComments: true }],
    },
  },
  {
    files: ["main/**/*.tsx"],
    rules: { "no-restricted-syntax": ["error", ...SAID_RULES, ...PURE_RULES, ...WINDOW_RULES] },
  },
  {
    // A camera's name in a file's header is told from what programs write there.
    files: ["main/footage/clipFacts.ts"],
    rules: { "no-restricted-syntax": ["error", ...PURE_RULES] },
  },
);
