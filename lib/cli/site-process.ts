import { spawn, type ChildProcess } from "node:child_process"
import { createWriteStream } from "node:fs"
import { get } from "node:http"
import path from "node:path"
import { pathToFileURL } from "node:url"
import { setTimeout as delay } from "node:timers/promises"
import { AppError } from "../errors"
import { isLoopback } from "../front/peers.mjs"
import type { Reach } from "../reach"
import type { RoleUrls } from "../store/database-roles"
import { projectDir } from "./project"
import { nextProgram } from "./site-build"

export type Site = { process: ChildProcess; url: string }

type Place = { host: string; port: number }

/** Starts the site behind its front and waits until it answers. */
export async function startSite(options: {
  mode: "start" | "dev"
  port: number
  urls: RoleUrls
  pidFile: string | undefined
  dataDir: string
  reach: Reach
}): Promise<Site> {
  const { mode, port, urls, pidFile, dataDir, reach } = options
  const preloads = ["cli/site-guard.mjs", "front/site-front.mjs"].flatMap((file) => [
    "--import",
    pathToFileURL(path.join(projectDir, "lib", file)).href,
  ])
  const child = spawn(
    process.execPath,
    [...preloads, nextProgram(), mode, "--hostname", reach.host, "--port", String(port)],
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
        FILTRATE_ORIGIN: reach.origin ?? "",
        FILTRATE_TRUST_PROXY: reach.trustedProxies,
        FILTRATE_UPLOAD_LIMIT: String(reach.uploadLimitBytes),
        PORT: String(port),
      },
      // A group of its own: Ctrl-C reaches the command alone, which then ends things in order.
      detached: true,
      stdio: ["ignore", mode === "dev" ? "inherit" : "pipe", "inherit", "ipc"],
    },
  )
  child.stdout?.pipe(createWriteStream(path.join(dataDir, "site.log")))
  await untilItAnswers(child, { host: isLoopback(reach.host) ? reach.host : "127.0.0.1", port })
  return { process: child, url: reach.origin ?? `http://localhost:${port}` }
}

async function untilItAnswers(child: ChildProcess, place: Place): Promise<void> {
  const patience = Date.now() + 60_000
  while (Date.now() < patience) {
    if (child.exitCode !== null || child.signalCode !== null)
      throw new AppError("start-failed", "The site did not start. Its messages stand above.")
    if (await answers(place)) return
    await delay(100)
  }
  child.kill("SIGKILL")
  throw new AppError("start-failed", "The site did not answer within a minute.")
}

/** Whatever it answers counts; the connection is not kept, or a stop would wait for it. */
function answers(place: Place): Promise<boolean> {
  return new Promise((resolve) => {
    const request = get({ ...place, path: "/", agent: false, timeout: 30_000 }, (response) => {
      response.resume().once("close", () => resolve(true))
    })
    request.once("error", () => resolve(false))
    request.once("timeout", () => request.destroy(new Error("no answer in time")))
  })
}
