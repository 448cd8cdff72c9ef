import { afterAll, beforeAll, beforeEach, describe, expect, test } from "vitest"
import { wholeClinic } from "../../../lib/access/scope"
import { discardHeldFact, listHeldFacts, listUnlistedLoinc } from "../../../lib/store/held-facts"
import {
  allRejectedRows,
  countRejectedRows,
  createUploadedImport,
  declineImport,
  findImport,
  findUpload,
  listImports,
  listRejectedRows,
} from "../../../lib/store/imports"
import { lockClasses } from "../../../lib/store/import-record"
import { importExtract, openFolder } from "../../helpers/extract"
import { clearStore, inForce, versions } from "../../helpers/ledger-rows"
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

const patients = ["patient_id,birth_date,sex,registered_on", "P1,1960-05-01,female,2020-01-01"]
const visitColumns = "visit_id,patient_id,started_on,kind"
const visits = [
  visitColumns,
  "V1,P1,2026-01-10,office",
  "V2,P9,2026-01-11,office",
  "V3,P1,2026-01-12,walk-in",
]
const upload = {
  source: "extract.zip",
  uploadPath: "/uploads/x.zip",
  isFull: false,
  asOf: "2026-03-15",
  totalBytes: 12,
}

describe("the history of imports", () => {
  test("newest first, with the counts and notes of every file in the order of import", async () => {
    await importExtract(store, folder.dir, { patients, visits })
    await importExtract(
      store,
      folder.dir,
      { visits: [`${visitColumns},room`, "V1,P1,2026-01-10,office,7"] },
      { isFull: true },
    )
    const [second, first] = await listImports(store.prisma, { take: 10 })

    expect(first).toMatchObject({ status: "done", isFull: false, question: null, canBeAccepted: false })
    expect(first?.files.map(({ file, added, held, rejected }) => [file, added, held, rejected])).toEqual([
      ["patients.csv", 1, 0, 0],
      ["visits.csv", 1, 1, 1],
    ])
    expect(second).toMatchObject({
      status: "asks",
      isFull: true,
      question: { withdrawals: [{ withdrawn: 1, inForce: 2 }] },
    })
    expect(second?.files[0]?.notes.unknownColumns).toEqual(["room"])
    expect(first?.doneBytes).toBe(first?.totalBytes)
    expect(first?.totalBytes).toBeGreaterThan(100)
    expect(await listImports(store.prisma, { take: 10, before: second?.id ?? 0 })).toEqual([first])
    expect(await findImport(store.prisma, first?.id ?? 0)).toEqual(first)
    expect(await findImport(store.prisma, 999_999)).toBeNull()
  })

  test("rejected rows page by page, all of them, and counted by reason", async () => {
    const bad = Array.from({ length: 2500 }, (_, index) => `V${index},P1,2026-01-10,walk-in`)
    const outcome = await importExtract(
      store,
      folder.dir,
      { patients, visits: [visitColumns, ...bad] },
      { isAccepted: true },
    )
    const { importId } = outcome
    const page = await listRejectedRows(store.prisma, { importId, take: 2 })
    const next = await listRejectedRows(store.prisma, {
      importId,
      take: 2,
      after: page[1]?.id ?? 0,
      file: "visits.csv",
    })

    expect(page.concat(next).map((row) => row.line)).toEqual([2, 3, 4, 5])
    expect(page[0]).toMatchObject({
      column: "kind",
      value: "walk-in",
      code: "unknown-word",
      original: bad[0],
    })
    let lines = 0
    for await (const rows of allRejectedRows(store.prisma, { scope: wholeClinic, importId }))
      lines += rows.length
    expect(lines).toBe(2500)
    expect(await countRejectedRows(store.prisma, importId)).toEqual([
      { file: "visits.csv", code: "unknown-word", rows: 2500 },
    ])
  })

  test("an import whose process is gone shows as failed; one that lives, or has just been asked for, does not", async () => {
    const insert = (status: string, started: string) =>
      store.prisma.import.create({
        data: { source: "x", status, asOf: new Date(), startedAt: new Date(started) },
      })
    const gone = await insert("running", "2026-03-15")
    const lives = await insert("running", "2026-03-15")
    const waitsLong = await insert("waiting", "2026-03-15")
    const asked = await createUploadedImport(store.prisma, upload)
    await store.client.query("select pg_advisory_lock($1, $2)", [lockClasses.alive, lives.id])
    const entries = await listImports(store.prisma, { take: 10 })
    await store.client.query("select pg_advisory_unlock_all()")

    expect(new Map(entries.map(({ id, status }) => [id, status]))).toEqual(
      new Map([
        [asked, "waiting"],
        [waitsLong.id, "failed"],
        [lives.id, "running"],
        [gone.id, "failed"],
      ]),
    )
    expect(entries.find(({ id }) => id === gone.id)?.message).toContain("The clinic is as it was")
  })

  test("an upload that asks can be found and declined, once", async () => {
    const id = await createUploadedImport(store.prisma, upload)
    expect(await findUpload(store.prisma, id)).toBeNull()
    await store.prisma.import.update({ where: { id }, data: { status: "asks" } })

    expect((await findImport(store.prisma, id))?.canBeAccepted).toBe(true)
    expect(await findUpload(store.prisma, id)).toEqual({ uploadPath: "/uploads/x.zip", isFull: false })
    expect(await declineImport(store.prisma, id)).toBe(true)
    expect(await declineImport(store.prisma, id)).toBe(false)
    expect(await findImport(store.prisma, id)).toMatchObject({ status: "refused", canBeAccepted: false })
  })
})

describe("held facts", () => {
  test("are listed with the row that brought them, over all kinds", async () => {
    const diet = ["patient_id,recorded_on,method,sodium_mg", "P8,2026-01-10,recall_24h,3000"]
    const { importId } = await importExtract(store, folder.dir, { patients, visits, diet })

    expect(await listHeldFacts(store.prisma, { scope: wholeClinic, take: 10, skip: 0 })).toEqual({
      total: 2,
      facts: [
        { kind: "diet", importId, line: 2, patientId: "P8", knownAt: new Date("2026-03-15T18:00:00Z") },
        { kind: "visits", importId, line: 3, patientId: "P9", knownAt: new Date("2026-03-15T18:00:00Z") },
      ],
    })
    expect(
      (await listHeldFacts(store.prisma, { scope: wholeClinic, take: 10, skip: 1 }))?.facts,
    ).toHaveLength(1)
  })

  test("a person can discard one, and only while it is held; sent again it is held again", async () => {
    const { importId } = await importExtract(store, folder.dir, { patients, visits })

    expect(await discardHeldFact(store.prisma, { kind: "visits", importId, line: 2 })).toBe(false)
    expect(await discardHeldFact(store.prisma, { kind: "patients", importId, line: 2 })).toBe(false)
    expect(await discardHeldFact(store.prisma, { kind: "visits", importId, line: 3 })).toBe(true)
    expect(await discardHeldFact(store.prisma, { kind: "visits", importId, line: 3 })).toBe(false)
    expect((await versions(store, "visits"))[1]).toMatchObject({
      line: 3,
      end_reason: "discarded",
      ended_by: null,
    })
    expect(await listHeldFacts(store.prisma, { scope: wholeClinic, take: 10, skip: 0 })).toEqual({
      total: 0,
      facts: [],
    })

    await importExtract(store, folder.dir, { visits })
    expect(await inForce(store, "visits")).toHaveLength(2)
  })

  test("while an import has a ledger for itself the answer is that there is none yet", async () => {
    await importExtract(store, folder.dir, { patients, visits })
    await store.client.query("begin; lock table visits, lab_results in access exclusive mode")

    expect(await listHeldFacts(store.prisma, { scope: wholeClinic, take: 10, skip: 0 })).toBeNull()
    expect(await listUnlistedLoinc(store.prisma, wholeClinic)).toBeNull()
    await store.client.query("rollback")
  })
})

test("LOINC codes on no list are listed with their rows and patients, the most frequent first", async () => {
  const labs = [
    "patient_id,collected_at,test,value,unit",
    "P1,2026-01-01,17861-6,9,mg/dL",
    "P1,2026-01-01,2777-1,4,mg/dL",
  ]
  await importExtract(store, folder.dir, {
    patients,
    labs: [...labs, "P1,2026-01-02,2777-1,4,mg/dL", "P7,2026-01-02,2777-1,4,mg/dL"],
  })

  expect(await listUnlistedLoinc(store.prisma, wholeClinic)).toEqual([
    { code: "2777-1", rows: 3, patients: 2 },
    { code: "17861-6", rows: 1, patients: 1 },
  ])
})
