import { spawn, type ChildProcess } from "node:child_process"
import { setTimeout as delay } from "node:timers/promises"
import { fileURLToPath } from "node:url"

const main = fileURLToPath(new URL("../../lib/cli/main.ts", import.meta.url))

const patienceMs = 60_000

/** `filtrate import` in a process of its own, against a database of the test. */
export function startImportProcess(options: {
  databaseUrl: string
  dataDir: string
  location: string
  flags?: string[]
  nodeFlags?: string[]
}) {
  const { databaseUrl, dataDir, location, flags = [], nodeFlags = [] } = options
  const child = spawn(
    process.execPath,
    [
      ...nodeFlags,
      "--conditions=react-server",
      "--import",
      import.meta.resolve("tsx"),
      main,
      "import",
      location,
      ...flags,
    ],
    {
      env: {
        ...process.env,
        DATABASE_URL: databaseUrl,
        FILTRATE_DATA: dataDir,
        FILTRATE_TIME_ZONE: "America/Chicago",
      },
      stdio: ["ignore", "pipe", "pipe"],
    },
  )
  let out = ""
  let said = ""
  child.stdout.setEncoding("utf8").on("data", (text: string) => (out += text))
  child.stderr.setEncoding("utf8").on("data", (text: string) => (said += text))
  // A process of its own that a loader started may hold the pipes longer than the killed one lives.
  const gone = new Promise<void>((resolve) => child.once("exit", () => resolve()))
  const ended = new Promise<number | null>((resolve) => child.once("close", (code) => resolve(code)))

  return {
    async end(): Promise<{ code: number | null; out: string; said: string }> {
      const code = await ended
      return { code, out, said }
    },
    /** Kills it outright as soon as it says that it begins a step. Throws when it ends without saying so, or is silent. */
    async killWhenItSays(step: string): Promise<void> {
      const isSaid = () => said.split("\n").includes(step)
      const patience = performance.now() + patienceMs
      while (!isSaid() && isAlive(child) && performance.now() < patience) await delay(5)
      child.kill("SIGKILL")
      if (!isSaid()) throw new Error(`the import never said "${step}":\n${said}`)
      await gone
    },
  }
}

function isAlive(child: ChildProcess): boolean {
  return child.exitCode === null && child.signalCode === null
}
