import { readFileSync, statSync } from "node:fs"
import path from "node:path"
import pg from "pg"
import { afterAll, beforeAll, describe, expect, test } from "vitest"
import { wholeClinic, type Scope } from "../../../lib/access/scope"
import { plainToday } from "../../../lib/domain/plain-date"
import { buildSnapshot } from "../../../lib/engine/build"
import { openClient } from "../../../lib/store/client"
import { ensureDatabaseRoles, type RoleUrls } from "../../../lib/store/database-roles"
import { inScope } from "../../../lib/store/in-scope"
import { patientTables, rightsByTable } from "../../../lib/store/rights"
import { counts, importExtract, openFolder } from "../../helpers/extract"
import { openStore, type TestStore } from "../../helpers/open-store"

const folder = openFolder()
let store: TestStore
let urls: RoleUrls
let app: pg.Client

const extract = {
  staff: ["staff_id,name,role,site", "S-1,Dr A,nephrologist,North", "S-2,Dr B,nephrologist,South"],
  patients: [
    "patient_id,birth_date,sex,registered_on,clinician_id,site,merged_into,is_test",
    "A1,1960-05-01,female,2020-01-01,S-1,North,,",
    "A2,1961-05-01,male,2020-01-01,S-1,South,,",
    "B1,1962-05-01,female,2020-01-01,S-2,South,,",
    "B2,1963-05-01,female,2020-01-01,,,,",
    "OLD,1960-05-01,female,2020-01-01,S-2,South,A1,",
    "TEST,1960-05-01,female,2020-01-01,S-1,North,,yes",
  ],
  visits: [
    "visit_id,patient_id,started_on,kind",
    ...["A1", "A2", "B1", "B2", "OLD", "TEST"].map((id) => `V-${id},${id},2026-01-10,office`),
  ],
}

beforeAll(async () => {
  store = await openStore()
  urls = await ensureDatabaseRoles({ url: store.url, dataDir: folder.dir, appUrl: undefined })
  await store.prisma.clinic.create({ data: { name: "Test clinic", timeZone: "America/Chicago" } })
  const outcome = await importExtract({ url: urls.import }, folder.dir, extract)
  expect(outcome.status).toBe("done")
  app = await connected(urls.app)
})

afterAll(async () => {
  await app.end()
  await store.close()
  folder.close()
})

async function connected(url: string): Promise<pg.Client> {
  const client = new pg.Client({ connectionString: url })
  await client.connect()
  return client
}

async function seenBy(scope: Scope): Promise<string[]> {
  const client = openClient(urls.app)
  try {
    const visits = await inScope(client, scope, (own) => own.visit.findMany({ select: { patientId: true } }))
    return visits.map((visit) => visit.patientId).sort()
  } finally {
    await client.$disconnect()
  }
}

const everybody = ["A1", "A2", "B1", "B2", "OLD", "TEST"]

describe("every table about patients", () => {
  test("forces row security, and is on the list of those that do", async () => {
    const found = await store.client.query<{ name: string; forced: boolean }>(
      `select c.relname as name, c.relrowsecurity and c.relforcerowsecurity as forced
       from pg_class c
       where c.relkind = 'r' and c.relnamespace = 'public'::regnamespace and exists (
         select from pg_attribute a where a.attrelid = c.oid and a.attname = 'patient_id' and not a.attisdropped)
       order by 1`,
    )

    expect(found.rows.filter((row) => !row.forced)).toEqual([])
    expect(found.rows.map((row) => row.name)).toEqual([...patientTables].sort())
  })

  test.each(patientTables)(
    "%s shows nothing to the site's role that has not said who asks",
    async (table) => {
      const rows = await app.query(`select from ${table}`)
      const there = await store.client.query(`select from ${table}`)

      expect(rows.rowCount).toBe(0)
      if (table === "patients" || table === "visits") expect(there.rowCount).toBe(6)
    },
  )

  test("rejected rows, which name people in their text, show to the whole clinic alone", async () => {
    await importExtract({ url: urls.import }, folder.dir, {
      patients: [extract.patients[0] ?? "", "C1,?,female,2020-01-01,,,,"],
    })
    const read = (scope: Scope) =>
      withApp((client) => inScope(client, scope, (own) => own.rejectedRow.count()))

    expect(await read(wholeClinic)).toBe(1)
    expect(await read({ sites: ["North", "South"], panelOf: null })).toBe(0)
    expect((await app.query("select from rejected_rows")).rowCount).toBe(0)
  })
})

async function withApp<T>(work: (client: ReturnType<typeof openClient>) => Promise<T>): Promise<T> {
  const client = openClient(urls.app)
  try {
    return await work(client)
  } finally {
    await client.$disconnect()
  }
}

describe("the site's role sees", () => {
  test("everybody for whom nothing limits", async () => {
    expect(await seenBy(wholeClinic)).toEqual(everybody)
  })

  test("an own panel with the records merged into its people, and no test record", async () => {
    expect(await seenBy({ sites: null, panelOf: "S-1" })).toEqual(["A1", "A2", "OLD"])
    expect(await seenBy({ sites: null, panelOf: "S-2" })).toEqual(["B1"])
  })

  test("the people of a site", async () => {
    expect(await seenBy({ sites: ["South"], panelOf: null })).toEqual(["A2", "B1"])
    expect(await seenBy({ sites: ["North", "South"], panelOf: null })).toEqual(["A1", "A2", "B1", "OLD"])
  })

  test("of a panel those of the sites", async () => {
    expect(await seenBy({ sites: ["South"], panelOf: "S-1" })).toEqual(["A2"])
  })

  test("nobody for a panel that is nobody's, nor for a site that is none", async () => {
    expect(await seenBy({ sites: null, panelOf: "" })).toEqual([])
    expect(await seenBy({ sites: null, panelOf: "S-3" })).toEqual([])
    expect(await seenBy({ sites: ["East"], panelOf: null })).toEqual([])
  })

  test.each([
    { sites: "", panel: "", seen: 5 },
    { sites: "North", panel: "", seen: 2 },
    { sites: "South", panel: "S-1", seen: 1 },
    { sites: "", panel: "S-1", seen: 3 },
    { sites: "", panel: "nobody", seen: 0 },
  ])(
    "the same by the short way and by following merges (sites '$sites', panel '$panel')",
    async ({ sites, panel, seen }) => {
      const asked = await store.client.query<{ short: boolean; walked: boolean }>(
        `with told as materialized (
           select set_config('filtrate.sites', $1, true), set_config('filtrate.panel', $2, true))
         select person_in_part(p.patient_id) as short, merged_person_in_part(p.patient_id) as walked
         from told cross join patients p`,
        [sites, panel],
      )

      expect(asked.rows.filter((row) => row.short !== row.walked)).toEqual([])
      expect(asked.rows.filter((row) => row.short)).toHaveLength(seen)
    },
  )

  test("by plain SQL what the settings of its transaction say, and nothing after it", async () => {
    await app.query("begin")
    await app.query(
      "select set_config('filtrate.scope', 'part', true), set_config('filtrate.panel', 'S-2', true)",
    )
    const within = await app.query("select patient_id from visits")
    await app.query("commit")

    expect(within.rows).toEqual([{ patient_id: "B1" }])
    expect((await app.query("select from visits")).rowCount).toBe(0)
  })

  test("nobody of the one before on the same connection", async () => {
    const url = new URL(urls.app)
    const one = new pg.Pool({ connectionString: url.href, max: 1 })
    const under = async (panel: string) => {
      const client = await one.connect()
      await client.query("begin")
      await client.query(
        "select set_config('filtrate.scope', 'part', true), set_config('filtrate.panel', $1, true)",
        [panel],
      )
      const rows = await client.query("select patient_id from visits order by 1")
      await client.query("rollback")
      client.release()
      return rows.rows.map((row: { patient_id: string }) => row.patient_id)
    }

    expect(await under("S-1")).toEqual(["A1", "A2", "OLD"])
    expect(await under("S-2")).toEqual(["B1"])
    expect((await one.query("select from visits")).rowCount).toBe(0)
    await one.end()
  })
})

const refused = [
  "create table mine(id int)",
  "alter table visits disable row level security",
  "drop policy in_scope on visits",
  "truncate visits",
  "delete from visits",
  "delete from patients",
  "insert into patients(patient_id) values ('X')",
  "update visits set started_on = '2020-01-01'",
  "update patient_records set clinician_id = 'S-2'",
  "update setting_changes set reason = 'another'",
  "delete from setting_changes",
  "delete from users",
  "delete from emergency_accesses",
  "update audit_entries set actor = 'nobody'",
  "delete from audit_people",
  "insert into audit_entries(seq) values (1)",
  "set role filtrate",
  "set session_replication_role = replica",
  "copy visits to program 'cat'",
]

describe("what no role but the owner's may", () => {
  test.each(refused)("the site's role is refused: %s", async (statement) => {
    await expect(app.query(statement)).rejects.toMatchObject({ code: "42501" })
  })

  test("a row is not moved out of scope, nor ended beyond it", async () => {
    await app.query("begin")
    await app.query(
      "select set_config('filtrate.scope', 'part', true), set_config('filtrate.panel', 'S-2', true)",
    )
    const ended = await app.query("update visits set ended_at = now(), end_reason = 'discarded'")
    await app.query("rollback")

    expect(ended.rowCount).toBe(1)
  })

  test("the snapshot's role reads facts and writes none", async () => {
    const client = await connected(urls.snapshot)

    expect((await client.query("select from visits")).rowCount).toBe(6)
    for (const statement of ["delete from visits", "update settings set value = '1'", "select from users"])
      await expect(client.query(statement)).rejects.toMatchObject({ code: "42501" })
    await client.end()
  })

  test("the role of imports deletes no fact and knows no account", async () => {
    const client = await connected(urls.import)

    for (const statement of ["delete from visits", "select from sessions", "drop table visits"])
      await expect(client.query(statement)).rejects.toMatchObject({ code: "42501" })
    await client.end()
  })
})

describe("with the rights of their roles", () => {
  test("an import changes, withdraws and counts as ever", async () => {
    const visits = [
      "visit_id,patient_id,started_on,kind",
      "V-A1,A1,2026-01-11,office",
      "V-9,P9,2026-01-10,office",
    ]

    const outcome = await importExtract(
      { url: urls.import },
      folder.dir,
      { visits },
      { isAccepted: true, directFromBytes: 0 },
    )

    expect(counts(outcome, "visits")).toMatchObject({ changed: 1, held: 1 })
  })

  test("a snapshot is built", async () => {
    const now = new Date("2026-03-15T18:00:00Z")
    const name = await buildSnapshot({
      ...{ databaseUrl: urls.snapshot, dataDir: folder.dir, builtAt: now },
      todayIn: (zone) => plainToday(now, zone),
    })

    expect(name).toMatch(/^snapshot-/)
  })
})

test("the list names every table there is", async () => {
  const found = await store.client.query<{ name: string }>(
    "select tablename as name from pg_tables where schemaname = 'public' order by 1",
  )

  expect(found.rows.map((row) => row.name)).toEqual(Object.keys(rightsByTable).sort())
})

test("the passwords are for nobody but the user of this installation to read", () => {
  const file = path.join(folder.dir, "database-passwords")
  const passwords: unknown = JSON.parse(readFileSync(file, "utf8"))

  expect(statSync(file).mode & 0o777).toBe(0o600)
  expect(new Set(Object.values(Object(passwords))).size).toBe(3)
})

test("a second start changes nothing, and the roles get in", async () => {
  const again = await ensureDatabaseRoles({ url: store.url, dataDir: folder.dir, appUrl: undefined })
  const asApp = await ensureDatabaseRoles({ url: again.app, dataDir: folder.dir, appUrl: undefined })

  expect(again).toEqual(urls)
  expect(asApp).toEqual({ app: urls.app, import: urls.app, snapshot: urls.app })
})
