import { defineConfig } from "vitest/config";

export default defineConfig({
  test: {
    include: ["test/**/*.test.{ts,tsx}"],
    exclude: ["test/bench/**", "test/torture/**", "node_modules/**"],
    globalSetup: ["test/support/globalSetup.ts"],
    testTimeout: 60_000,
    hookTimeout: 120_000,
    pool: "forks",
    maxWorkers: 2,
    env: { TZ: "UTC" },
    // It imports its JSON without saying so, which Node refuses; Vite reads it.
    server: { deps: { inline: [/@actions\/workflow-parser/] } },
  },
});
