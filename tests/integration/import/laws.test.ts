import fc from "fast-check"
import { afterAll, beforeAll, describe, expect, test } from "vitest"
import type { ImportOptions, ImportOutcome } from "../../../lib/import/run"
import { importExtract, openFolder } from "../../helpers/extract"
import { factLines, importRows, keyOf, type LabRow, type LabState } from "../../helpers/lab-model"
import { clearStore, ledgerSums } from "../../helpers/ledger-rows"
import { openStore, type TestStore } from "../../helpers/open-store"

// Hundreds of imports one after another; on a busy machine each takes a while.
const patience = 300_000

const folder = openFolder()
let store: TestStore

beforeAll(async () => {
  store = await openStore()
  await importExtract(store, folder.dir, { patients })
})
afterAll(async () => {
  await store.close()
  folder.close()
})

const known = ["P1", "P2"]
const patients = [
  "patient_id,birth_date,sex,registered_on",
  ...known.map((id) => `${id},1960-05-01,female,2020-01-01`),
]

// Few different rows, so that keys and whole rows meet often.
const labRow: fc.Arbitrary<LabRow> = fc.record({
  patient: fc.constantFrom("P1", "P1", "P1", "P2", "P9"),
  id: fc.constantFrom("", "", "", "", "L1", "L2"),
  day: fc.constantFrom(1, 1, 1, 2),
  value: fc.constantFrom("4.1", "4.1", "4.1", "4.2", "4.3", "bad"),
  status: fc.constantFrom("final", "final", "final", "corrected", "preliminary"),
  isRetracted: fc.constantFrom(false, false, false, false, true),
})

function labFile(rows: readonly LabRow[]): string[] {
  const lines = rows.map(({ patient, id, day, value, status, isRetracted }) =>
    [patient, `2026-01-0${day}T12:00`, "potassium", value, "mmol/L", status, id, isRetracted].join(","),
  )
  return ["patient_id,collected_at,test,value,unit,status,lab_id,retracted", ...lines]
}

/** Through the staging table or straight into the ledger: the outcome must be the same. */
const routes: Record<string, Partial<ImportOptions>> = {
  staged: { directFromBytes: Number.MAX_SAFE_INTEGER },
  direct: { directFromBytes: 0 },
}

async function importLabs(rows: readonly LabRow[], options: Partial<ImportOptions>): Promise<ImportOutcome> {
  return importExtract(store, folder.dir, { labs: labFile(rows) }, { isAccepted: true, ...options })
}

async function storedLines(): Promise<string[]> {
  const { rows } = await store.client.query(
    `select patient_id || ' ' || coalesce(lab_id, '') || ' ' || extract(day from collected_at) || ' ' || number || ' ' ||
       status || ' ' || occurrence as line
     from lab_results where ended_at is null`,
  )
  return rows.map((row) => String(row.line)).sort()
}

/** Back to a clinic of two patients and no results. */
async function begin(): Promise<void> {
  await store.client.query("truncate lab_results")
}

describe("any sequence of extracts ends as the plain model of the rules says", () => {
  const extracts = fc.array(fc.record({ rows: fc.array(labRow, { maxLength: 14 }), isFull: fc.boolean() }), {
    minLength: 1,
    maxLength: 4,
  })

  test.each(Object.keys(routes))(
    "%s",
    async (route) => {
      await fc.assert(
        fc.asyncProperty(extracts, async (sequence) => {
          await begin()
          const state: LabState = new Map()
          for (const { rows, isFull } of sequence) {
            const expected = importRows(state, rows, {
              isFull,
              isKnown: (patient) => known.includes(patient),
            })
            const outcome = await importLabs(rows, { isFull, ...routes[route] })

            expect(countsOf(outcome)).toEqual({ dataRows: rows.length, ...expected })
            expect(await storedLines()).toEqual(factLines(state))
          }
        }),
        { numRuns: 60 },
      )
    },
    patience,
  )
})

test(
  "importing the same extract again changes nothing, row for row",
  async () => {
    await fc.assert(
      fc.asyncProperty(fc.array(labRow, { maxLength: 20 }), fc.boolean(), async (rows, isFull) => {
        await begin()
        await importLabs(rows, { isFull })
        const before = await ledgerSums(store)
        const again = await importLabs(rows, { isFull })

        expect(countsOf(again)).toMatchObject({ added: 0, changed: 0, withdrawn: 0, withdrawnByFull: 0 })
        expect(await ledgerSums(store)).toEqual(before)
      }),
      { numRuns: 20 },
    )
  },
  patience,
)

test(
  "the order of rows with different keys changes nothing",
  async () => {
    await fc.assert(
      fc.asyncProperty(
        fc.array(labRow, { maxLength: 16 }),
        fc.infiniteStream(fc.nat()),
        async (rows, weights) => {
          const keys = [...new Set(rows.map(keyOf))]
          const weightByKey = new Map(keys.map((key) => [key, weights.next().value ?? 0]))
          const shuffled = rows.toSorted(
            (a, b) => (weightByKey.get(keyOf(a)) ?? 0) - (weightByKey.get(keyOf(b)) ?? 0),
          )
          await begin()
          const first = await importLabs(rows, {})
          const stored = await storedLines()
          await begin()
          const second = await importLabs(shuffled, {})

          expect(countsOf(second)).toEqual(countsOf(first))
          expect(await storedLines()).toEqual(stored)
        },
      ),
      { numRuns: 20 },
    )
  },
  patience,
)

test(
  "splitting an extract into two imports changes nothing, wherever the patients are",
  async () => {
    const unretracted = labRow.map((row) => ({ ...row, isRetracted: false }))
    await fc.assert(
      fc.asyncProperty(
        fc.array(unretracted, { maxLength: 16 }),
        fc.nat({ max: 16 }),
        fc.boolean(),
        async (rows, cut, patientsFirst) => {
          // Rows of one key without an id stay together.
          const isEarly = (row: LabRow, index: number) => (row.id === "" ? row.day === 1 : index < cut)
          const early = rows.filter(isEarly)
          const late = rows.filter((row, index) => !isEarly(row, index))
          await clearStore(store)
          await importExtract(store, folder.dir, { patients, labs: labFile(rows) }, { isAccepted: true })
          const whole = await storedLines()

          await clearStore(store)
          const parts = [
            { ...(patientsFirst ? { patients } : {}), labs: labFile(early) },
            { ...(patientsFirst ? {} : { patients }), labs: labFile(late) },
          ]
          for (const part of parts) await importExtract(store, folder.dir, part, { isAccepted: true })

          expect(await storedLines()).toEqual(whole)
        },
      ),
      { numRuns: 20 },
    )
  },
  patience,
)

function countsOf(outcome: ImportOutcome): Record<string, number> {
  const report = outcome.files.find((file) => file.kind === "labs")
  if (!report) throw new RangeError("the outcome has no labs")
  const { dataRows, added, changed, unchanged, withdrawn, held, rejected, notes } = report
  return {
    dataRows,
    added,
    changed,
    unchanged,
    withdrawn,
    held,
    rejected,
    withdrawnByFull: notes.withdrawnByFull,
  }
}
