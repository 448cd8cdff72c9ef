import path from "node:path"
import type { Command } from "commander"
import { currentSnapshot } from "../engine/snapshot"
import { clinicName } from "../../seed/clinic"
import { providerSettings } from "../auth/provider-settings"
import { setupLink } from "../auth/setup-link"
import { readEnvironment, type Environment } from "../env"
import { AppError } from "../errors"
import { isLoopback } from "../front/peers.mjs"
import { isSnapshotStale } from "../jobs/snapshot-freshness"
import { readReach } from "../reach"
import { openClient } from "../store/client"
import { isStoreEmpty, markAsDemo, markImportsAsDemo } from "../store/clinic"
import { ensureDataFolder } from "../store/data-folder"
import { openDatabase } from "../store/database"
import { ensurePersonas } from "../store/demo-personas"
import { closeAllDatabases } from "../store/embedded"
import { siteKey } from "../store/secrets"
import { tellDemoOutreach } from "./demo-outreach"
import { watchAudit } from "./audit-watch"
import { ensurePortIsFree } from "./port"
import { print } from "./print"
import { projectDir } from "./project"
import { lookNightly } from "./look-nightly"
import { pruneDaily } from "./prune-daily"
import { ended, runChild, stopChildren } from "./run-child"
import { say } from "./say"
import { ensureBuild } from "./site-build"
import { holdSite } from "./site-lock"
import { startSite } from "./site-process"
import { isStopping, onStop } from "./stop-signals"

export function register(program: Command): void {
  program
    .command("start")
    .description("start the site with everything it needs; Ctrl-C stops all of it")
    .option("--dev", "the development server: no build, changes show at once")
    .action((options: { dev?: boolean }) => start(options.dev ? "dev" : "start"))
}

async function start(mode: "start" | "dev"): Promise<void> {
  const environment = readEnvironment()
  const reach = readReach()
  const { dataDir, port } = environment
  ensureDataFolder(dataDir)
  // A key or a provider that cannot be used is told now, not when the first person signs in.
  siteKey(dataDir)
  providerSettings()
  const { release, isAfterCrash } = await holdSite(dataDir, port)
  const stopAll = async () => {
    await stopChildren()
    await closeAllDatabases()
    release()
  }
  onStop(async () => {
    say("Stopping")
    await stopAll()
    say("Stopped")
    process.exit(0)
  })
  try {
    await ensurePortIsFree(port, isAfterCrash ? 8000 : 0)
    say(`Filtrate with its data in ${dataDir}`)
    const database = await openDatabase({ environment, say })
    await prepareClinic(environment, database.url)
    await watchAudit({ databaseUrl: database.url, dataDir })
    await pruneDaily({ databaseUrl: database.url, dataDir })
    await lookNightly({ databaseUrl: database.url, dataDir })
    if (mode === "start") await ensureBuild(say)
    say("Starting the site")
    const site = await startSite({
      mode,
      port,
      dataDir,
      urls: database.urls,
      pidFile: database.pidFile,
      reach,
    })
    await sayFirstWayIn(database.url, site.url)
    say(
      `Ready. It listens on ${reach.host} ${isLoopback(reach.host) ? "only" : "behind HTTPS"}. Ctrl-C stops it.`,
    )
    await print(site.url)
    await ended(site.process)
    if (!isStopping()) throw new AppError("start-failed", "The site has ended by itself. Start it again.")
  } catch (error) {
    if (!isStopping()) await stopAll()
    throw error
  }
}

/** As long as nobody could let others in, whoever starts the site can. */
async function sayFirstWayIn(databaseUrl: string, origin: string): Promise<void> {
  const client = openClient(databaseUrl)
  try {
    const link = await setupLink(client, { origin, now: new Date() })
    if (link)
      say(`Nobody can manage accounts yet. The first administrator opens, once, within 24 hours: ${link}`)
  } finally {
    await client.$disconnect()
  }
}

/** Fills an empty store with the demo clinic if that is wanted, and sees to a snapshot of what the store holds now. */
async function prepareClinic(environment: Environment, databaseUrl: string): Promise<void> {
  const { dataDir } = environment
  const env = { DATABASE_URL: databaseUrl, FILTRATE_DATA: dataDir }
  const main = path.join(projectDir, "lib", "cli", "main.ts")
  const client = openClient(databaseUrl)
  try {
    if (environment.isDemoWanted && (await isStoreEmpty(client))) {
      const folder = path.join(dataDir, "demo")
      say("Writing the demo clinic (FILTRATE_DEMO=off starts an empty one)")
      const seed = path.join(projectDir, "seed", "main.ts")
      await runChild({
        file: seed,
        args: ["--out", folder],
        env,
        failure: "The demo clinic could not be written.",
      })
      await markAsDemo(client, clinicName)
      say("Importing the demo clinic")
      await runChild({
        file: main,
        args: ["import", folder, "--accept"],
        env,
        failure: "The demo clinic could not be imported.",
      })
      await markImportsAsDemo(client)
      await ensurePersonas(client)
      if (currentSnapshot(dataDir) !== null) {
        say("Telling what its coordinator did in the last months")
        await tellDemoOutreach({ client, dataDir, now: new Date() })
      }
    }
    await ensurePersonas(client)
    if (await isSnapshotStale({ client, dataDir, now: new Date() })) {
      say("Computing every patient and month")
      const isOldThere = currentSnapshot(dataDir) !== null
      await runChild({ file: main, args: ["refresh"], env, failure: "There is no snapshot to show." }).catch(
        (error: unknown) => {
          if (!isOldThere || isStopping()) throw error
        },
      )
    }
  } finally {
    await client.$disconnect()
  }
}
