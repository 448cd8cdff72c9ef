import { existsSync, readFileSync, statSync, writeFileSync } from "node:fs"
import path from "node:path"
import pg from "pg"
import { afterEach, beforeEach, describe, expect, test } from "vitest"
import { openClient } from "../../../lib/store/client"
import { openDatabase } from "../../../lib/store/database"
import { siteKey } from "../../../lib/store/secrets"
import { filtrate, freePort } from "../../helpers/filtrate"
import { createDatabase } from "../../helpers/open-store"
import { bareEnvironment } from "../../helpers/signed-in"
import { temporaryFolder } from "../../helpers/temporary-folder"

let temporary: ReturnType<typeof temporaryFolder>
let dataDir: string
let env: Record<string, string>

beforeEach(async () => {
  temporary = temporaryFolder()
  dataDir = path.join(temporary.folder, "data")
  env = {
    FILTRATE_DATA: dataDir,
    PORT: String(await freePort()),
    FILTRATE_DEMO: "off",
    FILTRATE_TIME_ZONE: "UTC",
  }
})

afterEach(() => temporary.remove())

describe("a start with a key that protects nothing is refused before anything else,", () => {
  test.each(["short", "A".repeat(42), "A".repeat(44), "not base64url at all, but long enough for it"])(
    "as by FILTRATE_SECRET_KEY=%s",
    async (key) => {
      const finished = await filtrate(["start"], { ...env, FILTRATE_SECRET_KEY: key })

      expect(finished.exitCode).toBe(1)
      expect(finished.stderr).toContain("FILTRATE_SECRET_KEY does not hold a key of 32 bytes in base64url.")
      expect(finished.stderr).not.toContain(key)
      expect(existsSync(path.join(dataDir, "postgres"))).toBe(false)
    },
  )

  test("as by a file that was cut short", async () => {
    siteKey(dataDir)
    writeFileSync(path.join(dataDir, "secret-key"), "cut")

    const finished = await filtrate(["start"], env)

    expect(finished.exitCode).toBe(1)
    expect(finished.stderr).toContain(
      "The file secret-key of the data folder does not hold a key of 32 bytes",
    )
  })
})

test("a key is made once, of 32 bytes, for nobody but the user of the installation to read", () => {
  const key = siteKey(dataDir)
  const file = path.join(dataDir, "secret-key")

  expect(key).toHaveLength(32)
  expect(siteKey(dataDir)).toEqual(key)
  expect(statSync(file).mode & 0o777).toBe(0o600)
  expect(readFileSync(file, "utf8").trim()).toBe(key.toString("base64url"))
})

test("the site's own role, where one is named, gets what the site needs and no more", async () => {
  const own = await createDatabase("store_template")
  const role = `site_${path.basename(new URL(own.url).pathname)}`
  const owner = new pg.Client({ connectionString: own.url })
  await owner.connect()
  await owner.query(`create role ${role} login password 'of the test'`)
  const app = new URL(own.url)
  app.username = role
  app.password = "of the test"
  const environment = { ...bareEnvironment, dataDir, databaseUrl: own.url, appDatabaseUrl: app.href }

  const { urls } = await openDatabase({ environment })

  expect(urls).toEqual({ app: app.href, import: own.url, snapshot: own.url })
  const client = new pg.Client({ connectionString: urls.app })
  await client.connect()
  await expect(client.query("select * from settings")).resolves.toMatchObject({ rows: [] })
  await expect(client.query("delete from audit_entries")).rejects.toThrow("permission denied")
  await expect(client.query("create table own (id int)")).rejects.toThrow("permission denied")
  await client.end()
  await owner.query(`drop owned by ${role}`)
  await owner.query(`drop role ${role}`)
  await owner.end()
  await own.drop()
})

describe("filtrate users", () => {
  test("invites, lists and disables, and the link is good for a password", async () => {
    const own = await createDatabase("store_template")
    const shell = { ...env, DATABASE_URL: own.url }
    const users = (...args: string[]) => filtrate(["users", ...args], shell)

    const invited = await users(
      "invite",
      "noor",
      "--name",
      "Noor Haddad",
      "--role",
      "nurse",
      "--role",
      "dietitian",
    )
    const again = await users("invite", "noor", "--name", "Noor Haddad", "--role", "nurse")
    const listed = await users()
    const disabled = await users("disable", "noor")

    expect(invited.stdout).toMatch(/^http:\/\/localhost:\d+\/setup\/[\w-]{43}\n$/)
    expect([again.exitCode, again.stderr.trim()]).toEqual([2, "This user name is taken."])
    expect(listed.stdout).toContain("noor\tNoor Haddad\tnurse dietitian\tenabled")
    expect(disabled.stdout).toContain("noor is disabled")
    const client = openClient(own.url)
    const entries = await client.auditEntry.findMany({
      where: { origin: "command" },
      orderBy: { seq: "asc" },
    })
    await client.$disconnect()
    expect(entries.map((entry) => entry.action)).toEqual(
      expect.arrayContaining(["user.make", "user.disable"]),
    )
    await own.drop()
  })

  test.each([
    [["invite", "x"], "A user name is needed"],
    [["invite", "noor"], "needs a --name and at least one --role"],
    [["invite", "noor", "--name", "Noor", "--role", "god"], "The roles are"],
    [["disable", "nobody"], "There is no such account."],
    [["elevate", "noor"], "The actions are"],
  ])("refuses %j", async (args, words) => {
    const own = await createDatabase("store_template")

    const finished = await filtrate(["users", ...args], { ...env, DATABASE_URL: own.url })

    expect(finished.exitCode).toBeGreaterThan(0)
    expect(finished.stderr).toContain(words)
    expect(finished.stderr).not.toMatch(/^\s+at /m)
    await own.drop()
  })
})
