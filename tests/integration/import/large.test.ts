import { afterAll, beforeAll, beforeEach, describe, expect, test } from "vitest"
import { counts, importExtract, openFolder } from "../../helpers/extract"
import { clearStore, inForce } from "../../helpers/ledger-rows"
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

const columns = "patient_id,taken_at,systolic,diastolic,setting,pulse,retracted"
const people = Array.from({ length: 40 }, (_, index) => `P${index},1960-05-01,female,2020-01-01`)
const patients = ["patient_id,birth_date,sex,registered_on", ...people]

/** One reading a minute, told apart by its minute. */
function reading(minute: number, pulse: number, retracted = ""): string {
  const time = new Date(Date.UTC(2025, 0, 1) + minute * 60_000).toISOString()
  return `P${minute % 41},${time},130,80,home,${pulse},${retracted}`
}

function minutes(from: number, to: number): number[] {
  return Array.from({ length: to - from }, (_, index) => from + index)
}

/** Indexes and constraints of the ledger; a large import takes some away and must put them back. */
async function guards(): Promise<unknown[]> {
  const { rows } = await store.client.query(
    `select indexdef as guard from pg_indexes where tablename = 'readings'
     union all
     select conname || pg_get_constraintdef(oid) from pg_constraint
     where conrelid = 'readings'::regclass and contype <> 'n'
     order by 1`,
  )
  return rows
}

describe("a large import takes shortcuts and comes to the same", () => {
  test("first into the empty ledger, then against a full one", async () => {
    const before = await guards()
    expect(before).toHaveLength(7)
    // One in 41 is of a patient nobody knows.
    const first = await importExtract(store, folder.dir, {
      patients,
      readings: [columns, ...minutes(0, 41_000).map((at) => reading(at, 60))],
    })

    expect(counts(first, "readings")).toEqual({
      ...{ dataRows: 41_000, added: 40_000, changed: 0, unchanged: 0, withdrawn: 0, held: 1000, rejected: 0 },
    })
    expect(await guards()).toEqual(before)

    const again = minutes(0, 41_000).map((at) => reading(at, at % 2 === 0 ? 60 : 61))
    const fresh = minutes(41_000, 82_000).flatMap((at) => [reading(at, 60), reading(at, 60)])
    const second = await importExtract(store, folder.dir, { readings: [columns, ...again, ...fresh] })

    expect(counts(second, "readings")).toEqual({
      ...{
        dataRows: 123_000,
        added: 80_000,
        changed: 20_000,
        unchanged: 20_000,
        withdrawn: 0,
        held: 3000,
        rejected: 0,
      },
    })
    expect(second.files[0]?.notes.replacedInOrder).toBe(20_500)
    expect(second.files[0]?.notes.replacedLines).toHaveLength(200)
    expect(await guards()).toEqual(before)
    expect(await inForce(store, "readings")).toHaveLength(123_000)
  })

  test("rows that share a key are settled among themselves when the rest goes straight in", async () => {
    const rows = [
      ...minutes(0, 20_500).map((at) => reading(at, 60)),
      ...minutes(0, 20_500)
        .filter((at) => at % 5 === 0)
        .map((at) => reading(at, 62)),
      ...minutes(0, 20_500)
        .filter((at) => at % 10 === 0)
        .map((at) => reading(at, 0, "yes")),
    ]
    const outcome = await importExtract(store, folder.dir, { patients, readings: [columns, ...rows] })

    // Of each retracted key the first row is cancelled, and the retraction itself meets nothing.
    expect(counts(outcome, "readings")).toEqual({
      ...{
        dataRows: 26_650,
        added: 22_000,
        changed: 0,
        unchanged: 4050,
        withdrawn: 0,
        held: 600,
        rejected: 0,
      },
    })
    expect(await inForce(store, "readings")).toHaveLength(22_550)
  })
})
