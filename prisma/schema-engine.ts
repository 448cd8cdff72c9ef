import { readFileSync } from "node:fs"
import { createRequire } from "node:module"
import path from "node:path"
import { fileURLToPath } from "node:url"
import { PrismaPg } from "@prisma/adapter-pg"
import { bindMigrationAwareSqlAdapterFactory } from "@prisma/driver-adapter-utils"
import * as glue from "@prisma/schema-engine-wasm/schema_engine_bg"
import pg from "pg"

export const schemaPath = fileURLToPath(new URL("./schema.prisma", import.meta.url))

declare global {
  var PRISMA_WASM_PANIC_REGISTRY: { set_message: (message: string) => void } | undefined
}

/**
 * Runs `work` with Prisma's schema engine bound to one database. The engine is WebAssembly from the npm package,
 * so that migrations need neither a downloaded program nor the `prisma` command.
 * Throws: what the driver throws when the database cannot be reached.
 */
export async function withSchemaEngine<T>(
  url: string,
  work: (engine: glue.SchemaEngine) => Promise<T>,
): Promise<T> {
  instantiate()
  const pool = new pg.Pool({ connectionString: url })
  pool.on("error", () => {})
  const factory = bindMigrationAwareSqlAdapterFactory(wholeScripts(pool))
  const engine = await glue.SchemaEngine.new({ datamodels: [[schemaPath, readSchema()]] }, () => {}, factory)
  try {
    return await work(engine)
  } finally {
    engine.free()
    await pool.end()
  }
}

/**
 * The adapter splits a script at every semicolon, which also stand inside functions. Postgres takes it whole, and then
 * applies all of a migration or none of it.
 */
function wholeScripts(pool: pg.Pool): PrismaPg {
  const factory = new PrismaPg(pool)
  const connect = factory.connect.bind(factory)
  factory.connect = async () => {
    const adapter = await connect()
    adapter.executeScript = async (script) => {
      await pool.query(script)
    }
    return adapter
  }
  return factory
}

export function readSchema(): string {
  return readFileSync(schemaPath, "utf8")
}

let isInstantiated = false

/** What a bundler would do with the package's `.wasm` import: Node cannot import it without a flag. */
function instantiate(): void {
  if (isInstantiated) return
  globalThis.PRISMA_WASM_PANIC_REGISTRY ??= { set_message: () => {} }
  const gluePath = createRequire(import.meta.url).resolve("@prisma/schema-engine-wasm/schema_engine_bg")
  const wasmPath = path.join(path.dirname(gluePath), "schema_engine_bg.wasm")
  const module = new WebAssembly.Module(readFileSync(wasmPath))
  const instance = new WebAssembly.Instance(module, { "./schema_engine_bg.js": imports() })
  glue.__wbg_set_wasm(instance.exports)
  const start = instance.exports.__wbindgen_start
  if (typeof start === "function") start()
  isInstantiated = true
}

/** The package's own imports, but for a timer: its limit of ten seconds on a lock would hold up the end of a command. */
function imports(): WebAssembly.ModuleImports {
  const unrefTimeout = (callback: () => void, ms: number) => setTimeout(callback, ms >>> 0).unref()
  const own = Object.entries(glue).filter(([, value]) => typeof value === "function")
  return Object.fromEntries(
    own.map(([name, value]) => [name, name.startsWith("__wbg_setTimeout_") ? unrefTimeout : value]),
  )
}
