import { spawn, type ChildProcess } from "node:child_process"
import { once } from "node:events"
import { chmodSync, existsSync, readFileSync, realpathSync, rmSync, statSync, writeFileSync } from "node:fs"
import path from "node:path"
import { createInterface } from "node:readline"
import { fileURLToPath } from "node:url"
import pg from "pg"
import { afterEach, beforeEach, describe, expect, test } from "vitest"
import { openEmbedded } from "../../../lib/store/embedded"
import { isAlive } from "../../../lib/store/processes"
import { temporaryFolder } from "../../helpers/temporary-folder"
import { waitUntil } from "../../helpers/wait-until"

const userProgram = fileURLToPath(new URL("../../helpers/database-user.ts", import.meta.url))

let temporary: ReturnType<typeof temporaryFolder>
let dataDir: string

beforeEach(() => {
  temporary = temporaryFolder()
  dataDir = path.join(temporary.folder, "data")
})

afterEach(async () => {
  const pid = serverPid()
  if (pid) process.kill(pid, "SIGQUIT")
  await waitUntil("the server to be gone", () => serverPid() === null)
  temporary.remove()
})

describe("the embedded database", () => {
  test("keeps its data from one start to the next", async () => {
    const first = await openEmbedded({ dataDir })
    await query(first.url, "create table kept as select 42 as answer")
    await first.close()
    expect(serverPid()).toBeNull()

    const second = await openEmbedded({ dataDir })

    expect(await query(second.url, "select answer from kept")).toEqual([{ answer: 42 }])
    await second.close()
  })

  test("is UTF-8, sorts by bytes, makes every commit durable and takes no one from outside", async () => {
    const database = await openEmbedded({ dataDir })

    const [row] = await query(
      database.url,
      `select current_setting('server_encoding') as encoding, datcollate as collation,
         current_setting('fsync') as fsync, current_setting('synchronous_commit') as commit,
         current_setting('full_page_writes') as pages, current_setting('listen_addresses') as addresses
       from pg_database where datname = current_database()`,
    )

    expect(row).toEqual({
      encoding: "UTF8",
      collation: "C",
      fsync: "on",
      commit: "on",
      pages: "on",
      addresses: "127.0.0.1",
    })
    await database.close()
  })

  test("asks for a password that only its owner can read", async () => {
    const database = await openEmbedded({ dataDir })
    const wrong = new URL(database.url)
    wrong.password = "guess"

    await expect(query(wrong.href, "select 1")).rejects.toThrow("password authentication failed")

    expect(statSync(path.join(dataDir, "postgres-password")).mode & 0o777).toBe(0o600)
    await database.close()
  })

  test("stops only when the last of its users leaves", async () => {
    const first = await openEmbedded({ dataDir })
    const second = await openEmbedded({ dataDir })
    expect(second.url).toBe(first.url)

    await first.close()
    expect(await query(second.url, "select 1 as one")).toEqual([{ one: 1 }])

    await second.close()
    expect(serverPid()).toBeNull()
  })

  test("is started once by processes that begin at the same moment, and stopped by the last", async () => {
    const users = await Promise.all([startUser(), startUser(), startUser()])
    expect(new Set(users.map((user) => user.url)).size).toBe(1)

    for (const user of users) {
      expect(serverPid()).not.toBeNull()
      user.child.stdin?.end()
      await once(user.child, "exit")
    }

    expect(serverPid()).toBeNull()
  })

  test("is joined by the next user after the process that started it was killed", async () => {
    const killed = await startUser()
    const pid = serverPid()
    killed.child.kill("SIGKILL")
    await once(killed.child, "exit")

    const next = await openEmbedded({ dataDir })

    expect(next.url).toBe(killed.url)
    expect(serverPid()).toBe(pid)
    await next.close()
    expect(serverPid()).toBeNull()
  })

  test("comes up with its data after everything was killed at once", async () => {
    const killed = await startUser()
    await query(killed.url, "create table kept as select 42 as answer")
    const pid = serverPid() ?? 0
    process.kill(pid, "SIGKILL")
    killed.child.kill("SIGKILL")
    await once(killed.child, "exit")

    const next = await openEmbedded({ dataDir })

    expect(serverPid()).not.toBe(pid)
    expect(await query(next.url, "select answer from kept")).toEqual([{ answer: 42 }])
    await next.close()
  })

  test("starts although the note of an earlier server names a process that is now another program's", async () => {
    const first = await openEmbedded({ dataDir })
    const note = readFileSync(pidFile(), "utf8").split("\n")
    await first.close()
    writeFileSync(pidFile(), [String(process.pid), ...note.slice(1)].join("\n"))

    const second = await openEmbedded({ dataDir })

    expect(await query(second.url, "select 1 as one")).toEqual([{ one: 1 }])
    await second.close()
  })

  test("does not wait for the lock of a process that is gone", async () => {
    const first = await openEmbedded({ dataDir })
    await first.close()
    writeFileSync(path.join(dataDir, "postgres.lock"), "999999999 1")

    const second = await openEmbedded({ dataDir })

    await second.close()
    expect(existsSync(path.join(dataDir, "postgres.lock"))).toBe(false)
  })

  test("is brought back at the same address when the server dies under its user", async () => {
    const database = await openEmbedded({ dataDir })
    await query(database.url, "create table kept as select 42 as answer")
    process.kill(serverPid() ?? 0, "SIGKILL")

    const rows = await waitUntil("the server to answer again", () =>
      query(database.url, "select answer from kept").catch(() => null),
    )

    expect(rows).toEqual([{ answer: 42 }])
    await database.close()
    expect(serverPid()).toBeNull()
  })

  test("works in a folder that nobody but its owner can enter", async () => {
    chmodSync(temporary.folder, 0o700)
    const first = await openEmbedded({ dataDir })
    await query(first.url, "create table kept as select 42 as answer")
    await first.close()

    const second = await openEmbedded({ dataDir })

    expect(await query(second.url, "select answer from kept")).toEqual([{ answer: 42 }])
    await second.close()
    // Under root the cluster lives elsewhere, with a link from here.
    rmSync(path.dirname(realpathSync(path.join(dataDir, "postgres"))), { recursive: true })
  })

  test("says which folder it cannot write", async () => {
    const file = path.join(temporary.folder, "file")
    writeFileSync(file, "")

    await expect(openEmbedded({ dataDir: path.join(file, "data") })).rejects.toThrow("FILTRATE_DATA")
  })

  test("says which file is missing when the password is gone", async () => {
    const first = await openEmbedded({ dataDir })
    await first.close()
    rmSync(path.join(dataDir, "postgres-password"))

    await expect(openEmbedded({ dataDir })).rejects.toThrow("postgres-password")

    expect(serverPid()).toBeNull()
  })
})

async function startUser(): Promise<{ child: ChildProcess; url: string }> {
  const child = spawn(
    process.execPath,
    ["--conditions=react-server", "--import", "tsx", userProgram, dataDir],
    { stdio: ["pipe", "pipe", "inherit"] },
  )
  const lines = createInterface({ input: child.stdout })
  const [url] = await once(lines, "line")
  return { child, url: String(url) }
}

function pidFile(): string {
  return path.join(dataDir, "postgres", "postmaster.pid")
}

function serverPid(): number | null {
  if (!existsSync(pidFile())) return null
  const pid = Number(readFileSync(pidFile(), "utf8").split("\n")[0])
  return isAlive(pid) && pid !== process.pid ? pid : null
}

async function query(url: string, sql: string): Promise<Record<string, unknown>[]> {
  const client = new pg.Client({ connectionString: url })
  client.on("error", () => {})
  await client.connect()
  try {
    const outcome = await client.query<Record<string, unknown>>(sql)
    return outcome.rows
  } finally {
    await client.end()
  }
}
