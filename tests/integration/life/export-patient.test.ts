import { readFileSync, statSync, writeFileSync } from "node:fs"
import path from "node:path"
import { parse } from "csv-parse/sync"
import { afterAll, beforeAll, expect, test } from "vitest"
import { z } from "zod"
import { openSource } from "../../../lib/import/source"
import { runImport } from "../../../lib/import/run"
import { toCsv } from "../../../lib/export/csv"
import { personZip } from "../../../lib/export/person-zip"
import { readDecisionHistory } from "../../../lib/store/decision-history"
import { readContactHistory } from "../../../lib/store/contact-history"
import { readPersonFacts } from "../../../lib/store/person-facts"
import { recordsOfPerson } from "../../../lib/store/person-records"
import { importExtract, openFolder } from "../../helpers/extract"
import { filtrate } from "../../helpers/filtrate"
import { openStore, type TestStore } from "../../helpers/open-store"

const folder = openFolder()
let store: TestStore

const first = {
  staff: ["staff_id,name,role,site", "S-1,Dr A,nephrologist,North", "S-2,Dr B,dietitian,North"],
  patients: [
    "patient_id,given_name,family_name,birth_date,sex,registered_on,clinician_id,merged_into",
    "A1,=Ada,North,1960-05-01,female,2020-01-01,S-1,",
    "A0,Ada,North,1960-05-01,female,2019-01-01,,A1",
    "B1,Bo,South,1961-05-01,male,2020-01-01,S-2,",
  ],
  visits: [
    "visit_id,patient_id,started_on,kind",
    "V-1,A1,2026-01-10,office",
    "V-0,A0,2019-02-03,office",
    "V-9,B1,2026-01-10,office",
  ],
  readings: [
    "patient_id,taken_at,systolic,diastolic,setting",
    "A1,2026-01-10T09:30,141,88,office",
    "A1,2026-01-11,139,87,home",
  ],
  labs: [
    "patient_id,collected_at,test,value,unit,haemolysed",
    "A1,2026-01-10T08:00,2160-0,1.40,mg/dL,",
    "A1,2026-01-10T08:00,uacr,<5,mg/g,no",
  ],
}

const second = { visits: ["visit_id,patient_id,started_on,kind", "V-1,A1,2026-01-12,office"] }

beforeAll(async () => {
  store = await openStore()
  await store.prisma.clinic.create({ data: { name: "Test clinic", timeZone: "America/Chicago" } })
  await importExtract(store, folder.dir, first)
  await importExtract(store, folder.dir, second)
})

afterAll(async () => {
  await store.close()
  folder.close()
})

const Rows = z.array(z.record(z.string(), z.string()))

function rowsOf(text: string) {
  return Rows.parse(parse(text, { columns: true }))
}

async function factsOf(patientId: string) {
  return store.prisma.$transaction(async (transaction) => {
    const records = await recordsOfPerson(transaction, patientId)
    const patientIds = records.map((one) => one.patientId)
    return readPersonFacts(transaction, { patientIds, timeZone: "America/Chicago" })
  })
}

const contactsOf = (patientId: string) =>
  store.prisma.$transaction((transaction) => readContactHistory(transaction, [patientId]))

async function filesOf(patientId: string): Promise<Map<string, string>> {
  const file = path.join(folder.dir, `${patientId}-${Math.random()}.zip`)
  writeFileSync(file, await personZip(await factsOf(patientId), [await contactsOf(patientId)]))
  const source = await openSource(file)
  const texts = new Map<string, string>()
  for (const one of source.files) {
    const chunks: Buffer[] = []
    for await (const chunk of await one.open()) chunks.push(chunk)
    texts.set(one.kind, Buffer.concat(chunks).toString("utf8"))
  }
  await source.close()
  return texts
}

test("the person is the same from whichever of the merged records it is asked", async () => {
  const ids = async (patientId: string) =>
    (await recordsOfPerson(store.prisma, patientId)).map((one) => one.patientId)

  expect(await ids("A1")).toEqual(["A0", "A1"])
  expect(await ids("A0")).toEqual(["A0", "A1"])
  expect(await ids("B1")).toEqual(["B1"])
  expect(await ids("nobody")).toEqual([])
})

test("a merge that closes a circle is no link", async () => {
  await importExtract(store, folder.dir, {
    patients: [
      "patient_id,birth_date,sex,registered_on,merged_into",
      "C1,1960-05-01,female,2020-01-01,C2",
      "C2,1960-05-01,female,2020-01-01,C1",
      "C3,1960-05-01,female,2020-01-01,C1",
    ],
  })
  const ids = async (patientId: string) =>
    (await recordsOfPerson(store.prisma, patientId)).map((one) => one.patientId)

  expect(await ids("C1")).toEqual(["C1", "C3"])
  expect(await ids("C2")).toEqual(["C2"])
})

test("every fact of the person is there with the row that brought it, and nobody else's", async () => {
  const files = await filesOf("A1")

  expect([...files.keys()].sort()).toEqual(["labs", "patients", "readings", "staff", "visits"])
  expect(rowsOf(files.get("visits") ?? "")).toMatchObject([
    { visit_id: "V-0", started_on: "2019-02-03", import_number: "1", import_line: "3", known_until: "" },
    { visit_id: "V-1", started_on: "2026-01-12", import_number: "2", import_line: "2", known_until: "" },
  ])
  expect(rowsOf(files.get("staff") ?? "").map((row) => row.staff_id)).toEqual(["S-1"])
  expect([...files.values()].join("\n")).not.toContain("B1")
})

test("a version that was superseded is among the earlier ones, with why", async () => {
  const visits = (await factsOf("A1")).find((file) => file.kind === "visits")

  expect(visits?.earlier).toHaveLength(1)
  expect(visits?.earlier[0]).toEqual(expect.arrayContaining(["2026-01-10", "superseded"]))
})

test("times carry their offset, a time that was a day alone stays one", async () => {
  const readings = rowsOf((await filesOf("A1")).get("readings") ?? "")

  expect(readings.map((row) => row.taken_at)).toEqual(["2026-01-10T09:30:00-06:00", "2026-01-11"])
})

test("a cell that a spreadsheet would run is defused", async () => {
  expect((await filesOf("A1")).get("patients")).toContain(",'=Ada,")
})

test("taken in again, the files give the same facts", async () => {
  const file = path.join(folder.dir, "again.zip")
  writeFileSync(file, await personZip(await factsOf("A1"), [await contactsOf("B1")]))
  const other = await openStore()
  await other.prisma.clinic.create({ data: { name: "Other clinic", timeZone: "America/Chicago" } })
  const outcome = await runImport({
    ...{ databaseUrl: other.url, dataDir: folder.dir, location: file, timeZone: "America/Chicago" },
    ...{
      isFull: false,
      isDryRun: false,
      isAccepted: false,
      now: new Date("2026-03-15T18:00:00Z"),
      say: () => {},
    },
  })
  const labs = (from: TestStore) =>
    from.client.query(
      "select test, loinc, comparator, value, number, unit, collected_at from lab_results order by test",
    )

  expect(outcome.files.map((one) => one.rejected + one.held)).toEqual(outcome.files.map(() => 0))
  expect((await labs(other)).rows).toEqual((await labs(store)).rows)
  await other.close()
})

test("what was done to contact the person is in it, cell by cell harmless, and nobody else's", async () => {
  const { client } = store
  await client.query(
    `insert into outreach_cases(patient_id, state, opened_at, looked_on)
     values ('A1', 'open', now(), '2026-03-15'), ('B1', 'open', now(), '2026-03-15')`,
  )
  await client.query(
    `insert into outreach_events(case_id, patient_id, kind, on_day, at, by_name, to_state, round, channel, outcome, note, began)
     select id, patient_id, 'attempt', '2026-03-16', now(), 'Lead', 'open', 1, 'phone', 'no answer', '=after five',
       '[{"reason": "above-target"}]'
     from outreach_cases`,
  )

  const { columns, rows } = await contactsOf("A1")
  const bytes = await personZip([], [await contactsOf("A1")])

  expect(rows).toHaveLength(1)
  expect(rowsOf(toCsv(columns, rows))).toMatchObject([
    { on: "2026-03-16", by: "Lead", channel: "phone", note: "'=after five", reasons_begun: "above-target" },
  ])
  expect(bytes.includes("contact-history.csv")).toBe(true)
})

test("what clinicians decided about the person is in it, cell by cell harmless, and nobody else's", async () => {
  const { client } = store
  await client.query(
    `insert into clinician_decisions(patient_id, topic, kind, reason, note, made_on, made_at, made_by, made_by_id)
     select id, 'diet', 'patient declined', 'other', '=not now', '2026-03-16', now(), 'Dr Lead', gen_random_uuid()
     from unnest(array['A1', 'B1']) as id`,
  )

  const history = await store.prisma.$transaction((transaction) => readDecisionHistory(transaction, ["A1"]))
  const bytes = await personZip([], [history])

  expect(rowsOf(toCsv(history.columns, history.rows))).toMatchObject([
    { made_on: "2026-03-16", made_by: "Dr Lead", topic: "diet", kind: "patient declined", note: "'=not now" },
  ])
  expect(bytes.includes("decisions.csv")).toBe(true)
})

test("the command writes it for its user alone, with a reason that is on record", async () => {
  const env = { DATABASE_URL: store.url, FILTRATE_DATA: folder.dir }
  const out = path.join(folder.dir, "ada.zip")

  const finished = await filtrate(
    ["export-patient", "A0", "--out", out, "--reason", "asked for by letter"],
    env,
  )
  const nobody = await filtrate(["export-patient", "Z", "--out", `${out}2`, "--reason", "asked for"], env)
  const noReason = await filtrate(["export-patient", "A0", "--out", `${out}2`], env)

  expect(finished.stderr).toBe("")
  expect(finished.stdout).toBe("8 facts and 1 earlier versions\n")
  expect(statSync(out).mode & 0o777).toBe(0o600)
  expect(readFileSync(out).subarray(0, 2).toString()).toBe("PK")
  expect([nobody.exitCode, noReason.exitCode > 0]).toEqual([2, true])
  const [entry] = await store.prisma.auditEntry.findMany({ where: { action: "record.export" } })
  expect(entry).toMatchObject({ purpose: "asked for by letter", people: 2, detail: { facts: 8, earlier: 1 } })
})
