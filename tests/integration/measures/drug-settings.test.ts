import { afterEach, describe, expect, it } from "vitest"
import { z } from "zod"
import { defaultSettings, type Settings } from "../../../lib/domain/settings"
import { computeDay } from "../../../lib/engine/compute"
import { openEngine, type TestEngine } from "../../helpers/open-engine"
import { raw } from "../../helpers/raw-facts"

const today = "2025-06-30"
const opened: TestEngine[] = []

afterEach(() => {
  for (const engine of opened.splice(0)) engine.close()
})

const people = {
  "A2 twice": [],
  "A3 at last": [],
  "two kinds for 20 days": [
    raw.order("two kinds for 20 days", "lisinopril", "2020-02-01"),
    raw.order("two kinds for 20 days", "losartan", "2025-06-10"),
  ],
  "ACE inhibitor to ARB": [
    raw.order("ACE inhibitor to ARB", "lisinopril", "2020-02-01", { stopped_on: "2025-05-01" }),
    raw.order("ACE inhibitor to ARB", "losartan", "2025-05-01"),
  ],
  "loop to thiazide": [
    raw.order("loop to thiazide", "furosemide", "2020-02-01", { stopped_on: "2025-05-01" }),
    raw.order("loop to thiazide", "hydrochlorothiazide", "2025-05-01"),
  ],
  "two starts, both checked": [
    raw.order("two starts, both checked", "lisinopril", "2024-08-01", { stopped_on: "2024-09-01" }),
    raw.order("two starts, both checked", "lisinopril", "2025-03-01"),
  ],
  "two starts, one checked": [
    raw.order("two starts, one checked", "lisinopril", "2024-08-01", { stopped_on: "2024-09-01" }),
    raw.order("two starts, one checked", "lisinopril", "2025-03-01"),
  ],
  "decided on pressure": [],
  "decided on SGLT2 inhibitors": [],
}

const ids = Object.keys(people)

function labs() {
  return [
    ...["A2 twice", "A3 at last"].flatMap((id) => [
      raw.lab(id, "uacr", "2025-01-10", 200),
      raw.lab(id, "uacr", "2025-06-01", id === "A2 twice" ? 300 : 301),
    ]),
    raw.lab("two starts, both checked", "potassium", "2024-08-03", 4.4),
    raw.lab("two starts, both checked", "creatinine", "2024-08-21", 110),
    raw.lab("two starts, both checked", "creatinine", "2024-08-22", 110),
    raw.lab("two starts, both checked", "potassium", "2025-03-11", 4.4),
    raw.lab("two starts, both checked", "creatinine", "2025-03-06", 110),
    raw.lab("two starts, one checked", "potassium", "2025-03-11", 4.4),
    raw.lab("two starts, one checked", "creatinine", "2025-03-06", 110),
    raw.lab("decided on SGLT2 inhibitors", "egfr", "2025-05-01", 40),
    raw.lab("decided on SGLT2 inhibitors", "uacr", "2025-05-01", 400),
  ]
}

async function engineWith(settings: Partial<Settings> = {}): Promise<TestEngine> {
  const engine = await openEngine(
    {
      patient_records_raw: ids.map((id) => raw.person(id)),
      visits_raw: ids.map((id) => raw.visit(id, "2025-01-15")),
      problems_raw: ids.map((id) => raw.problem(id, "N18.30")),
      readings_raw: [
        ...ids.flatMap((id) => [raw.reading(id, "2025-02-10", 150), raw.reading(id, "2025-06-10", 132)]),
        raw.reading("A2 twice", today, 119),
      ],
      labs_raw: labs(),
      orders_raw: Object.values(people).flat(),
      decisions: [
        { patient_id: "decided on pressure", topic: "pressure", kind: "deferred", made_on: "2025-01-01" },
        {
          patient_id: "decided on SGLT2 inhibitors",
          topic: "sglt2_inhibitor",
          kind: "not tolerated",
          made_on: "2025-01-01",
        },
      ],
    },
    { today, settings },
  )
  opened.push(engine)
  return engine
}

async function standing(
  engine: TestEngine,
  { id, measure, on = today }: { id: string; measure: string; on?: string },
) {
  const rows = await engine.ask(
    {
      sql: `select s.${measure} as standing from patient_standings as s
        where s.patient_id = $id and s.as_of = cast($on as date)`,
      Row: z.object({ standing: z.string() }),
    },
    { id, on },
  )
  return rows[0]?.standing
}

describe("an overlap of two kinds of RAS blocker", () => {
  it.each([
    [20, "met"],
    [21, "not met"],
    [30, "not met"],
  ])("lasts %i days when the clinic says so: %s", async (overlapDays, expected) => {
    const engine = await engineWith({ "drugs.overlapDays": overlapDays })

    expect(await standing(engine, { id: "two kinds for 20 days", measure: "dual_ras_blockade" })).toBe(
      expected,
    )
  })
})

describe("a RAS blocker for protein in the urine", () => {
  it.each([
    ["A2", "not met", "not met"],
    ["A3", "outside", "not met"],
  ] as const)("is asked for from %s", async (fromCategory, atA2, atA3) => {
    const engine = await engineWith({ "ras.fromCategory": fromCategory })
    const measure = "ras_blocker_in_albuminuria"

    expect(await standing(engine, { id: "A2 twice", measure })).toBe(atA2)
    expect(await standing(engine, { id: "A3 at last", measure })).toBe(atA3)
  })
})

describe("a low pressure", () => {
  it.each([
    [110, "not met"],
    [132, "not met"],
    [133, "met"],
  ])("lies below %i: %s", async (lowSystolic, expected) => {
    const engine = await engineWith({ "bp.lowSystolic": lowSystolic })

    expect(await standing(engine, { id: "ACE inhibitor to ARB", measure: "low_pressure_on_drugs" })).toBe(
      expected,
    )
  })
})

describe("a switch between kinds", () => {
  it.each([
    ["together", "outside", "outside"],
    ["ras_separate", "not met", "outside"],
    ["diuretics_by_kind", "outside", "not met"],
    ["both_separate", "not met", "not met"],
  ] as const)(
    "is a stop of a class counted %s only where kinds are classes",
    async (counting, ras, diuretic) => {
      const engine = await engineWith({ "drugs.counting": counting })
      const measure = "followed_after_stopping"
      const on = "2025-05-31"

      expect(await standing(engine, { id: "ACE inhibitor to ARB", measure, on })).toBe(ras)
      expect(await standing(engine, { id: "loop to thiazide", measure, on })).toBe(diuretic)
    },
  )

  it("is a start of a class, and so a plan, only where kinds are classes", async () => {
    const measure = "plan_when_high"
    const [together, separate] = [await engineWith(), await engineWith({ "drugs.counting": "ras_separate" })]

    expect(await standing(together, { id: "ACE inhibitor to ARB", measure })).toBe("not met")
    expect(await standing(separate, { id: "ACE inhibitor to ARB", measure })).toBe("met")
  })

  it("is no start of a RAS blocker, however kinds are counted", async () => {
    const engine = await engineWith({ "drugs.counting": "both_separate" })

    expect(await standing(engine, { id: "ACE inhibitor to ARB", measure: "ras_start_checked" })).toBe(
      "outside",
    )
  })
})

describe("the days to the check after a start", () => {
  it("are those of the slower start and the later test, and missing where one was not checked", async () => {
    const engine = await engineWith()

    const days = await engine.ask(
      {
        sql: `select p.patient_id, p.ras_start_checked_days as days from patient_month as p
          where p.as_of = cast($on as date) and p.are_ras_starts_checked is not null order by p.patient_id`,
        Row: z.object({ patient_id: z.string(), days: z.number().nullable() }),
      },
      { on: today },
    )

    expect(days).toEqual([
      { patient_id: "two starts, both checked", days: 20 },
      { patient_id: "two starts, one checked", days: null },
    ])
  })
})

describe("a decision in force", () => {
  it("on pressure is a plan", async () => {
    const engine = await engineWith()

    expect(await standing(engine, { id: "decided on pressure", measure: "plan_when_high" })).toBe("met")
    expect(await standing(engine, { id: "A3 at last", measure: "plan_when_high" })).toBe("not met")
  })

  it("on SGLT2 inhibitors is an exception", async () => {
    const engine = await engineWith()

    expect(await standing(engine, { id: "decided on SGLT2 inhibitors", measure: "sglt2_in_ckd" })).toBe(
      "exception",
    )
  })
})

describe("a day within a month", () => {
  it("has a pressure of three months before that day", async () => {
    const engine = await engineWith()

    await computeDay(engine.connection, { settings: defaultSettings, asOf: "2025-06-12" })

    expect(await standing(engine, { id: "A3 at last", measure: "plan_when_high", on: "2025-06-12" })).toBe(
      "not met",
    )
    await computeDay(engine.connection, { settings: defaultSettings, asOf: "2025-05-09" })
    expect(await standing(engine, { id: "A3 at last", measure: "plan_when_high", on: "2025-05-09" })).toBe(
      "outside",
    )
  })
})
