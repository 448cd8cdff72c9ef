import { afterAll, beforeAll, beforeEach, describe, expect, test } from "vitest"
import type { ImportOptions } from "../../../lib/import/run"
import { counts, importExtract, openFolder, type ExtractFiles } from "../../helpers/extract"
import { clearStore, inForce, ledgerSums, rejectedRows, versions } from "../../helpers/ledger-rows"
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
  "P1,1960-05-01,female,2020-01-01",
  "P2,1990-01-31,male,2021-01-01",
]
const visitColumns = "visit_id,patient_id,started_on,kind,retracted"
const readingColumns = "patient_id,taken_at,systolic,diastolic,setting,pulse,reading_id,retracted"
const labColumns = "patient_id,collected_at,test,value,unit,status,lab_id,retracted"
const noon = "P1,2026-01-10T12:00,128,76,home"

function run(files: ExtractFiles, options: Partial<ImportOptions> = {}) {
  return importExtract(store, folder.dir, files, options)
}

async function pulses(): Promise<unknown[]> {
  const { rows } = await store.client.query(
    "select occurrence, pulse from readings where ended_at is null order by occurrence",
  )
  return rows.map((row) => [row.occurrence, row.pulse === null ? null : Number(row.pulse)])
}

describe("the same extract twice changes nothing (rule 2)", () => {
  test("with duplicates, retractions, held, rejected and preliminary rows", async () => {
    const files = {
      patients,
      staff: ["staff_id,name,role", "S1,Dr A,nurse"],
      visits: [
        visitColumns,
        "V1,P1,2026-01-10,office,",
        "V1,P1,2026-01-11,office,",
        "V2,P1,2026-01-12,office,",
        "V2,P1,,,true",
      ],
      readings: [
        readingColumns,
        `${noon},70,,`,
        `${noon},70,,`,
        `${noon},71,,`,
        `${noon},,,yes`,
        "P9,2026-01-01,120,80,home,,,",
        `${noon},x,,`,
      ],
      labs: [
        labColumns,
        "P1,2026-01-10,potassium,4.4,mmol/L,final,L1,",
        "P1,2026-01-10,potassium,4.6,mmol/L,preliminary,L1,",
      ],
    }
    await run(files)
    const before = await ledgerSums(store)
    const second = await run(files)

    expect(second.files.map(({ added, changed, withdrawn }) => added + changed + withdrawn)).toEqual([
      0, 0, 0, 0, 0,
    ])
    expect(await ledgerSums(store)).toEqual(before)
  })
})

describe("a changed row supersedes the older version (rule 3)", () => {
  test("which stays in the history with the import that brought it", async () => {
    const first = await run({ patients, visits: [visitColumns, "V1,P1,2026-01-10,office,"] })
    const second = await run({ visits: [visitColumns, "V1,P1,2026-01-10,telehealth,"] })

    expect(counts(second, "visits")).toMatchObject({ changed: 1, added: 0, unchanged: 0 })
    expect(await versions(store, "visits")).toEqual([
      { import_id: first.importId, line: 2, ended_by: second.importId, end_reason: "superseded" },
      { import_id: second.importId, line: 2, ended_by: null, end_reason: null },
    ])
    expect(await inForce(store, "visits")).toMatchObject([{ kind: "telehealth" }])
  })

  test("another spelling of the same values is no change", async () => {
    await run({ patients, labs: [labColumns, "P1,2026-01-10T12:00-06:00,potassium,4.40,mmol/L,final,L1,"] })
    const second = await run({ labs: [labColumns, "P1,2026-01-10T18:00Z,Potassium, 4.4 ,MMOL/L,,L1,"] })

    expect(counts(second, "labs")).toMatchObject({ changed: 0, unchanged: 1 })
  })

  test("a file is first reduced to its last line per key; the others count as unchanged", async () => {
    const outcome = await run({
      patients,
      visits: [
        visitColumns,
        "V1,P1,2026-01-10,office,",
        "V2,P1,2026-01-10,office,",
        "V1,P1,2026-01-11,dialysis,",
      ],
    })

    expect(counts(outcome, "visits")).toMatchObject({ dataRows: 3, added: 2, unchanged: 1 })
    expect(await inForce(store, "visits")).toMatchObject([
      { visit_id: "V2" },
      { visit_id: "V1", kind: "dialysis" },
    ])
  })

  test("a preliminary line never displaces a final or corrected one, in the file or in the ledger", async () => {
    const first = await run({
      patients,
      labs: [
        labColumns,
        "P1,2026-01-10,potassium,4.4,mmol/L,final,L1,",
        "P1,2026-01-10,potassium,9,mmol/L,preliminary,L1,",
      ],
    })
    const second = await run({ labs: [labColumns, "P1,2026-01-10,potassium,5,mmol/L,preliminary,L1,"] })
    const third = await run({ labs: [labColumns, "P1,2026-01-10,potassium,4.5,mmol/L,corrected,L1,"] })

    expect(counts(first, "labs")).toMatchObject({ added: 1, unchanged: 1 })
    expect(counts(second, "labs")).toMatchObject({ changed: 0, unchanged: 1 })
    expect(counts(third, "labs")).toMatchObject({ changed: 1 })
    expect(await inForce(store, "labs")).toMatchObject([{ number: "4.5", status: "corrected" }])
  })

  test("a final line takes the place of a preliminary one", async () => {
    await run({ patients, labs: [labColumns, "P1,2026-01-10,potassium,4.4,mmol/L,preliminary,L1,"] })
    await run({ labs: [labColumns, "P1,2026-01-10,potassium,4.4,mmol/L,final,L1,"] })

    expect(await inForce(store, "labs")).toMatchObject([{ status: "final" }])
  })

  test("a rejected newer version leaves the older in force, and the report says so", async () => {
    await run({ patients, visits: [visitColumns, "V1,P1,2026-01-10,office,", "V2,P1,2026-01-10,office,"] })
    const second = await run({
      visits: [visitColumns, "V1,P1,2026-01-10,walk-in,", "V9,P1,2026-01-10,walk-in,"],
    })

    expect(await inForce(store, "visits")).toMatchObject([
      { visit_id: "V1", kind: "office" },
      { visit_id: "V2" },
    ])
    expect(second.files[0]?.notes.olderKept).toBe(1)
    expect(counts(second, "visits")).toMatchObject({ rejected: 2 })
  })

  test("a row with an id never matches a row without", async () => {
    const outcome = await run({ patients, readings: [readingColumns, `${noon},70,R1,`, `${noon},70,,`] })

    expect(counts(outcome, "readings")).toMatchObject({ added: 2 })
  })

  test("keys keep case, and compare trimmed texts", async () => {
    await run({ patients, allergies: ["patient_id,substance", "P1,lisinopril"] })
    const second = await run({ allergies: ["patient_id,substance", "P1,  lisinopril ", "P1,Lisinopril"] })

    expect(counts(second, "allergies")).toMatchObject({ unchanged: 1, added: 1 })
  })

  test("an id under another patient moves the fact to that patient, and is counted", async () => {
    await run({ patients, visits: [visitColumns, "V1,P1,2026-01-10,office,"] })
    const second = await run({ visits: [visitColumns, "V1,P2,2026-01-10,office,"] })

    expect(counts(second, "visits")).toMatchObject({ changed: 1 })
    expect(second.files[0]?.notes.moved).toBe(1)
    expect(await inForce(store, "visits")).toMatchObject([{ patient_id: "P2" }])
  })
})

describe("rows without an id are facts by their order within one key (rule 4)", () => {
  test("two readings of 128/76 at noon are two readings", async () => {
    const outcome = await run({ patients, readings: [readingColumns, `${noon},70,,`, `${noon},70,,`] })

    expect(counts(outcome, "readings")).toMatchObject({ added: 2, unchanged: 0 })
    expect(await pulses()).toEqual([
      [1, 70],
      [2, 70],
    ])
  })

  test("identical rows are matched first, then the n-th of the rest supersedes the n-th, which is listed", async () => {
    const first = await run({
      patients,
      readings: [readingColumns, `${noon},70,,`, `${noon},71,,`, `${noon},72,,`],
    })
    const second = await run({ readings: [readingColumns, `${noon},80,,`, `${noon},72,,`, `${noon},70,,`] })

    expect(counts(second, "readings")).toMatchObject({ unchanged: 2, changed: 1, added: 0 })
    expect(await pulses()).toEqual([
      [1, 70],
      [2, 80],
      [3, 72],
    ])
    expect(second.files[0]?.notes).toMatchObject({
      replacedInOrder: 1,
      replacedLines: [{ line: 2, olderImport: first.importId, olderLine: 3 }],
    })
  })

  test("a row more is new, a row fewer withdraws nothing", async () => {
    await run({ patients, readings: [readingColumns, `${noon},70,,`] })
    const more = await run({ readings: [readingColumns, `${noon},70,,`, `${noon},71,,`] })
    const fewer = await run({ readings: [readingColumns, `${noon},71,,`] })

    expect(counts(more, "readings")).toMatchObject({ unchanged: 1, added: 1 })
    expect(counts(fewer, "readings")).toMatchObject({ unchanged: 1, withdrawn: 0 })
    expect(await pulses()).toHaveLength(2)
  })

  test("only good rows take a place", async () => {
    const outcome = await run({ patients, readings: [readingColumns, `${noon},x,,`, `${noon},70,,`] })

    expect(counts(outcome, "readings")).toMatchObject({ rejected: 1, added: 1 })
    expect(await pulses()).toEqual([[1, 70]])
  })

  test("the n-th retracted row of a key withdraws the n-th", async () => {
    await run({ patients, readings: [readingColumns, `${noon},70,,`, `${noon},71,,`, `${noon},72,,`] })
    const second = await run({ readings: [readingColumns, `${noon},,,true`, `${noon},,,true`] })
    const third = await run({ readings: [readingColumns, `${noon},,,true`, `${noon},,,true`] })

    expect(counts(second, "readings")).toMatchObject({ withdrawn: 2, unchanged: 0 })
    expect(counts(third, "readings")).toMatchObject({ withdrawn: 0, unchanged: 2 })
    expect(await pulses()).toEqual([[3, 72]])
  })

  test("a withdrawn reading that is sent again takes the lowest free place", async () => {
    await run({ patients, readings: [readingColumns, `${noon},70,,`, `${noon},71,,`] })
    await run({ readings: [readingColumns, `${noon},,,true`] })
    const third = await run({ readings: [readingColumns, `${noon},71,,`, `${noon},73,,`] })

    expect(counts(third, "readings")).toMatchObject({ unchanged: 1, added: 1 })
    expect(await pulses()).toEqual([
      [1, 73],
      [2, 71],
    ])
  })

  test("laboratory rows as well, where a preliminary one never supersedes", async () => {
    await run({
      patients,
      labs: [
        labColumns,
        "P1,2026-01-10,potassium,4.4,mmol/L,final,,",
        "P1,2026-01-10,potassium,4.6,mmol/L,final,,",
      ],
    })
    const second = await run({
      labs: [
        labColumns,
        "P1,2026-01-10,potassium,4.4,mmol/L,final,,",
        "P1,2026-01-10,2823-3,4.9,mmol/L,preliminary,,",
      ],
    })

    expect(counts(second, "labs")).toMatchObject({ unchanged: 2, changed: 0, added: 0 })
    expect((await inForce(store, "labs")).map((lab) => lab.number)).toEqual(["4.4", "4.6"])
  })
})

describe("entered in error (rule 5)", () => {
  test.each([
    ["before its fact", ["V1,P1,,,true", "V1,P1,2026-01-10,office,"]],
    ["after its fact", ["V1,P1,2026-01-10,office,", "V1,P1,,,true"]],
  ])("a retraction %s in the same extract leaves nothing", async (_, rows) => {
    const outcome = await run({ patients, visits: [visitColumns, ...rows] })

    expect(counts(outcome, "visits")).toMatchObject({ added: 0, withdrawn: 0, unchanged: 2 })
    expect(await inForce(store, "visits")).toEqual([])
  })

  test("it withdraws the stored fact whatever else the extract says of it", async () => {
    await run({ patients, visits: [visitColumns, "V1,P1,2026-01-10,office,"] })
    const second = await run({
      visits: [visitColumns, "V1,P1,,,true", "V1,P1,2026-01-11,office,", "V1,P1,,,true"],
    })

    expect(counts(second, "visits")).toMatchObject({ withdrawn: 1, unchanged: 2 })
    expect(await versions(store, "visits")).toMatchObject([
      { end_reason: "withdrawn", ended_by: second.importId },
    ])
  })

  test("one that matches nothing counts as unchanged, of an unknown patient too", async () => {
    const outcome = await run({ patients, visits: [visitColumns, "V7,P1,,,true", "V8,P9,,,true"] })

    expect(counts(outcome, "visits")).toMatchObject({ unchanged: 2, held: 0, withdrawn: 0 })
  })

  test("a later extract may send the fact again", async () => {
    const visits = [visitColumns, "V1,P1,2026-01-10,office,"]
    await run({ patients, visits })
    await run({ visits: [visitColumns, "V1,P1,,,true"] })
    const third = await run({ visits })

    expect(counts(third, "visits")).toMatchObject({ added: 1 })
    expect(await inForce(store, "visits")).toHaveLength(1)
  })

  test("retracting a patient holds that patient's facts, and sending the patient again releases them", async () => {
    const visits = [visitColumns, "V1,P1,2026-01-10,office,"]
    await run({ patients, visits })
    const retracted = await run({
      patients: ["patient_id,birth_date,sex,registered_on,retracted", "P1,,,,true"],
      visits,
    })
    const again = await run({ patients, visits })

    expect(counts(retracted, "patients")).toMatchObject({ withdrawn: 1 })
    expect(counts(retracted, "visits")).toMatchObject({ held: 1, withdrawn: 0 })
    expect(counts(again, "patients")).toMatchObject({ added: 1, unchanged: 1 })
    expect(counts(again, "visits")).toMatchObject({ unchanged: 1, held: 0 })
  })
})

describe("a full extract (rule 6)", () => {
  const accepted = { isFull: true, isAccepted: true }

  test("also withdraws what its files no longer have, of the kinds of file present only", async () => {
    await run({
      patients,
      visits: [visitColumns, "V1,P1,2026-01-10,office,", "V2,P1,2026-01-11,office,"],
      readings: [readingColumns, `${noon},70,,`, `${noon},71,,`],
      allergies: ["patient_id,substance", "P1,lisinopril"],
    })
    const second = await run(
      { visits: [visitColumns, "V2,P1,2026-01-11,office,"], readings: [readingColumns, `${noon},71,,`] },
      accepted,
    )

    expect(await inForce(store, "visits")).toMatchObject([{ visit_id: "V2" }])
    expect(await pulses()).toEqual([[2, 71]])
    expect(await inForce(store, "allergies")).toHaveLength(1)
    expect(await inForce(store, "patients")).toHaveLength(2)
    expect(second.files.map(({ kind, notes }) => [kind, notes.withdrawnByFull])).toEqual([
      ["visits", 1],
      ["readings", 1],
    ])
    expect(counts(second, "visits")).toMatchObject({ dataRows: 1, unchanged: 1, withdrawn: 0 })
  })

  test("without it nothing is withdrawn", async () => {
    await run({ patients, visits: [visitColumns, "V1,P1,2026-01-10,office,", "V2,P1,2026-01-11,office,"] })
    await run({ visits: [visitColumns, "V2,P1,2026-01-11,office,"] })

    expect(await inForce(store, "visits")).toHaveLength(2)
  })

  test("a rejected row still shows that its fact is there", async () => {
    await run({
      patients,
      visits: [visitColumns, "V1,P1,2026-01-10,office,"],
      readings: [readingColumns, `${noon},70,,`, `${noon},71,,`, `${noon},72,,`],
    })
    await run(
      {
        visits: [visitColumns, "V1,P1,2026-01-10,walk-in,"],
        readings: [readingColumns, `${noon},72,,`, `${noon},x,,`],
      },
      accepted,
    )

    expect(await inForce(store, "visits")).toHaveLength(1)
    expect(await pulses()).toEqual([
      [1, 70],
      [3, 72],
    ])
  })

  test("a file rejected as a whole withdraws nothing", async () => {
    await run({ patients, visits: [visitColumns, "V1,P1,2026-01-10,office,"] })
    await run({ visits: ["visit_id,patient_id", "V2,P1"] }, accepted)

    expect(await inForce(store, "visits")).toHaveLength(1)
  })

  test("held facts that are gone are withdrawn as well", async () => {
    await run({ visits: [visitColumns, "V1,P9,2026-01-10,office,"] })
    await run({ visits: [visitColumns, "V2,P9,2026-01-10,office,"] }, accepted)

    expect((await inForce(store, "visits")).map((visit) => visit.visit_id)).toEqual(["V2"])
  })
})

describe("what names an unknown patient is held (rule 7)", () => {
  const visits = [
    visitColumns,
    "V1,P9,2026-01-10,office,",
    "V2,P9,1985-01-10,office,",
    "V3,P1,2026-01-10,office,",
  ]
  const readings = [
    readingColumns,
    "P9,1985-05-01T00:30,120,80,home,,,",
    "P9,1985-05-01T23:30-11:00,120,80,home,,,",
  ]
  const newcomer = ["patient_id,birth_date,sex,registered_on", "P9,1985-05-01,male,2022-01-01"]

  test("and counts when the patient becomes known, whatever the order of imports", async () => {
    const first = await run({ patients, visits })
    const second = await run({ patients: newcomer })
    const third = await run({ visits })

    expect(counts(first, "visits")).toMatchObject({ added: 1, held: 2 })
    expect(counts(second, "patients")).toMatchObject({ added: 1 })
    expect(counts(third, "visits")).toMatchObject({ unchanged: 2, held: 0, rejected: 1 })
  })

  test("one that turns out to lie before the birth ends as rejected, under its own file and line", async () => {
    const first = await run({ patients, visits, readings })
    const second = await run({ patients: newcomer })

    expect(second.releasedRejects).toBe(1)
    expect(await rejectedRows(store, second.importId)).toMatchObject([
      { file: "visits.csv", line: 3, column_name: "started_on", value: "1985-01-10", code: "before-birth" },
    ])
    expect((await versions(store, "visits")).filter((version) => version.end_reason === "rejected")).toEqual([
      { import_id: first.importId, line: 3, ended_by: second.importId, end_reason: "rejected" },
    ])
    // 1985-05-01T23:30-11:00 and 00:30 in Chicago are both on the day of birth or after it.
    expect(await inForce(store, "readings")).toHaveLength(2)
  })

  test("the day of a held time is the one it has in the clinic", async () => {
    await run({
      patients,
      readings: [
        readingColumns,
        "P9,1985-05-01T04:59Z,120,80,home,,,",
        "P9,1985-05-01T05:00Z,120,80,home,,,",
      ],
    })
    const second = await run({ patients: newcomer })

    expect(await rejectedRows(store, second.importId)).toMatchObject([{ line: 2, value: "1985-04-30" }])
  })

  test("the order of the files does not matter: patients come first", async () => {
    const outcome = await run({ visits, patients: [...patients, newcomer[1] ?? ""] })

    expect(counts(outcome, "visits")).toMatchObject({ added: 2, held: 0, rejected: 1 })
  })

  test("an unknown clinician keeps the row and is counted; so is a merge that leads nowhere", async () => {
    const outcome = await run({
      staff: ["staff_id,name,role", "S1,Dr A,nurse"],
      patients: [
        "patient_id,birth_date,sex,registered_on,clinician_id,merged_into",
        "P1,1960-05-01,female,2020-01-01,S1,P1",
        "P2,1990-01-31,male,2021-01-01,S7,P3",
        "P3,1990-01-31,male,2021-01-01,,P4",
        "P4,1990-01-31,male,2021-01-01,,",
        "P5,1990-01-31,male,2021-01-01,,nobody",
      ],
      visits: ["visit_id,patient_id,started_on,kind,clinician_id", "V1,P1,2026-01-10,office,S8"],
    })

    expect(
      outcome.files.map(({ kind, notes }) => [kind, notes.unknownClinicians, notes.brokenMerges]),
    ).toEqual([
      ["staff", 0, 0],
      ["patients", 1, 2],
      ["visits", 1, 0],
    ])
    expect(await inForce(store, "patients")).toMatchObject([
      { merged_into: "P1" },
      { clinician_id: "S7", merged_into: "P3" },
      {},
      {},
      { merged_into: "nobody" },
    ])
  })

  test("test patients are stored, and counted", async () => {
    const outcome = await run({
      patients: ["patient_id,birth_date,sex,registered_on,is_test", "P1,1960-05-01,female,2020-01-01,yes"],
    })

    expect(outcome.files[0]?.notes.testPatients).toBe(1)
  })
})

describe("an odd extract stops and asks (rule 11)", () => {
  const bad = Array.from({ length: 20 }, (_, index) => `V${index},P1,2026-01-10,walk-in,`)
  const good = Array.from({ length: 30 }, (_, index) => `V${index},P1,2026-01-10,office,`)

  test("before anything is stored, with the report and the rejects to look at", async () => {
    const outcome = await run({ patients, visits: [visitColumns, ...bad] })

    expect(outcome.status).toBe("asks")
    expect(outcome.question?.rejects).toEqual([{ file: "visits.csv", dataRows: 20, rejected: 20, held: 0 }])
    expect(await inForce(store, "patients")).toEqual([])
    expect(await rejectedRows(store, outcome.importId)).toHaveLength(20)
    const { rows } = await store.client.query("select status, question is not null as asks from imports")
    expect(rows).toEqual([{ status: "asks", asks: true }])
  })

  test("a person may accept it", async () => {
    const outcome = await run({ patients, visits: [visitColumns, ...bad] }, { isAccepted: true })

    expect(outcome.status).toBe("done")
    expect(await inForce(store, "patients")).toHaveLength(2)
  })

  test("going on with the same row of the history replaces its report", async () => {
    const asking = await run({ patients, visits: [visitColumns, ...bad] })
    const outcome = await run(
      { patients, visits: [visitColumns, ...bad] },
      { isAccepted: true, importId: asking.importId },
    )

    expect(outcome.importId).toBe(asking.importId)
    expect(await rejectedRows(store, outcome.importId)).toHaveLength(20)
    const { rows } = await store.client.query(
      "select status, is_accepted, question is not null as asks from imports",
    )
    expect(rows).toEqual([{ status: "done", is_accepted: true, asks: true }])
  })

  test("held rows count as well", async () => {
    const outcome = await run({ visits: [visitColumns, ...good] })

    expect(outcome).toMatchObject({ status: "asks", question: { rejects: [{ held: 30, rejected: 0 }] } })
  })

  test("a full extract that would withdraw too much asks; a small loss does not", async () => {
    await run({ patients, visits: [visitColumns, ...good] })
    const small = await run({ visits: [visitColumns, ...good.slice(3)] }, { isFull: true })
    const large = await run({ visits: [visitColumns, ...good.slice(6)] }, { isFull: true })

    expect(small.status).toBe("done")
    expect(large).toMatchObject({
      status: "asks",
      question: { withdrawals: [{ file: "visits.csv", withdrawn: 3, inForce: 27 }] },
    })
    expect(await inForce(store, "visits")).toHaveLength(27)
  })

  test("the thresholds are settings", async () => {
    await store.client.query(`insert into settings (key, value) values ('import.rejectRows', '21')`)

    expect((await run({ patients, visits: [visitColumns, ...bad] })).status).toBe("done")
  })
})

describe("a dry run", () => {
  test("gives the whole report and leaves no trace", async () => {
    const outcome = await run(
      { patients, visits: [visitColumns, "V1,P1,2026-01-10,office,", "V2,P1,x,office,"] },
      { isDryRun: true },
    )

    expect(outcome.status).toBe("dry run")
    expect(counts(outcome, "visits")).toMatchObject({ added: 1, rejected: 1 })
    const { rows } = await store.client.query(
      "select (select count(*) from imports) + (select count(*) from patients) as n",
    )
    expect(rows).toEqual([{ n: "0" }])
    expect((await ledgerSums(store)).every((sum) => sum.rows === 0)).toBe(true)
  })
})
