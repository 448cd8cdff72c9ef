import { mkdirSync, readdirSync, writeFileSync } from "node:fs"
import path from "node:path"
import pg from "pg"
import { afterAll, beforeAll, expect, test } from "vitest"
import { ensureDatabaseRoles } from "../../../lib/store/database-roles"
import { counts, importExtract, openFolder } from "../../helpers/extract"
import { inForce } from "../../helpers/ledger-rows"
import { openStore, type TestStore } from "../../helpers/open-store"

const folder = openFolder()
let store: TestStore

beforeAll(async () => {
  store = await openStore()
})
afterAll(async () => {
  await store.close()
  folder.close()
})

const patients = ["patient_id,birth_date,sex,registered_on", "P1,1960-05-01,female,2020-01-01"]
const visits = [
  "visit_id,patient_id,started_on,kind",
  "V1,P1,2026-01-10,office",
  "V2,P9,2026-01-10,office",
  "V1,P1,2026-01-11,office",
]

test("a database role that may only read and write rows imports all the same", async () => {
  const { import: url } = await ensureDatabaseRoles({
    url: store.url,
    dataDir: folder.dir,
    appUrl: undefined,
  })
  // Refused to it: the shortcut of a large first import.
  const limited = new pg.Client({ connectionString: url })
  await limited.connect()
  await expect(limited.query("set session_replication_role = replica")).rejects.toThrow("permission denied")
  await limited.end()

  const outcome = await importExtract({ url }, folder.dir, { patients, visits }, { directFromBytes: 0 })

  expect(counts(outcome, "visits")).toMatchObject({ added: 1, unchanged: 1, held: 1 })
  expect(await inForce(store, "visits")).toHaveLength(2)
})

test("what a killed import left waiting on disk is removed by the next one, which leaves nothing itself", async () => {
  const spool = path.join(folder.dir, "data", "import-spool")
  mkdirSync(spool, { recursive: true })
  writeFileSync(path.join(spool, "import-1-rejects"), "P1")
  const long = "x".repeat(10_000)
  const bad = Array.from({ length: 300 }, (_, index) => `V${index},P1,2026-01-10,${long}`)
  await importExtract(store, folder.dir, { visits: [visits[0] ?? "", ...bad] }, { isAccepted: true })

  expect(readdirSync(path.join(folder.dir, "data"))).toEqual([])
})
