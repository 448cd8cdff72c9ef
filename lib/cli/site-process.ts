import { spawn, type ChildProcess } from "node:child_process"
import { createWriteStream } from "node:fs"
import { get } from "node:http"
import path from "node:path"
import { pathToFileURL } from "node:url"
import { setTimeout as delay } from "node:timers/promises"
import { AppError } from "../errors"
import type { RoleUrls } from "../store/database-roles"
import { projectDir } from "./project"
import { nextProgram } from "./site-build"

export type Site = { process: ChildProcess; url: string }

/** Starts the site on 127.0.0.1 and waits until it answers. */
export async function startSite(options: {
  mode: "start" | "dev"
  port: number
  urls: RoleUrls
  pidFile: string | undefined
  dataDir: string
}): Promise<Site> {
  const { mode, port, urls, pidFile, dataDir } = options
  const guard = pathToFileURL(path.join(projectDir, "lib", "cli", "site-guard.mjs")).href
  const child = spawn(
    process.execPath,
    ["--import", guard, nextProgram(), mode, "--hostname", "127.0.0.1", "--port", String(port)],
    {
      cwd: projectDir,
      env: {
        ...process.env,
        NODE_ENV: mode === "dev" ? "development" : "production",
        NEXT_TELEMETRY_DISABLED: "1",
        // The site sees no more than its own role may; nobody hands it the owner's.
        DATABASE_URL: urls.app,
        FILTRATE_APP_DATABASE_URL: "",
        FILTRATE_IMPORT_DATABASE_URL: urls.import,
        FILTRATE_SNAPSHOT_DATABASE_URL: urls.snapshot,
        FILTRATE_DATA: dataDir,
        FILTRATE_POSTGRES_PID_FILE: pidFile ?? "",
        PORT: String(port),
      },
      // A group of its own: Ctrl-C reaches the command alone, which then ends things in order.
      detached: true,
      stdio: ["ignore", mode === "dev" ? "inherit" : "pipe", "inherit", "ipc"],
    },
  )
  child.stdout?.pipe(createWriteStream(path.join(dataDir, "site.log")))
  await untilItAnswers(child, port)
  return { process: child, url: `http://localhost:${port}` }
}

async function untilItAnswers(child: ChildProcess, port: number): Promise<void> {
  const patience = Date.now() + 60_000
  while (Date.now() < patience) {
    if (child.exitCode !== null || child.signalCode !== null)
      throw new AppError("start-failed", "The site did not start. Its messages stand above.")
    if (await answers(port)) return
    await delay(100)
  }
  child.kill("SIGKILL")
  throw new AppError("start-failed", "The site did not answer within a minute.")
}

/** Whatever it answers counts; the connection is not kept, or a stop would wait for it. */
function answers(port: number): Promise<boolean> {
  return new Promise((resolve) => {
    const request = get({ host: "127.0.0.1", port, path: "/", agent: false, timeout: 30_000 }, (response) => {
      response.resume().once("close", () => resolve(true))
    })
    request.once("error", () => resolve(false))
    request.once("timeout", () => request.destroy(new Error("no answer in time")))
  })
}
