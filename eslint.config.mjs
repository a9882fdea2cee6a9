import tseslint from "typescript-eslint";

const PURE_ROOMS = [
  "overlay/**/*.ts",
  "main/{contract,maths,ride,footage,lineup,reading,film,render,handover,weeks,debrief}/**/*.ts",
];

export default tseslint.config(
  { ignores: ["dist/**", "node_modules/**", "test/fixtures/**"] },
  ...tseslint.configs.recommendedTypeChecked,
  {
    languageOptions: { parserOptions: { projectService: { allowDefaultProject: ["*.mjs", "*.cjs", "main/setup/*.mjs", "test/*.mjs", "overlay/*.mjs"] } } },
    rules: {
      "@typescript-eslint/consistent-type-imports": "error",
      "@typescript-eslint/no-non-null-assertion": "off",
      "@typescript-eslint/no-unused-vars": ["error", { argsIgnorePattern: "^_", varsIgnorePattern: "^_" }],
      eqeqeq: "error",
    },
  },
  { files: ["**/*.mjs", "**/*.cjs"], extends: [tseslint.configs.disableTypeChecked] },
  {
    files: PURE_ROOMS,
    ignores: ["**/*.edge.ts", "**/*Child.edge.ts"],
    rules: {
      "no-restricted-globals": ["error", "process", "window", "document", "performance", "setTimeout", "setInterval", "fetch"],
      "no-restricted-properties": [
        "error",
        { object: "Date", property: "now", message: "Time is handed in, so that preview and export agree." },
        { object: "Math", property: "random", message: "Chance comes from a seed that is handed in." },
      ],
      "no-restricted-syntax": [
        "error",
        { selector: "NewExpression[callee.name='Date'][arguments.length=0]", message: "Time is handed in." },
      ],
    },
  },
  {
    files: ["test/**/*.ts"],
    rules: {
      "@typescript-eslint/no-unsafe-member-access": "off",
      "@typescript-eslint/no-unsafe-assignment": "off",
      "@typescript-eslint/no-unsafe-argument": "off",
      "@typescript-eslint/no-unsafe-call": "off",
      "@typescript-eslint/no-unsafe-return": "off",
    },
  },
);
