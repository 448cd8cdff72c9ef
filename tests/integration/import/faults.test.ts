import { closeSync, mkdirSync, openSync, readFileSync, writeFileSync, writeSync } from "node:fs"
import path from "node:path"
import { setTimeout as delay } from "node:timers/promises"
import pg from "pg"
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, test } from "vitest"
import { AppError } from "../../../lib/errors"
import type { ImportOptions } from "../../../lib/import/run"
import { openClient } from "../../../lib/store/client"
import { importFailure } from "../../../lib/store/connect"
import { openEmbedded } from "../../../lib/store/embedded"
import { lockClasses } from "../../../lib/store/import-record"
import { migrate } from "../../../prisma/migrate"
import { counts, importExtract, openFolder, writeExtract, type ExtractFiles } from "../../helpers/extract"
import { startImportProcess } from "../../helpers/import-process"
import { clearStore, inForce, ledgerSums, rejectedRows } from "../../helpers/ledger-rows"
import { openStore, type TestStore } from "../../helpers/open-store"

const folder = openFolder()
let store: TestStore

beforeAll(async () => {
  store = await openStore()
})
beforeEach(() => clearStore(store))
afterAll(async () => {
  await store.close()
  folder.close()
})

const patients = [
  "patient_id,birth_date,sex,registered_on",
  ...Array.from({ length: 50 }, (_, index) => `P${index},1960-05-01,female,2020-01-01`),
]
const staff = ["staff_id,name,role", "S1,Dr A,nurse"]

/** An extract of which a part is new, a part changed, a part the same, a part retracted, whatever was there before. */
function extract(version: number): ExtractFiles {
  const day = (index: number) => `2026-02-${String((index % 27) + 1).padStart(2, "0")}`
  const many = Array.from({ length: 3000 }, (_, index) => index)
  return {
    staff,
    patients,
    visits: [
      "visit_id,patient_id,started_on,kind,retracted",
      ...many.map(
        (index) => `V${index + version * 500},P${index % 50},${day(index + version)},office,${index === 7}`,
      ),
    ],
    readings: [
      "patient_id,taken_at,systolic,diastolic,setting,pulse",
      ...many.map(
        (index) => `P${index % 50},${day(index)},${120 + (index % 40)},80,home,${60 + version + (index % 3)}`,
      ),
    ],
    labs: [
      "patient_id,collected_at,test,value,unit",
      ...many.map((index) => `P${index % 50},${day(index)},potassium,4.${version + (index % 5)},mmol/L`),
    ],
    diet: [
      "patient_id,recorded_on,method,sodium_mg",
      ...many.slice(0, 50).map((index) => `P${index},${day(index)},recall_24h,3${version}00`),
    ],
  }
}

function run(files: ExtractFiles, options: Partial<ImportOptions> = {}) {
  return importExtract(store, folder.dir, files, options)
}

async function statuses(): Promise<string[]> {
  const { rows } = await store.client.query("select status from imports order by id")
  return rows.map((row) => String(row.status))
}

/** What is in force, whichever import and line brought it. */
async function factsInForce(): Promise<string> {
  const kinds = ["staff", "patients", "visits", "readings", "labs", "diet"] as const
  const facts: string[][] = []
  for (const kind of kinds) facts.push((await inForce(store, kind)).map((row) => JSON.stringify(row)).sort())
  return JSON.stringify(facts)
}

describe("a process killed at any step leaves the clinic as it was", () => {
  test.each([
    ...[
      "Reading staff.csv",
      "Reading patients.csv",
      "Reading readings.csv",
      "Reading labs.csv",
      "Reading diet.csv",
    ],
    ...["Checking what earlier imports held", "Saving"],
  ])(
    "at: %s",
    async (step) => {
      await run(extract(1))
      const before = await ledgerSums(store)
      const location = writeExtract(folder.dir, extract(2))

      const child = startImportProcess({
        databaseUrl: store.url,
        dataDir: path.join(folder.dir, "data"),
        location,
      })
      await child.killWhenItSays(step)
      await untilNobodyImports()

      const after = await ledgerSums(store)
      const isStored = (await statuses()).at(-1) === "done"
      // Whether the last word reached the server before the kill is open; half of it is not.
      if (step !== "Saving" || !isStored) expect(after).toEqual(before)
      const again = await run(extract(2))
      if (isStored) expect(again.files.every((file) => file.added + file.changed === 0)).toBe(true)
      expect(await statuses()).toEqual(["done", isStored ? "done" : "failed", "done"])

      const interrupted = await factsInForce()
      await clearStore(store)
      await run(extract(1))
      await run(extract(2))
      expect(interrupted).toBe(await factsInForce())
    },
    180_000,
  )
})

async function untilNobodyImports(): Promise<void> {
  const patience = performance.now() + 60_000
  for (;;) {
    const { rows } = await store.client.query(
      `select classid, objid, pid, granted from pg_locks
       where locktype = 'advisory' and classid in ($1, $2)
         and database = (select oid from pg_database where datname = current_database())`,
      [lockClasses.store, lockClasses.alive],
    )
    if (rows.length === 0) return
    if (performance.now() > patience) throw new Error(`an import still holds ${JSON.stringify(rows)}`)
    await delay(20)
  }
}

describe("a database that goes away", () => {
  test("killed in the middle of an import, it comes back with the clinic as it was", async () => {
    const dataDir = path.join(folder.dir, "own-server")
    const extraSettings = { fsync: "off", full_page_writes: "off" }
    const server = await openEmbedded({ dataDir, extraSettings })
    await migrate(server.url)
    const own = await storeAt(server.url)
    await importExtract(own, folder.dir, extract(1))
    const before = await ledgerSums(own)
    await own.close()

    const say = (line: string) => {
      if (line === "Reading labs.csv") process.kill(postmasterOf(server.pidFile ?? ""), "SIGKILL")
    }
    const failure = await importExtract({ url: server.url }, folder.dir, extract(2), { say }).catch(
      (error: unknown) => error,
    )

    expect(failure).toMatchObject({
      code: "store-unavailable",
      personMessage: expect.stringContaining("Nothing was stored"),
    })
    const revived = await openEmbedded({ dataDir, extraSettings })
    const again = await storeAt(revived.url)
    expect(await ledgerSums(again)).toEqual(before)
    const outcome = await importExtract(again, folder.dir, extract(2))
    expect(counts(outcome, "labs").changed).toBeGreaterThan(0)
    await again.close()
    await revived.close()
    await server.close()
  })

  test("ended by its administrator, it is told apart from a fault of the program", async () => {
    let ending: Promise<unknown> = Promise.resolve()
    const end = (line: string) => {
      if (line !== "Reading visits.csv") return
      ending = store.client.query(
        "select pg_terminate_backend(pid) from pg_stat_activity where datname = current_database() and pid <> pg_backend_pid()",
      )
    }

    await expect(run(extract(1), { say: end })).rejects.toMatchObject({ code: "store-unavailable" })
    await ending
    expect(await inForce(store, "patients")).toEqual([])
  })
})

async function storeAt(url: string): Promise<TestStore> {
  const client = new pg.Client({ connectionString: url })
  await client.connect()
  const prisma = openClient(url)
  return {
    ...{ url, client, prisma },
    close: async () => {
      await prisma.$disconnect()
      await client.end()
    },
  }
}

function postmasterOf(pidFile: string): number {
  return Number(readFileSync(pidFile, "utf8").split("\n")[0])
}

describe("a full disk", () => {
  afterEach(() =>
    store.client.query("drop trigger if exists no_space on diet_records; drop function if exists no_space()"),
  )

  test("reported by the server stores nothing, loses nothing, and is said in words", async () => {
    await run(extract(1))
    const before = await ledgerSums(store)
    await store.client.query(`
      create function no_space() returns trigger language plpgsql as
      $$ begin raise exception 'could not extend file: No space left on device' using errcode = '53100'; end $$;
      create trigger no_space before insert on diet_records for each statement execute function no_space()`)

    const failure = await run(extract(2)).catch((error: unknown) => error)

    expect(failure).toMatchObject({
      code: "disk-full",
      personMessage: expect.stringContaining("The disk is full. Nothing was stored"),
    })
    expect(await ledgerSums(store)).toEqual(before)
    const { rows } = await store.client.query("select status, message from imports order by id desc limit 1")
    expect(rows).toEqual([{ status: "failed", message: expect.stringContaining("The disk is full") }])
  })

  test("met by the import itself is told the same way", () => {
    const met = Object.assign(new Error("write"), { code: "ENOSPC" })
    expect(importFailure(met)).toMatchObject({ code: "disk-full" })
    expect(importFailure(new RangeError("other"))).toBeInstanceOf(RangeError)
  })
})

describe("two imports at once", () => {
  test("the second waits, says so, and goes on when the first is done", async () => {
    const said: string[] = []
    const first = new pg.Client({ connectionString: store.url })
    await first.connect()
    await first.query("select pg_advisory_lock($1, 0)", [lockClasses.store])

    const second = run({ patients }, { say: (line) => void said.push(line) })
    while ((await statuses())[0] !== "waiting") await delay(20)
    expect(said).toEqual(["Another import is running; this one waits for it."])
    expect(await inForce(store, "patients")).toEqual([])
    await first.end()

    expect((await second).status).toBe("done")
    expect(await inForce(store, "patients")).toHaveLength(50)
  })

  test("it does not wait for ever", async () => {
    const first = new pg.Client({ connectionString: store.url })
    await first.connect()
    await first.query("select pg_advisory_lock($1, 0)", [lockClasses.store])

    await expect(run({ patients }, { waitMs: 100 })).rejects.toMatchObject({ code: "import-running" })
    await first.end()
    expect(await statuses()).toEqual(["failed"])
  })

  test("both are stored as if one had come after the other", async () => {
    const outcomes = await Promise.all([run(extract(1)), run(extract(1)), run(extract(1))])

    const added = outcomes.map((outcome) => counts(outcome, "readings").added).sort((a, b) => a - b)
    expect(added).toEqual([0, 0, 3000])
    expect(await statuses()).toEqual(["done", "done", "done"])
  })
})

describe("bad input is refused and on record", () => {
  test("a folder with none of the files", async () => {
    await expect(run({ "lab.csv": "x" })).rejects.toBeInstanceOf(AppError)

    const { rows } = await store.client.query(
      "select status, message, finished_at is not null as is_over from imports",
    )
    expect(rows).toEqual([
      { status: "refused", message: expect.stringContaining("None of the files"), is_over: true },
    ])
  })

  test("ten million columns on one line cost that line", async () => {
    const header = "patient_id,birth_date,sex,registered_on\n"
    const content = Buffer.concat([
      Buffer.from(`${header}P1,1960-05-01,female,2020-01-01\n`),
      Buffer.alloc(10_000_000, ","),
      Buffer.from("\nP2,1960-05-01,male,2020-01-01\n"),
    ])
    const outcome = await run({ patients: content })

    expect(counts(outcome, "patients")).toMatchObject({ dataRows: 3, added: 2, rejected: 1 })
    expect(await rejectedRows(store, outcome.importId)).toMatchObject([
      { line: 3, code: "too-long", message: "the line is longer than a million characters" },
    ])
  })

  test("ten million columns in the first line cost that file", async () => {
    const content = Buffer.concat([
      Buffer.alloc(10_000_000, "a,"),
      Buffer.from("\nP1,1960-05-01,female,2020-01-01\n"),
    ])
    const outcome = await run({ staff, patients: content })

    expect(counts(outcome, "staff")).toMatchObject({ added: 1 })
    expect(outcome.files[1]).toMatchObject({ isRejected: true, dataRows: 1, rejected: 1 })
    expect(outcome.files[1]?.notes.problem).toBe("the first line is too long to be column names")
  })
})

test("a file many times larger than the memory is read in the memory there is", async () => {
  const location = path.join(folder.dir, "large")
  mkdirSync(location)
  writeFileSync(path.join(location, "staff.csv"), "staff_id,name,role\nS1,Dr A,nurse\n")
  const file = openSync(path.join(location, "patients.csv"), "w")
  writeSync(file, 'patient_id,birth_date,sex,registered_on\nP1,"never closed,female,2020-01-01\n')
  const filler = Buffer.from(`${"x".repeat(999)}\n`.repeat(1000))
  for (let written = 0; written < 400; written += 1) writeSync(file, filler)
  closeSync(file)

  const child = startImportProcess({
    ...{ databaseUrl: store.url, dataDir: path.join(folder.dir, "data"), location },
    ...{ flags: ["--dry-run", "--json"], nodeFlags: ["--max-old-space-size=80"] },
  })
  const { code, out } = await child.end()

  expect(code).toBe(0)
  expect(JSON.parse(out)).toMatchObject({
    files: [{ added: 1 }, { dataRows: 400_001, rejected: 400_001 }],
    question: { rejects: [{ file: "patients.csv", rejected: 400_001 }] },
  })
})
