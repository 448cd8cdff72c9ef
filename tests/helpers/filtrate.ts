import { spawn, type ChildProcess } from "node:child_process"
import { once } from "node:events"
import { createServer } from "node:net"
import path from "node:path"
import { fileURLToPath } from "node:url"

const project = fileURLToPath(new URL("../..", import.meta.url))
const program = fileURLToPath(new URL("../../lib/cli/filtrate.mjs", import.meta.url))

export type Finished = { exitCode: number; stdout: string; stderr: string }

export type Started = {
  child: ChildProcess
  /** All it has said so far. */
  said: () => string
  /** Answers when it has ended. */
  finished: Promise<Finished>
}

/** Runs the command as a person does, with an environment that holds nothing of the machine's own settings. */
export function startFiltrate(args: string[], env: Record<string, string>): Started {
  const child = spawn(process.execPath, [program, ...args], {
    cwd: project,
    env: { ...cleanEnvironment(), ...env },
    // A group of its own, so that a test can press Ctrl-C on all of it.
    detached: true,
    stdio: ["ignore", "pipe", "pipe"],
  })
  const text = { stdout: "", stderr: "" }
  child.stdout.setEncoding("utf8").on("data", (chunk: string) => (text.stdout += chunk))
  child.stderr.setEncoding("utf8").on("data", (chunk: string) => (text.stderr += chunk))
  const finished = once(child, "close").then(([code]) => ({ exitCode: Number(code ?? -1), ...text }))
  return { child, said: () => text.stdout + text.stderr, finished }
}

export function filtrate(args: string[], env: Record<string, string>): Promise<Finished> {
  return startFiltrate(args, env).finished
}

/** The data folder of each site that this process started, by address. */
export const siteFolders = new Map<string, string>()

/** Starts the site and waits for its address. */
export async function startSite(env: Record<string, string>): Promise<Started & { url: string }> {
  const started = startFiltrate(["start"], env)
  const url = await new Promise<string>((resolve, reject) => {
    started.child.stdout?.on("data", () => {
      const address = /http:\/\/localhost:\d+/.exec(started.said())?.[0]
      if (address) resolve(address)
    })
    void started.finished.then(() => reject(new Error(`the site did not start:\n${started.said()}`)))
  })
  siteFolders.set(url, env.FILTRATE_DATA ?? path.join(project, ".data"))
  return { ...started, url }
}

export async function freePort(): Promise<number> {
  const probe = createServer().listen(0, "127.0.0.1")
  await once(probe, "listening")
  const address = probe.address()
  probe.close()
  await once(probe, "close")
  return typeof address === "object" && address ? address.port : 0
}

function cleanEnvironment(): NodeJS.ProcessEnv {
  const env = { ...process.env }
  for (const name of Object.keys(env))
    if (/^(FILTRATE_|DATABASE_URL$|PORT$|NODE_OPTIONS$|NODE_ENV$|VITEST|npm_)/.test(name))
      Reflect.deleteProperty(env, name)
  return env
}
