import { spawnSync } from "node:child_process"
import { existsSync, mkdirSync, renameSync, rmSync } from "node:fs"
import path from "node:path"
import { fileURLToPath } from "node:url"

const cache = fileURLToPath(new URL("../../node_modules/.cache/filtrate-chromium", import.meta.url))

/**
 * A Chromium that comes with `npm ci`, unpacked once, and the environment it needs on a machine that lacks its
 * libraries or has no fonts set up; the machine's own Chromium where the package has none for it.
 */
export async function findChromium(): Promise<{ program: string; env: Record<string, string> }> {
  const program = path.join(cache, "chromium")
  if (!existsSync(program)) await unpack()
  const env: Record<string, string> = {}
  for (const [name, value] of Object.entries(process.env)) if (value !== undefined) env[name] = value
  if (!existsSync("/etc/fonts/fonts.conf")) env.FONTCONFIG_PATH = path.join(cache, "fonts")
  if (runs(program, env)) return { program, env }
  const withLibraries = { ...env, LD_LIBRARY_PATH: path.join(cache, "al2023", "lib") }
  if (runs(program, withLibraries)) return { program, env: withLibraries }
  const installed = ["/usr/bin/chromium", "/usr/bin/chromium-browser", "/usr/bin/google-chrome"].find(
    existsSync,
  )
  if (installed) return { program: installed, env }
  throw new Error("the Chromium of @sparticuz/chromium does not run here; install the package chromium")
}

function runs(program: string, env: Record<string, string>): boolean {
  return (
    spawnSync(program, ["--version"], { env: { NODE_ENV: "test", ...env }, stdio: "ignore" }).status === 0
  )
}

/** The package unpacks into the folder for temporary files, its libraries only when it believes to be in its cloud. */
async function unpack(): Promise<void> {
  const draft = `${cache}.${process.pid}`
  mkdirSync(draft, { recursive: true })
  const before = { ...process.env }
  Object.assign(process.env, { TMPDIR: draft, AWS_EXECUTION_ENV: "AWS_Lambda_nodejs20.x" })
  try {
    const { default: chromium } = await import("@sparticuz/chromium")
    await chromium.executablePath()
  } finally {
    for (const name of Object.keys(process.env))
      if (!(name in before)) Reflect.deleteProperty(process.env, name)
    Object.assign(process.env, before)
  }
  rmSync(cache, { recursive: true, force: true })
  renameSync(draft, cache)
}
