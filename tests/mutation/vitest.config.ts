import { fileURLToPath } from "node:url"
import { defineConfig } from "vitest/config"

/** The tests that ask the SQL itself over hand-made facts; they need no record store. */
export default defineConfig({
  resolve: {
    alias: { "server-only": fileURLToPath(new URL("../helpers/empty-module.ts", import.meta.url)) },
  },
  test: {
    include: [
      "tests/unit/clinical/**/*.test.ts",
      "tests/integration/measures/**/*.test.ts",
      "tests/integration/questions/**/*.test.ts",
      "tests/integration/engine/identities.test.ts",
    ],
    environment: "node",
    isolate: false,
    pool: "threads",
    maxWorkers: 1,
    testTimeout: 60_000,
    hookTimeout: 120_000,
  },
})
