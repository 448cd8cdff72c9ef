import { existsSync, readFileSync, rmSync, statSync } from "node:fs"
import { userInfo } from "node:os"
import path from "node:path"
import { parse } from "csv-parse/sync"
import { afterAll, afterEach, beforeAll, describe, expect, test } from "vitest"
import { openEmbedded } from "../../../lib/store/embedded"
import { filtrate, startFiltrate } from "../../helpers/filtrate"
import { createDatabase } from "../../helpers/open-store"
import { databaseProcess } from "../../helpers/processes"
import { temporaryFolder } from "../../helpers/temporary-folder"
import { waitUntil } from "../../helpers/wait-until"

let temporary: ReturnType<typeof temporaryFolder>
let dataDir: string
let env: Record<string, string>

beforeAll(() => {
  temporary = temporaryFolder()
  dataDir = path.join(temporary.folder, "data")
  env = { FILTRATE_DATA: dataDir, FILTRATE_TIME_ZONE: "UTC" }
})

afterEach(() => {
  expect(databaseProcess(dataDir)).toBeNull()
})

afterAll(() => temporary.remove())

describe("the filtrate command", () => {
  test.each(["start", "import", "refresh", "measures", "patients", "export", "report", "settings"])(
    "%s explains itself with --help",
    async (command) => {
      const finished = await filtrate([command, "--help"], env)

      expect(finished.exitCode).toBe(0)
      expect(finished.stdout).toContain(`Usage: filtrate ${command}`)
      expect(finished.stderr).toBe("")
    },
  )

  test("lists its commands with --help", async () => {
    const finished = await filtrate(["--help"], env)

    expect(finished.exitCode).toBe(0)
    for (const command of [
      "start",
      "import",
      "refresh",
      "measures",
      "patients",
      "export",
      "report",
      "settings",
    ])
      expect(finished.stdout).toContain(`  ${command}`)
  })

  test.each(["nonsense", "measures --nonsense", "export", ""])("fails on `filtrate %s`", async (line) => {
    const finished = await filtrate(line.split(" ").filter(Boolean), env)

    expect(finished.exitCode).not.toBe(0)
    expect(finished.stdout).toBe("")
    expect(finished.stderr).not.toBe("")
  })

  test("says in one sentence what is missing, without a stack", async () => {
    const finished = await filtrate(["measures"], { FILTRATE_DATA: path.join(temporary.folder, "none") })

    expect(finished.exitCode).toBe(1)
    expect(finished.stderr).toContain("no snapshot")
    expect(finished.stderr).not.toMatch(/^\s+at /m)
  })

  test("names a variable that it cannot use", async () => {
    const finished = await filtrate(["measures"], { ...env, FILTRATE_TIME_ZONE: "Mars/Olympus" })

    expect(finished.exitCode).toBe(2)
    expect(finished.stderr).toContain("FILTRATE_TIME_ZONE")
  })

  test("starts the database for the time it needs, and says its progress on stderr only", async () => {
    const finished = await filtrate(["refresh"], env)

    expect(finished.exitCode).toBe(0)
    expect(finished.stdout).toBe("")
    expect(finished.stderr).toContain("Starting the database")
    expect(existsSync(path.join(dataDir, "snapshots", "current.json"))).toBe(true)
  })

  test("uses the database that runs, and leaves it running", async () => {
    const database = await openEmbedded({ dataDir })
    const pid = databaseProcess(dataDir)

    const finished = await filtrate(["refresh"], env)

    expect(finished.exitCode).toBe(0)
    expect(finished.stderr).not.toContain("Starting the database")
    expect(databaseProcess(dataDir)).toBe(pid)
    await database.close()
  })

  test("stops the database it started when it is interrupted", async () => {
    const started = startFiltrate(["refresh"], env)
    await waitUntil("the refresh to be at work", () => started.said().includes("Loaded"))

    if (started.child.pid) process.kill(-started.child.pid, "SIGINT")

    expect((await started.finished).exitCode).toBe(130)
  })

  test("puts up with a reader that goes away", async () => {
    const started = startFiltrate(["measures", "--json"], env)
    started.child.stdout?.destroy()

    const finished = await started.finished

    expect(finished.exitCode).toBe(0)
    expect(finished.stderr).toBe("")
  })

  test("sets what the clinic chose with a reason, and the figures follow", async () => {
    const said = [
      "--set",
      "bp.systolicTarget=120",
      "--set",
      "drugs.several=4",
      "--reason",
      "intensive target",
    ]

    const finished = await filtrate(["settings", ...said, "--json"], env)

    expect(finished.exitCode).toBe(0)
    expect(JSON.parse(finished.stdout).settings).toMatchObject({
      "bp.systolicTarget": 120,
      "drugs.several": 4,
    })
    expect(finished.stderr).toContain("Computing")
    const listed = await filtrate(["settings"], env)
    expect(listed.stdout).toMatch(/^drugs\.several +4 +Several classes: 4 classes {2}\(default 3\)$/m)
  })

  test.each([
    [["--set", "bp.systolicTarget=120"], "needs a --reason"],
    [["--set", "bp.systolicTarget=40", "--reason", "a slip"], "40 is outside"],
    [["--set", "bp.colour=red", "--reason", "a slip"], 'no setting "bp.colour"'],
    [["--set", "bp.systolicTarget", "--reason", "a slip"], "takes key=value"],
  ])("refuses settings %j", async (options, says) => {
    const finished = await filtrate(["settings", ...options], env)

    expect(finished.exitCode).toBe(2)
    expect(finished.stdout).toBe("")
    expect(finished.stderr).toContain(says)
  })

  test("what a command prints and does is in the audit log first, under the user of the operating system", async () => {
    const file = path.join(temporary.folder, "log.csv")
    await filtrate(["measures"], env)
    await filtrate(["patients", "--json"], env)
    await filtrate(["export", "bp-at-target"], env)
    await filtrate(["users"], env)
    const exported = await filtrate(["audit", "export", "--out", file], env)
    const again = await filtrate(["audit", "export", "--out", file], env)

    expect(exported.exitCode).toBe(0)
    expect(exported.stdout).toBe("")
    expect(again.exitCode).toBe(2)
    const rows: Record<string, string>[] = parse(readFileSync(file, "utf8"), { columns: true })
    const latest = rows.slice(0, 5).map((row) => `${row.origin} ${row.action} ${row.object}`)
    expect(latest).toEqual([
      "command audit.export ",
      "command users.list ",
      "command patients.export measure",
      "command patients.export panel",
      "command figures.print ",
    ])
    expect(rows.map((row) => row.action)).toEqual(
      expect.arrayContaining(["figures.build", "settings.change"]),
    )
    expect(new Set(rows.map((row) => row.actor))).toEqual(new Set([`command:${userInfo().username}`]))
    expect(statSync(file).mode & 0o777).toBe(0o600)
  }, 180_000)

  test("verifies the audit log, and ends with 1 where it is not whole", async () => {
    const whole = await filtrate(["audit", "verify"], env)
    rmSync(path.join(dataDir, "audit-anchors"))
    const broken = await filtrate(["audit", "verify"], env)

    expect(whole.exitCode).toBe(0)
    expect(whole.stdout).toMatch(/^The audit log is whole: \d+ entries/)
    expect(broken.exitCode).toBe(1)
    expect(broken.stderr).toContain("the file audit-anchors of the data folder is gone")
  })

  test("works on the Postgres of DATABASE_URL", async () => {
    const own = await createDatabase()
    const elsewhere = path.join(temporary.folder, "elsewhere")

    const finished = await filtrate(["refresh"], { FILTRATE_DATA: elsewhere, DATABASE_URL: own.url })

    expect(finished.exitCode).toBe(0)
    expect(existsSync(path.join(elsewhere, "postgres"))).toBe(false)
    await own.drop()
  })
})
