import { afterAll, beforeAll, beforeEach, describe, expect, test } from "vitest"
import { counts, importExtract, openFolder, type ExtractFiles } from "../../helpers/extract"
import { clearStore, inForce, rejectedRows } from "../../helpers/ledger-rows"
import { openStore, type TestStore } from "../../helpers/open-store"
import type { ImportOptions } from "../../../lib/import/run"

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
const readingColumns = "patient_id,taken_at,systolic,diastolic,setting,pulse,reading_id,retracted"

function run(files: ExtractFiles, options: Partial<ImportOptions> = {}) {
  return importExtract(store, folder.dir, files, options)
}

describe("every file reaches its ledger", () => {
  test("with every column, as it was written", async () => {
    const files: ExtractFiles = {
      staff: ["staff_id,name,role,site", "S1,Dr Ä,nephrologist,North"],
      patients: [
        "patient_id,given_name,family_name,birth_date,sex,language,interpreter_needed,race,ethnicity,phone,email,postal_code,preferred_contact,do_not_contact,clinician_id,site,registered_on,left_on,left_reason,died_on,merged_into,is_test",
        'P1,"Ann ""Nan""",O\'Neil,1960-05-01,female,es-MX,yes,2106-3;2028-9,declined,555-0100,a@example.org,01234,portal,no,S1,North,2020-02-03,2027-01-01,moved,2026-03-01,P2,false',
        "P2,,,1906-03-15,unknown,,,,,,,,,,,,2021-01-01,,,,,",
      ],
      visits: [
        "visit_id,patient_id,started_on,ended_on,kind,clinician_id",
        "V1,P1,2026-01-10,2026-01-12,inpatient,S1",
      ],
      appointments: [
        "appointment_id,patient_id,starts_at,clinician_id,kind,status",
        "A1,P1,2026-05-01T09:00,S1,office,kept",
      ],
      readings: [
        readingColumns,
        "P1,2026-01-10T09:30:15.25,131.5,79,home,72.5,R1,",
        "P1,1969-12-31,131,79,office,,,",
      ],
      labs: [
        "patient_id,collected_at,test,value,unit,status,haemolysed,lab_id",
        "P1,2026-01-10T09:30-06:00,2160-0,> 1.20,mg/dl,corrected,yes,L1",
        "P1,2026-01-10,urine_dipstick_protein,Trace,,,,",
      ],
      medications: [
        "patient_id,drug,code_system,code,dose,dose_unit,times_per_day,as_needed,route,started_on,stopped_on,stop_reason,supply_days,order_id",
        'P1,"Lisinopril, 10 mg",atc,C09AA03,12345678.000025,mg,0.5,false,oral,2025-06-01,2025-07-01,"dry\ncough",90,O1',
      ],
      problems: [
        "patient_id,code_system,code,description,onset_on,resolved_on,recorded_on,verification,problem_id",
        "P1,icd10cm,N18.32,CKD stage 3b,2019-01-01,2025-01-01,2019-02-01,provisional,B1",
      ],
      allergies: [
        "patient_id,substance,reaction,kind,recorded_on",
        "P1,Lisinopril,kidney injury,intolerance,2025-07-01",
      ],
      diet: [
        "patient_id,recorded_on,method,sodium_mg,potassium_mg,energy_kcal,protein_g,diet_id",
        "P1,2026-02-01,food_record,3400.25,2800,1900,61.5,D1",
      ],
    }
    const outcome = await run(files)

    expect(outcome.files.map(({ file, added }) => [file, added])).toEqual([
      ...[
        ["staff.csv", 1],
        ["patients.csv", 2],
        ["visits.csv", 1],
        ["appointments.csv", 1],
        ["readings.csv", 2],
      ],
      ...[
        ["labs.csv", 2],
        ["medications.csv", 1],
        ["problems.csv", 1],
        ["allergies.csv", 1],
        ["diet.csv", 1],
      ],
    ])
    expect(await inForce(store, "staff")).toEqual([
      { staff_id: "S1", name: "Dr Ä", role: "nephrologist", site: "North" },
    ])
    expect(await inForce(store, "patients")).toEqual([
      {
        ...{
          patient_id: "P1",
          given_name: 'Ann "Nan"',
          family_name: "O'Neil",
          birth_date: "1960-05-01",
          sex: "female",
        },
        ...{ language: "es-MX", interpreter_needed: true, race: "2106-3;2028-9", ethnicity: "declined" },
        ...{ phone: "555-0100", email: "a@example.org", postal_code: "01234", preferred_contact: "portal" },
        ...{ do_not_contact: false, clinician_id: "S1", site: "North", registered_on: "2020-02-03" },
        ...{
          left_on: "2027-01-01",
          left_reason: "moved",
          died_on: "2026-03-01",
          merged_into: "P2",
          is_test: false,
        },
      },
      expect.objectContaining({
        patient_id: "P2",
        birth_date: "1906-03-15",
        given_name: null,
        is_test: null,
      }),
    ])
    expect(await inForce(store, "visits")).toEqual([
      {
        ...{
          patient_id: "P1",
          visit_id: "V1",
          started_on: "2026-01-10",
          ended_on: "2026-01-12",
          kind: "inpatient",
        },
        clinician_id: "S1",
      },
    ])
    expect(await inForce(store, "appointments")).toEqual([
      {
        ...{
          patient_id: "P1",
          appointment_id: "A1",
          starts_at: "2026-05-01 14:00:00+00",
          is_date_only: false,
        },
        ...{ clinician_id: "S1", kind: "office", status: "kept" },
      },
    ])
    expect(await inForce(store, "readings")).toEqual([
      {
        ...{ patient_id: "P1", reading_id: "R1", taken_at: "2026-01-10 15:30:15.25+00", is_date_only: false },
        ...{ systolic: "131.5", diastolic: "79", setting: "home", pulse: "72.5" },
      },
      {
        ...{ patient_id: "P1", reading_id: null, taken_at: "1969-12-31 18:00:00+00", is_date_only: true },
        ...{ systolic: "131", diastolic: "79", setting: "office", pulse: null },
      },
    ])
    expect(await inForce(store, "labs")).toEqual([
      {
        ...{ patient_id: "P1", lab_id: "L1", collected_at: "2026-01-10 15:30:00+00", is_date_only: false },
        ...{
          test: "creatinine",
          loinc: "2160-0",
          is_used: true,
          comparator: ">",
          value: "106.08",
          number: "1.2",
        },
        ...{
          unit: "mg/dL",
          status: "corrected",
          is_haemolysed: true,
          value_text: "> 1.20",
          unit_text: "mg/dl",
        },
      },
      {
        ...{ patient_id: "P1", lab_id: null, collected_at: "2026-01-10 18:00:00+00", is_date_only: true },
        ...{
          test: "urine_dipstick_protein",
          loinc: null,
          is_used: true,
          comparator: null,
          value: null,
          number: null,
        },
        ...{ unit: null, status: "final", is_haemolysed: null, value_text: "Trace", unit_text: null },
      },
    ])
    expect(await inForce(store, "medications")).toEqual([
      {
        ...{
          patient_id: "P1",
          order_id: "O1",
          drug: "Lisinopril, 10 mg",
          code_system: "atc",
          code: "C09AA03",
        },
        ...{
          dose: "12345678.000025",
          dose_unit: "mg",
          times_per_day: "0.5",
          as_needed: false,
          route: "oral",
        },
        ...{
          started_on: "2025-06-01",
          stopped_on: "2025-07-01",
          stop_reason: "dry\ncough",
          supply_days: "90",
        },
      },
    ])
    expect(await inForce(store, "problems")).toEqual([
      {
        ...{
          patient_id: "P1",
          problem_id: "B1",
          code_system: "icd10cm",
          code: "N18.32",
          description: "CKD stage 3b",
        },
        ...{
          onset_on: "2019-01-01",
          resolved_on: "2025-01-01",
          recorded_on: "2019-02-01",
          verification: "provisional",
        },
      },
    ])
    expect(await inForce(store, "allergies")).toEqual([
      {
        ...{ patient_id: "P1", substance: "Lisinopril", reaction: "kidney injury", kind: "intolerance" },
        recorded_on: "2025-07-01",
      },
    ])
    expect(await inForce(store, "diet")).toEqual([
      {
        ...{
          patient_id: "P1",
          diet_id: "D1",
          recorded_on: "2026-02-01",
          method: "food_record",
          sodium_mg: "3400.25",
        },
        ...{ potassium_mg: "2800", energy_kcal: "1900", protein_g: "61.5" },
      },
    ])
  })

  test("every version carries the import, the line, and when it became known", async () => {
    const outcome = await run({ patients, readings: [readingColumns, "", "P1,2026-01-10,131,79,home,,,"] })
    const { rows } = await store.client.query(
      "select import_id, line, known_at, ended_at, ended_by, end_reason from readings",
    )

    expect(rows).toEqual([
      {
        ...{ import_id: outcome.importId, line: 3, known_at: new Date("2026-03-15T18:00:00Z") },
        ...{ ended_at: null, ended_by: null, end_reason: null },
      },
    ])
  })
})

describe("one bad row costs one row (rule 1)", () => {
  test("it is listed for a clerk, and every other row is kept", async () => {
    const outcome = await run({
      patients,
      readings: [
        readingColumns,
        "P1,2026-01-10,131,79,home,,,",
        "P1,2026-01-10,13l,79,home,,,",
        "P2,2026-01-11,120,70,office,,,",
      ],
    })

    expect(counts(outcome, "readings")).toEqual({
      ...{ dataRows: 3, added: 2, changed: 0, unchanged: 0, withdrawn: 0, held: 0, rejected: 1 },
    })
    expect(await rejectedRows(store, outcome.importId)).toEqual([
      {
        ...{ file: "readings.csv", line: 3, column_name: "systolic", value: "13l", code: "unreadable" },
        message: "is not a number (digits, with a point before decimals)",
        original: "P1,2026-01-10,13l,79,home,,,",
      },
    ])
  })

  test("a missing required column rejects that file only, naming the column", async () => {
    const outcome = await run({
      patients,
      readings: ["patient_id,taken_at,systolic", "P1,2026-01-10,131", "P1,2026-01-11,132"],
    })
    const report = outcome.files.find((file) => file.kind === "readings")

    expect(counts(outcome, "patients")).toMatchObject({ added: 2, rejected: 0 })
    expect(report).toMatchObject({ isRejected: true, dataRows: 2, rejected: 2, added: 0 })
    expect(report?.notes.problem).toContain("diastolic, setting are required columns and missing")
    expect(await rejectedRows(store, outcome.importId)).toMatchObject([
      {
        file: "readings.csv",
        line: 1,
        column_name: "diastolic, setting",
        original: "patient_id,taken_at,systolic",
      },
    ])
  })

  test("original lines with tabs, backslashes and NUL are kept readable", async () => {
    const outcome = await run({ patients, readings: [readingColumns, "P1,2026-01-10,\\N\t\0,79,home,,,"] })

    expect((await rejectedRows(store, outcome.importId))[0]).toMatchObject({
      ...{ value: "\\N\t\u2400", original: "P1,2026-01-10,\\N\t\u2400,79,home,,," },
    })
  })
})

describe("numbers, times and letters come through Postgres unchanged", () => {
  test("texts that COPY must escape", async () => {
    const names = ["\\N", "a\\tb", "tab\there", 'quote"d', "Zoë 張偉 🩺", "x".repeat(3000), "\\."]
    const rows = names.map((name, index) => `S${index},"${name.replaceAll('"', '""')}",nurse`)
    await run({ staff: ["staff_id,name,role", ...rows] })

    expect((await inForce(store, "staff")).map((row) => row.name)).toEqual(names)
  })

  test("a byte order mark, CRLF and Windows-1252 are read", async () => {
    await run({ staff: "\uFEFFstaff_id,name,role\r\nS1,Dr é,nurse\r\n" })
    const outcome = await run({
      staff: Buffer.from("staff_id,name,role\nS2,Dr \u00e9 \u0096,nurse\n", "latin1"),
    })

    expect((await inForce(store, "staff")).map((row) => row.name)).toEqual(["Dr é", "Dr é –"])
    expect(outcome.files[0]?.notes.encoding).toBe("windows-1252")
  })
})

describe("implausible values are rejected, never clipped (rule 8), and units converted (rule 9)", () => {
  test("the ends of a range are taken, in the reported unit and converted", async () => {
    const row = (value: string, unit: string, day: number) => `P1,2026-01-0${day},creatinine,${value},${unit}`
    const outcome = await run({
      patients,
      labs: [
        "patient_id,collected_at,test,value,unit",
        ...[
          row("0.1", "mg/dL", 1),
          row("30", "MG/DL", 2),
          row("8.84", "umol/L", 3),
          row("2652", "µmol/L", 4),
        ],
        ...[row("0.09", "mg/dL", 5), row("2652.1", "umol/L", 6), row("1.2", "", 7), row("1.2", "mmol/L", 8)],
      ],
    })

    expect(counts(outcome, "labs")).toMatchObject({ added: 4, rejected: 4 })
    expect((await inForce(store, "labs")).map((lab) => lab.value)).toEqual(["8.84", "2652", "8.84", "2652"])
    expect((await rejectedRows(store, outcome.importId)).map(({ line, code }) => [line, code])).toEqual([
      [6, "implausible"],
      [7, "implausible"],
      [8, "unknown-unit"],
      [9, "unknown-unit"],
    ])
  })

  test("an event before the patient's birth or after tomorrow is rejected", async () => {
    const outcome = await run({
      patients,
      readings: [
        readingColumns,
        "P2,1990-01-30,120,80,office,,,",
        "P2,1990-01-31,120,80,office,,,",
        "P2,2026-03-16T23:59,120,80,office,,,",
        "P2,2026-03-17,120,80,office,,,",
      ],
    })

    expect((await rejectedRows(store, outcome.importId)).map(({ line, code }) => [line, code])).toEqual([
      [2, "before-birth"],
      [5, "in-future"],
    ])
  })
})

describe("codes (rule 10)", () => {
  test("a LOINC code on no list is stored, not used and counted; an ICD code on no list is stored", async () => {
    const outcome = await run({
      patients,
      labs: [
        "patient_id,collected_at,test,value,unit",
        "P1,2026-01-01,2777-1,4.2,mg/dL",
        "P2,2026-01-01,2777-1,4.3,mg/dL",
        "P1,2026-01-01,phosphate,4,mg/dL",
      ],
      problems: ["patient_id,code", "P1,Z00.0"],
    })

    expect(outcome.files.find((file) => file.kind === "labs")?.notes.unlistedLoinc).toEqual([
      { code: "2777-1", rows: 2 },
    ])
    expect(await inForce(store, "labs")).toMatchObject([
      { test: "2777-1", is_used: false },
      { is_used: false },
    ])
    expect(counts(outcome, "labs").rejected).toBe(1)
    expect(await inForce(store, "problems")).toMatchObject([{ code_system: "icd10", code: "Z00.0" }])
  })
})

describe("line numbers are physical lines (rule 12)", () => {
  test("across quoted line breaks, empty lines and rejected records", async () => {
    const text = [
      "patient_id,drug,started_on,stop_reason",
      'P1,"Amlodipine\n5 mg",2025-01-01,"felt\r\nwell\n"',
      "",
      "P1,Losartan,2025-02-30,",
      'P1,"Furo"semide,2025-01-01,',
      "P1,Bisoprolol,2025-01-01,",
    ]
    const outcome = await run({ patients, medications: `${text.join("\r\n")}\r\n` })
    const { rows } = await store.client.query("select line, drug from medication_orders order by line")

    expect(rows).toEqual([
      { line: 2, drug: "Amlodipine\n5 mg" },
      { line: 9, drug: "Bisoprolol" },
    ])
    expect((await rejectedRows(store, outcome.importId)).map((row) => row.line)).toEqual([7, 8])
  })
})
