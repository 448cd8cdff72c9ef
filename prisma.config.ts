import { defineConfig } from "prisma/config"

// `prisma generate` asks for a schema engine it never runs; any existing file satisfies it, so nothing is downloaded.
process.env.PRISMA_SCHEMA_ENGINE_BINARY ??= process.execPath

export default defineConfig({ schema: "prisma/schema.prisma", migrations: { path: "prisma/migrations" } })
