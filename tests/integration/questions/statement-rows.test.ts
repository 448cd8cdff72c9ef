import { afterAll, beforeAll, describe, expect, it } from "vitest"
import { z } from "zod"
import { defaultSettings } from "../../../lib/domain/settings"
import { outreachList } from "../../../lib/outreach/outreach-list"
import { patientClassGuidance } from "../../../lib/questions/patient-class-guidance"
import { patientPotassiumAdvice } from "../../../lib/questions/patient-potassium-advice"
import { patientStatementRows } from "../../../lib/questions/patient-statement-rows"
import { guidedFacts, guidedPeople } from "../../fixtures/class-guidance-people"
import { advisedFacts, advisedPeople } from "../../fixtures/diet-advice-people"
import { outreachPeople } from "../../fixtures/outreach-people"
import { joined, today } from "../../fixtures/outreach-person"
import { resistanceFacts } from "../../fixtures/resistance-facts"
import { resistancePeople, today as resistanceToday } from "../../fixtures/resistance-people"
import { openEngine, type RawFacts, type TestEngine } from "../../helpers/open-engine"
import { raw } from "../../helpers/raw-facts"

// The rows are held against what was put into the raw tables, where each row has a line of its own.
let engine: TestEngine

afterAll(() => engine.close())

async function rowsOf(name: string, on = today) {
  const params = {
    ...{ public_id: `public ${name}`, as_of: on },
    home_window_days: defaultSettings["bp.homeWindowDays"],
  }
  return engine.ask(patientStatementRows, params)
}

const Written = z.object({ patient_id: z.string(), day: z.string(), numbers: z.array(z.number()) })

const writtenIn: Readonly<Record<string, string>> = {
  readings:
    "select patient_id, cast(taken_at as date) as day, [systolic, diastolic] as numbers, line from readings_raw",
  labs: "select patient_id, cast(collected_at as date) as day, [value] as numbers, line from labs_raw",
  medications:
    "select patient_id, coalesce(stopped_on, started_on) as day, [] as numbers, line from orders_raw",
  visits: "select patient_id, started_on as day, [] as numbers, line from visits_raw",
  diet: "select patient_id, recorded_on as day, [sodium_mg] as numbers, line from diet_raw",
}

/** The row of a source as it was put in. */
async function written(source: string) {
  const [file = "", , line = ""] = source.split(":")
  const sql = `select r.patient_id, r.day, cast(r.numbers as double[]) as numbers from (${writtenIn[file]}) as r where r.line = ${line}`
  const [row] = await engine.ask({ sql, Row: Written })
  return { file, row }
}

describe("the rows of a reason to contact", () => {
  beforeAll(async () => {
    const people = outreachPeople.map(({ name }) => raw.person(name))
    const facts: RawFacts = joined(outreachPeople.map((person) => person.facts))
    engine = await openEngine({ ...facts, patient_records_raw: people }, { today })
  })

  it("show the day and the value it speaks of, of the same person", async () => {
    const held = await engine.ask(outreachList, { as_of: today, today })
    const dated = held.filter((row) => row.fact_on !== null)
    expect(dated.length).toBeGreaterThan(20)

    for (const reason of dated) {
      const known = (await rowsOf(reason.patient_id)).find((row) => row.id === reason.reason)
      const behind = await Promise.all((known?.sources ?? []).map(written))

      expect(known?.fact_on, reason.reason).toBe(reason.fact_on)
      expect(behind.map(({ row }) => row?.patient_id)).toEqual(behind.map(() => reason.patient_id))
      const ofThatDay = behind.filter(({ row }) => row?.day === reason.fact_on)
      expect(ofThatDay.length, `${reason.patient_id}, ${reason.reason}`).toBeGreaterThan(0)
      if (reason.value !== null)
        expect(ofThatDay.flatMap(({ row }) => row?.numbers ?? [])).toContain(reason.value)
    }
  })

  it("are none where there never was such a fact", async () => {
    const rows = await rowsOf("not read")

    expect(rows.find((row) => row.id === "pressure-not-measured")).toBeUndefined()
  })
})

describe("the rows of what is said of drug classes", () => {
  beforeAll(async () => {
    engine.close()
    engine = await openEngine(guidedFacts, { today })
  })

  it.each(guidedPeople.filter(({ places }) => places.length > 0))(
    "are there for whatever is said for a condition: $name",
    async ({ name }) => {
      const said = await engine.ask(patientClassGuidance, { public_id: `public ${name}`, as_of: today })
      const rows = await rowsOf(name)

      const bare = said.filter(
        (one) =>
          one.rule !== "always" && !rows.some((row) => row.about === "guidance" && row.id === one.rule),
      )
      expect(bare.map((one) => one.statement)).toEqual([])
    },
  )
})

describe("the rows of what is said of potassium", () => {
  beforeAll(async () => {
    engine.close()
    engine = await openEngine(advisedFacts, { today })
  })

  it.each(advisedPeople)("are there unless it is said of what is not known: $name", async (person) => {
    const said = await engine.ask(patientPotassiumAdvice, {
      ...{ public_id: `public ${person.name}`, as_of: today },
    })
    const rows = await rowsOf(person.name)

    const bare = said
      .filter((one) => !rows.some((row) => row.about === "potassium" && row.id === one.advice))
      .filter((one) => one.advice !== "unknown" && !(one.because ?? "").includes("not known"))
    expect(bare.map((one) => one.advice)).toEqual([])
  })
})

describe("the rows of the parts of a resistant pressure", () => {
  beforeAll(async () => {
    engine.close()
    engine = await openEngine(resistanceFacts, { today: resistanceToday })
  })

  it.each(resistancePeople)("are there for every part that holds: $name", async ({ name, parts }) => {
    const rows = await rowsOf(name, resistanceToday)

    const found = new Set(rows.filter((row) => row.about === "resistance").map((row) => row.id))
    expect(parts.filter((part) => !found.has(part))).toEqual([])
  })
})
