import { afterAll, beforeAll, describe, expect, test } from "vitest"
import { z } from "zod"
import { defaultSettings } from "../../../lib/domain/settings"
import { paramsOf } from "../../../lib/engine/compute"
import { measures } from "../../../lib/measures/index"
import { askedConditions, patientConditions } from "../../../lib/questions/patient-conditions"
import { patientCautions } from "../../../lib/questions/patient-cautions"
import { patientCourses } from "../../../lib/questions/patient-courses"
import { patientDiet } from "../../../lib/questions/patient-diet"
import { patientEvidence } from "../../../lib/questions/patient-evidence"
import { patientIdentity } from "../../../lib/questions/patient-identity"
import { patientLabs } from "../../../lib/questions/patient-labs"
import { patientPressures } from "../../../lib/questions/patient-pressures"
import { patientStandings } from "../../../lib/questions/patient-standings"
import { patientSurvivor } from "../../../lib/questions/patient-survivor"
import { patientTable } from "../../../lib/questions/patient-table"
import { patientVisits } from "../../../lib/questions/patient-visits"
import { openEngine, type RawFacts, type TestEngine } from "../../helpers/open-engine"

const today = "2026-10-31"
const people = ["office", "home", "drugs", "kidney", "gone", "late"]

const facts: RawFacts = {
  patient_records_raw: ["old office", ...people].map((name, place) => ({
    merged_into: name === "old office" ? "office" : null,
    patient_id: name,
    public_id: `public ${name}`,
    family_name: name,
    birth_date: "1950-02-03",
    sex: name === "late" ? "unknown" : "female",
    registered_on: name === "late" ? "2026-09-15" : "2020-01-01",
    left_on: name === "gone" ? "2026-03-01" : null,
    left_reason: name === "gone" ? "moved" : null,
    line: place + 2,
  })),
  visits_raw: [
    ...people.map((name, place) => visit(name, "2026-09-20", "office", place + 100)),
    { ...visit("kidney", "2026-05-01", "inpatient", 150), ended_on: "2026-05-08" },
    visit("office", today, "office", 151),
  ],
  readings_raw: [
    reading("office", "2026-09-20 09:00:00", 141, 85, "office", 200),
    reading("office", "2026-09-20 09:05:00", 138, 84, "office", 201),
    reading("office", "2026-09-25 11:00:00", 190, 99, "emergency", 202),
    ...Array.from({ length: 12 }, (_, n) =>
      reading("home", `2026-10-${10 + (n % 4)} ${7 + Math.floor(n / 4)}:00:00`, 128, 76, "home", 210 + n),
    ),
    reading("home", "2026-06-04 07:00:00", 150, 90, "home", 230),
    reading("home", "2026-09-01 10:00:00", 150, 92, "office", 231),
  ],
  orders_raw: [
    order("losartan 50", "Losartan 50 mg", "2025-01-10", "2025-04-10", { dose: 50, line: 300 }),
    order("losartan again", "LOSARTAN TAB", "2025-04-10", "2025-07-01", { dose: null, line: 301 }),
    order("losartan 100", "losartan potassium 100mg", "2025-07-01", "2026-02-01", {
      dose: 100,
      line: 302,
      stop_reason: "potassium 5.8",
    }),
    order("amlodipine", "Amlodipine 5 mg", "2025-01-10", "2025-06-01", { dose: 5, line: 303 }),
    order("amlodipine later", "Amlodipine 5 mg", "2025-12-01", null, { dose: 5, line: 304 }),
    order("combination", "Olmesartan/hydrochlorothiazide 20/12.5", "2026-03-01", null, { line: 305 }),
    order("ramipril", "Ramipril 5 mg", "2026-10-20", null, { dose: 5, line: 306 }),
    order("dapagliflozin", "Dapagliflozin 10 mg", "2026-01-01", null, { dose: 10, line: 307 }),
    order("unread", "white round tablet", "2026-01-01", null, { line: 308 }),
    order("as needed", "Clonidine 0.1 mg", "2026-01-01", null, { as_needed: true, line: 309 }),
  ],
  labs_raw: [
    result("kidney", "creatinine", "2026-01-10 08:00:00", 150, { line: 400 }),
    result("kidney", "creatinine", "2026-05-03 08:00:00", 400, { line: 401 }),
    result("kidney", "creatinine", "2026-08-10 08:00:00", 152, { line: 402 }),
    result("kidney", "uacr", "2026-02-01 08:00:00", 320, { line: 403 }),
    result("kidney", "uacr", "2026-08-10 08:00:00", 410, { line: 404 }),
    result("kidney", "potassium", "2026-08-10 08:00:00", 5.7, { line: 405 }),
    result("kidney", "potassium", "2026-10-01 08:00:00", 6.9, { line: 406, is_haemolysed: true }),
  ],
  problems_raw: [
    {
      patient_id: "kidney",
      code_system: "icd10",
      code: "N18.3",
      description: "CKD stage 3",
      onset_on: null,
      recorded_on: null,
      resolved_on: null,
      verification: "confirmed",
      line: 500,
    },
  ],
  diet_raw: [
    { patient_id: "kidney", recorded_on: "2026-10-05", method: "food_record", sodium_mg: 2500, line: 600 },
  ],
}

let engine: TestEngine

beforeAll(async () => {
  engine = await openEngine(facts, { today })
})

afterAll(() => engine.close())

function of(name: string, asOf = today) {
  const home = { home_window_days: defaultSettings["bp.homeWindowDays"] }
  return { public_id: `public ${name}`, as_of: asOf, ...home, ...paramsOf(measures, defaultSettings) }
}

describe("the pressures of one person", () => {
  test("one office day is one mark with both of its rows; what does not count stands apart", async () => {
    const marks = await engine.ask(patientPressures, of("office"))

    expect(marks).toMatchObject([
      { kind: "office", day: "2026-09-20", systolic: 140, diastolic: 85, readings: 2 },
      { kind: "uncounted", setting: "emergency", day: "2026-09-25", systolic: 190 },
    ])
    expect(marks.map((mark) => mark.sources)).toEqual([
      ["readings:1:200", "readings:1:201"],
      ["readings:1:202"],
    ])
  })

  test("a month's home average is the one that ends last in it; too few readings are marked", async () => {
    const home = (await engine.ask(patientPressures, of("home"))).filter((mark) => mark.kind === "home")

    expect(home).toMatchObject([
      { day: "2026-06-04", systolic: 150, readings: 1, is_valid: false },
      { day: "2026-10-13", systolic: 128, readings: 12, days: 4, is_valid: true },
    ])
    expect(home[1]?.sources).toHaveLength(12)
  })

  test("nothing after the day asked for is shown", async () => {
    const marks = await engine.ask(patientPressures, of("home", "2026-09-30"))

    expect(marks.map((mark) => mark.day)).toEqual(["2026-06-04", "2026-09-01"])
  })
})

describe("the drugs of one person", () => {
  test("orders that follow without a gap are one course, whatever the dose and the spelling", async () => {
    const courses = await engine.ask(patientCourses, of("drugs"))
    const losartan = courses.filter((course) => course.drug === "losartan")

    expect(losartan).toMatchObject([
      {
        class: "ras_blocker",
        started_on: "2025-01-10",
        ends_on: "2026-02-01",
        is_active: false,
        stop_reason: "potassium 5.8",
        step_days: ["2025-01-10", "2025-07-01"],
        step_doses: [50, 100],
        sources: ["medications:1:300", "medications:1:301", "medications:1:302"],
      },
    ])
  })

  test("a gap begins a new course", async () => {
    const courses = await engine.ask(patientCourses, of("drugs"))

    expect(
      courses.filter((course) => course.drug === "amlodipine").map((course) => course.started_on),
    ).toEqual(["2025-01-10", "2025-12-01"])
  })

  test("a pill of two classes stands under both; what counts for no class and what was not read is shown", async () => {
    const courses = await engine.ask(patientCourses, of("drugs"))
    const classesOf = (drug: string) =>
      courses.filter((course) => course.drug === drug).map((course) => course.class)

    expect(classesOf("hydrochlorothiazide + olmesartan")).toEqual(["diuretic", "ras_blocker"])
    expect(classesOf("dapagliflozin")).toEqual([null])
    expect(classesOf("white round tablet")).toEqual([null])
    expect(classesOf("clonidine")).toEqual([])
  })
})

describe("the results of one person", () => {
  test("a creatinine of a hospital stay is shown and not used", async () => {
    const labs = await engine.ask(patientLabs, of("kidney"))

    expect(labs.filter((point) => point.series === "egfr").map((point) => point.day)).toEqual([
      "2026-01-10",
      "2026-08-10",
    ])
    expect(labs.filter((point) => point.series === "unused eGFR")).toMatchObject([
      { day: "2026-05-03", number: 400, is_used: false, sources: ["labs:1:401"] },
    ])
  })

  test("a haemolysed potassium is shown and not used", async () => {
    const labs = await engine.ask(patientLabs, of("kidney"))

    expect(
      labs.filter((point) => point.series === "potassium").map((point) => [point.number, point.is_used]),
    ).toEqual([
      [5.7, true],
      [6.9, false],
    ])
  })

  test("diet records and visits come with their rows", async () => {
    expect(await engine.ask(patientDiet, of("kidney"))).toMatchObject([
      { day: "2026-10-05", sodium_mg: 2500, sources: ["diet:1:600"] },
    ])
    expect((await engine.ask(patientVisits, of("kidney"))).map((one) => one.kind)).toEqual([
      "inpatient",
      "office",
    ])
  })
})

describe("what stands behind a standing", () => {
  test("the home average that represents the person names every one of its readings", async () => {
    const representative = (await engine.ask(patientEvidence, of("home"))).find(
      (fact) => fact.topic === "representative",
    )

    expect(representative).toMatchObject({
      word: "home",
      first: 128,
      second: 76,
      day: "2026-10-13",
      rows: 12,
    })
    expect(representative?.sources).toHaveLength(12)
  })

  test("those readings are of the window that the question names, which a closed month keeps", async () => {
    const asked = { ...of("home"), home_window_days: 2 }
    const [fact] = (await engine.ask(patientEvidence, asked)).filter((one) => one.topic === "representative")
    const drawn = (await engine.ask(patientPressures, asked)).filter((mark) => mark.kind === "home").at(-1)

    expect(fact).toMatchObject({ since: "2026-10-12", day: "2026-10-13", rows: 6 })
    expect(drawn?.sources).toEqual(fact?.sources)
  })

  test("confirmed albuminuria names the result and the one that confirms it", async () => {
    const urine = (await engine.ask(patientEvidence, of("kidney"))).filter(
      (fact) => fact.evidence === "urine",
    )

    expect(urine.map((fact) => [fact.topic, fact.first, fact.sources])).toEqual([
      ["urine", 410, ["labs:1:404"]],
      ["confirming urine", 320, ["labs:1:403"]],
    ])
  })

  test("a problem whose onset is not known says so", async () => {
    const problems = (await engine.ask(patientEvidence, of("kidney"))).filter(
      (fact) => fact.topic === "problem" && fact.word === "ckd",
    )

    expect(problems).toMatchObject([
      { detail: "onset not known: N18.3, CKD stage 3", since: "2020-01-01", sources: ["problems:1:500"] },
    ])
  })

  test("the conditions by themselves lead to the standing of every person on every measure", async () => {
    const compared: string[] = []
    for (const name of people) {
      const [held] = await engine.ask(patientConditions, of(name))
      for (const standing of await engine.ask(patientStandings, of(name))) {
        expect([name, standing.measure_id, standingOf(standing.measure_id, held?.holds ?? [])]).toEqual([
          name,
          standing.measure_id,
          standing.standing,
        ])
        compared.push(standing.standing)
      }
    }

    expect(new Set(compared)).toEqual(new Set(["outside", "unknown", "met", "exception", "not met"]))
  })
})

describe("cautions", () => {
  test("name the fact, most pressing first", async () => {
    const cautions = async (name: string) =>
      (await engine.ask(patientCautions, of(name))).map((caution) => caution.caution)

    expect(await cautions("kidney")).toEqual(["high potassium", "potassium in the diet", "newer haemolysed"])
    expect(await cautions("drugs")).toEqual(["two-ras-blockers", "unread drug"])
    expect(await cautions("late")).toEqual(["sex unknown"])
    expect(await cautions("office")).toEqual(["merged"])
  })

  test("lead to the rows of the value they name", async () => {
    const [high] = await engine.ask(patientCautions, of("kidney"))

    expect(high?.sources.length).toBeGreaterThan(0)
    expect(high?.sources.filter((source) => !source.startsWith("labs:"))).toEqual([])
  })

  test("lead to the record that was merged, and not to the person's own", async () => {
    const [merged] = await engine.ask(patientCautions, of("office"))

    expect(merged?.sources).toEqual(["patients:1:2"])
  })
})

describe("who a person is on a day", () => {
  test("someone who left is found, with the reason", async () => {
    const [person] = await engine.ask(patientIdentity, of("gone"))

    expect(person).toMatchObject({ in_panel: false, panel_reason: "left", left_on: "2026-03-01" })
    expect(await engine.ask(patientStandings, of("gone"))).toEqual([])
  })

  test("before the registration nothing of the day is known", async () => {
    const [person] = await engine.ask(patientIdentity, of("late", "2026-08-31"))

    expect(person).toMatchObject({ in_panel: null, age_years: null, registered_on: "2026-09-15" })
  })

  test("an old record leads to the person it was merged into", async () => {
    const survivor = (record: string) => engine.ask(patientSurvivor, { record_id: record })

    expect(await survivor("old office")).toEqual([{ public_id: "public office" }])
    expect(await survivor("office")).toEqual([])
  })

  test("nobody has an unknown id", async () => {
    expect(await engine.ask(patientIdentity, of("nobody"))).toEqual([])
  })
})

test("the panel's table has one row a person in the panel and every declared column", async () => {
  const reader = await engine.connection.runAndReadAll(patientTable.sql, { as_of: today })

  expect(reader.columnNames()).toEqual(Object.keys(patientTable.columns))
  expect(reader.getRowObjects().map((row) => row.patient_id)).toEqual([
    "drugs",
    "home",
    "kidney",
    "late",
    "office",
  ])
  const n = await engine.ask({
    sql: "select cast(count(*) as integer) as n from patient_standings where as_of = '2026-10-31'",
    Row: z.object({ n: z.number() }),
  })
  expect(n).toEqual([{ n: 5 }])
})

/** The definitions' order: outside, excluded, unknown, met, exception, not met. */
function standingOf(measureId: string, holds: readonly boolean[]): string {
  const of = (part: string) =>
    askedConditions.flatMap((asked, place) =>
      asked.measure.id === measureId && asked.part === part ? [holds[place] ?? false] : [],
    )
  if (of("population").includes(false)) return "outside"
  if (of("excluded").includes(true)) return "excluded"
  if (of("unknown").includes(true)) return "unknown"
  if (of("met").includes(true)) return "met"
  return of("exception").includes(true) ? "exception" : "not met"
}

function visit(name: string, day: string, kind: string, line: number) {
  return { patient_id: name, visit_id: `${name} ${day}`, started_on: day, ended_on: day, kind, line }
}

function reading(
  name: string,
  at: string,
  systolic: number,
  diastolic: number,
  setting: string,
  line: number,
) {
  return { patient_id: name, taken_at: at, systolic, diastolic, setting, line }
}

function order(
  key: string,
  drug: string,
  startedOn: string,
  stoppedOn: string | null,
  more: Record<string, string | number | boolean | null>,
) {
  const dose = { dose: null, dose_unit: "mg", times_per_day: 1 }
  return {
    patient_id: "drugs",
    order_key: key,
    drug,
    started_on: startedOn,
    stopped_on: stoppedOn,
    ...dose,
    ...more,
  }
}

function result(
  name: string,
  testName: string,
  at: string,
  value: number,
  more: Record<string, string | number | boolean | null>,
) {
  const unit = { creatinine: "umol/L", uacr: "mg/g", potassium: "mmol/L" }[testName] ?? ""
  const told = { value_text: String(value), unit_text: unit }
  return { patient_id: name, test: testName, collected_at: at, value, number: value, unit, ...told, ...more }
}
