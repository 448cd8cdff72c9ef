import { fileURLToPath } from "node:url"
import { defineConfig } from "vitest/config"

const emptyModule = fileURLToPath(new URL("./tests/helpers/empty-module.ts", import.meta.url))
// `server-only` throws outside a server bundle; here everything is the server.
const alias = { "server-only": emptyModule }

function project(name: string, more: object = {}) {
  return {
    resolve: { alias },
    test: { name, include: [`tests/${name}/**/*.test.{ts,tsx}`], environment: "node", ...more },
  }
}

// Real databases, child processes and a browser on a small machine: few files at a time, generous time limits.
const slow = { maxWorkers: 2, testTimeout: 60_000, hookTimeout: 120_000 }

export default defineConfig({
  test: {
    projects: [
      project("unit"),
      project("property", { ...slow, globalSetup: ["tests/helpers/store-server.ts"] }),
      project("integration", { ...slow, globalSetup: ["tests/helpers/store-server.ts"] }),
      project("fuzz", {
        ...slow,
        globalSetup: ["tests/helpers/store-server.ts"],
        provide: { fuzzInputs: 100 },
        testTimeout: 120_000,
      }),
      project("browser", {
        ...slow,
        globalSetup: ["tests/helpers/demo-site.ts"],
        maxWorkers: 1,
        fileParallelism: false,
        testTimeout: 120_000,
        hookTimeout: 600_000,
      }),
    ],
  },
})
