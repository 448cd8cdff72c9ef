import { afterAll, beforeAll, describe, expect, it } from "vitest"
import { evidencePhrases } from "../../../app/(clinic)/patients/[publicId]/evidence-words"
import { findMeasure } from "../../../lib/measures/index"
import type { Condition } from "../../../lib/measures/types"
import type { EvidenceFact } from "../../../lib/questions/evidence-fact"
import { patientEvidence } from "../../../lib/questions/patient-evidence"
import { openEngine, type TestEngine } from "../../helpers/open-engine"
import { raw } from "../../helpers/raw-facts"

const today = "2025-06-30"
const id = "P"
const mg = { dose_unit: "mg", times_per_day: 1 }

let engine: TestEngine
let facts: EvidenceFact[]

beforeAll(async () => {
  engine = await openEngine(
    {
      patient_records_raw: [raw.person(id, { line: 2 })],
      visits_raw: [raw.visit(id, today)],
      problems_raw: [raw.problem(id, "N18.30")],
      readings_raw: [
        raw.reading(id, "2025-02-10", 150, { line: 10 }),
        raw.reading(id, "2025-06-10", 141, { line: 11 }),
      ],
      labs_raw: [
        raw.lab(id, "potassium", "2025-04-15", 4.4),
        raw.lab(id, "creatinine", "2025-04-11", 110),
        raw.lab(id, "potassium", "2025-06-20", 5.2),
      ],
      orders_raw: [
        raw.order(id, "ramipril", "2025-04-10", { line: 20 }),
        raw.order(id, "losartan", "2025-06-20", { line: 21 }),
        raw.order(id, "amlodipine 5", "2024-02-01", { ...mg, dose: 5, stopped_on: "2025-05-02", line: 22 }),
        raw.order(id, "amlodipine 10", "2025-05-02", { ...mg, dose: 10, line: 23 }),
        raw.order(id, "clonidine 0.2", "2024-02-01", {
          ...mg,
          dose: 0.2,
          stopped_on: "2025-05-05",
          line: 24,
        }),
        raw.order(id, "clonidine 0.1", "2025-05-05", {
          ...mg,
          dose: 0.1,
          stopped_on: "2025-05-20",
          line: 25,
        }),
        raw.order(id, "doxazosin", "2024-02-01", { stopped_on: "2025-03-20", line: 26 }),
        raw.order(id, "dapagliflozin", "2025-06-01", { line: 27 }),
      ],
    },
    { today },
  )
  facts = await engine.ask(patientEvidence, { public_id: `public ${id}`, as_of: today, home_window_days: 30 })
})

afterAll(() => engine.close())

/** What the patient screen says behind a condition of a measure, with the lines of the rows. */
function phrasesOf(
  measureId: string,
  pick: (conditions: readonly Condition[]) => Condition | undefined,
): string[] {
  const measure = findMeasure(measureId)
  if (!measure) throw new Error(`no measure ${measureId}`)
  const condition = pick([...measure.population, measure.met, ...measure.unknown])
  if (!condition) throw new Error("no such condition")
  return evidencePhrases({ condition, holds: true }, facts, { systolic: 130, diastolic: 80 }).map(
    ({ value, rest, sources }) =>
      `${value}; ${rest} [${sources.map((source) => source.split(":").at(-1)).join(" ")}]`.replaceAll(
        "\u00a0",
        " ",
      ),
  )
}

function met(measureId: string): string[] {
  return phrasesOf(measureId, () => findMeasure(measureId)?.met)
}

describe("what stands behind a question about drugs", () => {
  it("is the pressure of three months before", () => {
    expect(
      phrasesOf("plan-when-high", (all) => all.find((one) => one.evidence === "earlier pressure")),
    ).toEqual(["150/75 office; on 10 Feb 2025 [10]"])
  })

  it("is each start and each raised dose of the three months", () => {
    expect(met("plan-when-high")).toEqual([
      "RAS blocker started; on 10 Apr 2025: ramipril [20]",
      "amlodipine raised; on 2 May 2025, from 5 to 10 mg a day [23]",
    ])
  })

  it("is each start of a RAS blocker with the days to its checks", () => {
    expect(met("ras-start-checked")).toEqual([
      "ramipril started; on 10 Apr 2025; potassium after 5 days, creatinine after 1 day [20]",
    ])
  })

  it("is each kind of RAS blocker with the day its unbroken run began", () => {
    expect(met("dual-ras-blockade")).toEqual([
      "ARB; losartan, since 20 Jun 2025 [21]",
      "ACE inhibitor; ramipril, since 10 Apr 2025 [20]",
    ])
  })

  it("is the stop of a clonidine-like drug, its taper and the next reading", () => {
    expect(met("abrupt-stop")).toEqual([
      "clonidine reduced; on 5 May 2025, from 0.2 to 0.1 mg a day [25]",
      "central agonist stopped; on 20 May 2025; the next counted reading on 10 Jun 2025 [25]",
    ])
  })

  it("is every stop of a class that is a month old", () => {
    expect(met("followed-after-stopping")).toEqual([
      "central agonist stopped; on 20 May 2025; the next counted reading on 10 Jun 2025 [25]",
      "alpha-1 blocker stopped; on 20 Mar 2025; no counted reading in the 30 days after [26]",
    ])
  })

  it("is the SGLT2 inhibitor, and for the potassium the drugs that hold it back", () => {
    expect(met("sglt2-in-ckd")).toEqual(["SGLT2 inhibitor; dapagliflozin, since 1 Jun 2025 [27]"])
    expect(phrasesOf("potassium-high-on-ras", ([first]) => first)).toEqual([
      "ARB; losartan, since 20 Jun 2025 [21]",
      "ACE inhibitor; ramipril, since 10 Apr 2025 [20]",
    ])
  })
})
