import { spawn } from "node:child_process"
import { createHash } from "node:crypto"
import { createWriteStream, existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from "node:fs"
import { createRequire } from "node:module"
import path from "node:path"
import { AppError } from "../errors"
import { withLockFile } from "../store/lock-file"
import { projectDir } from "./project"
import { ended } from "./run-child"

const stampFile = path.join(projectDir, ".next", "filtrate-sources")

/** What the build is made of: a change to any of these makes it stale. */
const sources = [
  "app",
  "instrumentation-client.ts",
  "lib",
  "public",
  "next.config.js",
  "package-lock.json",
  "tsconfig.json",
]

/** Makes the production build when there is none, or when the sources have changed since. */
export async function ensureBuild(say: (line: string) => void): Promise<void> {
  const lockDir = path.join(projectDir, "node_modules", ".cache")
  mkdirSync(lockDir, { recursive: true })
  await withLockFile(path.join(lockDir, "filtrate-build.lock"), async () => {
    const stamp = stampOfSources()
    if (existsSync(stampFile) && readFileSync(stampFile, "utf8") === stamp) return
    say("Building the site (the first time, and after a change of the program: about a minute)")
    await build()
    writeFileSync(stampFile, stamp)
  })
}

async function build(): Promise<void> {
  const logFile = path.join(projectDir, "node_modules", ".cache", "filtrate-build.log")
  const log = createWriteStream(logFile)
  const child = spawn(process.execPath, [nextProgram(), "build"], {
    cwd: projectDir,
    env: { ...process.env, NODE_ENV: "production", NEXT_TELEMETRY_DISABLED: "1", FORCE_COLOR: "0" },
    detached: true,
    stdio: ["ignore", "pipe", "pipe"],
  })
  child.stdout.pipe(log, { end: false })
  child.stderr.pipe(log, { end: false })
  const code = await ended(child)
  await new Promise<void>((resolve) => log.end(resolve))
  if (code === 0) return
  const lastLines = readFileSync(logFile, "utf8").trim().split("\n").slice(-25).join("\n")
  throw new AppError(
    "start-failed",
    `The site could not be built. Its last words (all in ${logFile}):\n${lastLines}`,
  )
}

export function nextProgram(): string {
  return createRequire(import.meta.url).resolve("next/dist/bin/next")
}

function stampOfSources(): string {
  const hash = createHash("sha256")
  for (const file of sources.flatMap(filesUnder).sort()) {
    hash
      .update(`${file}\0`)
      .update(readFileSync(path.join(projectDir, file)))
      .update("\0")
  }
  return hash.digest("hex")
}

function filesUnder(source: string): string[] {
  const place = path.join(projectDir, source)
  if (!existsSync(place)) return []
  if (path.extname(source) !== "") return [source]
  return readdirSync(place, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => path.relative(projectDir, path.join(entry.parentPath, entry.name)))
}
