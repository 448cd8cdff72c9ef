import { existsSync } from "node:fs"
import { createServer, connect } from "node:net"
import { once } from "node:events"
import { networkInterfaces } from "node:os"
import path from "node:path"
import { afterEach, beforeEach, describe, expect, test } from "vitest"
import { measures } from "../../../lib/measures/index"
import { openClient } from "../../../lib/store/client"
import { openEmbedded } from "../../../lib/store/embedded"
import { isAlive } from "../../../lib/store/processes"
import { filtrate, freePort, startFiltrate, startSite } from "../../helpers/filtrate"
import { createDatabase } from "../../helpers/open-store"
import { databaseProcess, killLeftovers, processesOf } from "../../helpers/processes"
import { temporaryFolder } from "../../helpers/temporary-folder"
import { waitUntil } from "../../helpers/wait-until"

// The first start of a run builds the site.
const whileBuilding = 240_000

let temporary: ReturnType<typeof temporaryFolder>
let dataDir: string
let port: number
let env: Record<string, string>

beforeEach(async () => {
  temporary = temporaryFolder()
  dataDir = path.join(temporary.folder, "data")
  port = await freePort()
  env = {
    FILTRATE_DATA: dataDir,
    PORT: String(port),
    FILTRATE_DEMO: "off",
    FILTRATE_TIME_ZONE: "Europe/Oslo",
  }
})

afterEach(async () => {
  killLeftovers(dataDir)
  await waitUntil("the database to be gone", () => databaseProcess(dataDir) === null)
  temporary.remove()
})

describe("filtrate start", () => {
  test(
    "brings up an empty clinic, stops all of it on Ctrl-C, and keeps the data for the next start",
    async () => {
      const first = await startSite(env)
      expect(first.url).toBe(`http://localhost:${port}`)
      expect((await fetch(first.url)).status).toBe(200)
      const running = processesOf(dataDir)
      const madeAt = await clinicMadeAt()
      const asked = await filtrate(["measures", "--json"], env)
      expect(JSON.parse(asked.stdout).measures).toHaveLength(measures.length + 1) // and the mean sodium

      pressCtrlC(first.child.pid)
      const finished = await first.finished

      expect(finished.exitCode).toBe(0)
      expect(finished.stdout).toBe(`http://localhost:${port}\n`)
      expect(finished.stderr).toContain("127.0.0.1 only")
      expect(Object.values(running).filter(isAlive)).toEqual([])

      const second = await startSite(env)
      expect(await clinicMadeAt()).toEqual(madeAt)
      expect(second.said()).not.toContain("Building")
      second.child.kill("SIGTERM")
      expect((await second.finished).exitCode).toBe(0)
    },
    whileBuilding,
  )

  test("listens on this machine only", async () => {
    const site = await startSite(env)
    const outside = Object.values(networkInterfaces())
      .flatMap((addresses) => addresses ?? [])
      .filter((address) => !address.internal && address.family === "IPv4")
      .map((address) => address.address)

    expect(await canConnect("127.0.0.1")).toBe(true)
    for (const address of outside) expect(await canConnect(address)).toBe(false)

    site.child.kill("SIGTERM")
    await site.finished
  }, 120_000)

  test("says which variable to set when the port is taken, before any other work", async () => {
    const other = createServer().listen(port, "127.0.0.1")
    await once(other, "listening")

    const finished = await filtrate(["start"], env)

    expect(finished.exitCode).toBe(1)
    expect(finished.stderr).toMatch(new RegExp(`Port ${port} is taken.*PORT=`))
    expect(finished.stdout).toBe("")
    expect(existsSync(path.join(dataDir, "postgres"))).toBe(false)
    other.close()
  })

  test("says where the site of the same data already runs", async () => {
    const site = await startSite(env)

    const second = await filtrate(["start"], { ...env, PORT: String(await freePort()) })

    expect(second.exitCode).toBe(1)
    expect(second.stderr).toContain(`already runs on this data at http://localhost:${port}`)
    expect((await fetch(site.url)).status).toBe(200)
    site.child.kill("SIGTERM")
    await site.finished
  }, 120_000)

  test("leaves nothing running when the command itself is killed", async () => {
    const site = await startSite(env)
    const running = processesOf(dataDir)

    process.kill(running.command, "SIGKILL")

    await site.finished
    await waitUntil("the site to end", () => !isAlive(running.site))
    await waitUntil("the database to end", () => !isAlive(running.database))
  }, 120_000)

  test("ends in order when the process above it is killed", async () => {
    const site = await startSite(env)
    const running = processesOf(dataDir)

    site.child.kill("SIGKILL")

    await waitUntil("everything to end", () => !Object.values(running).some(isAlive))
    expect(existsSync(path.join(dataDir, "site.json"))).toBe(false)
  }, 120_000)

  test("recovers by itself after everything was killed", async () => {
    const killed = await startSite(env)
    const madeAt = await clinicMadeAt()
    for (const pid of Object.values(processesOf(dataDir))) process.kill(pid, "SIGKILL")
    await killed.finished

    const again = await startSite(env)

    expect((await fetch(again.url)).status).toBe(200)
    expect(await clinicMadeAt()).toEqual(madeAt)
    again.child.kill("SIGTERM")
    expect((await again.finished).exitCode).toBe(0)
  }, 120_000)

  test("can be stopped in the middle of coming up", async () => {
    const starting = startFiltrate(["start"], env)
    await waitUntil("the database to run", () => databaseProcess(dataDir))

    pressCtrlC(starting.child.pid)
    const finished = await starting.finished

    expect(finished.exitCode).toBe(0)
    expect(finished.stdout).toBe("")
    expect(databaseProcess(dataDir)).toBeNull()
    expect(existsSync(path.join(dataDir, "site.json"))).toBe(false)
  }, 120_000)

  test("uses the Postgres of DATABASE_URL and starts none of its own", async () => {
    const own = await createDatabase()

    const site = await startSite({ ...env, DATABASE_URL: own.url })

    expect((await fetch(site.url)).status).toBe(200)
    expect(existsSync(path.join(dataDir, "postgres"))).toBe(false)
    const client = openClient(own.url)
    expect((await client.clinic.findUniqueOrThrow({ where: { id: 1 } })).timeZone).toBe("Europe/Oslo")
    await client.$disconnect()
    site.child.kill("SIGTERM")
    await site.finished
    await own.drop()
  }, 120_000)
})

/** As a terminal does it: the signal goes to the whole group at once. */
function pressCtrlC(leader: number | undefined): void {
  if (leader) process.kill(-leader, "SIGINT")
}

async function clinicMadeAt(): Promise<Date> {
  const database = await openEmbedded({ dataDir })
  const client = openClient(database.url)
  const clinic = await client.clinic.findUniqueOrThrow({ where: { id: 1 } })
  await client.$disconnect()
  await database.close()
  return clinic.createdAt
}

function canConnect(host: string): Promise<boolean> {
  return new Promise((resolve) => {
    const socket = connect({ host, port, timeout: 2000 })
    const end = (answer: boolean) => {
      socket.destroy()
      resolve(answer)
    }
    socket.once("connect", () => end(true))
    socket.once("error", () => end(false))
    socket.once("timeout", () => end(false))
  })
}
