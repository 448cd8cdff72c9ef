import { fileURLToPath } from "node:url"
import { defineConfig } from "vitest/config"

const root = fileURLToPath(new URL("../..", import.meta.url))

/** `npm run fuzz`: the same files as the suite runs shortly, with 10,000 inputs for each parser and handler. */
export default defineConfig({
  root,
  resolve: { alias: { "server-only": `${root}tests/helpers/empty-module.ts` } },
  test: {
    include: ["tests/fuzz/**/*.test.ts"],
    environment: "node",
    globalSetup: ["tests/helpers/store-server.ts"],
    provide: { fuzzInputs: 10_000 },
    maxWorkers: 2,
    testTimeout: 3_600_000,
    hookTimeout: 120_000,
    reporters: ["verbose"],
  },
})
