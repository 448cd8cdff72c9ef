import { afterAll, beforeAll, describe, expect, it } from "vitest"
import { patientPotassiumAdvice } from "../../../lib/questions/patient-potassium-advice"
import { potassiumAdvice } from "../../../lib/questions/potassium-advice"
import { advisedFacts, advisedPeople, today } from "../../fixtures/diet-advice-people"
import { openEngine, type TestEngine } from "../../helpers/open-engine"

let engine: TestEngine

beforeAll(async () => {
  engine = await openEngine(advisedFacts, { today })
})

afterAll(() => engine.close())

// The borders are those of the clinical reference: KDIGO 2024 above 5.5 mmol/L, G3 to G5, a history; the UK guideline at 6.0;
// a salt substitute from 5.0, with a drug that keeps potassium, or under an eGFR of 30.
describe("what is said of potassium in the diet", () => {
  it.each(advisedPeople)("follows level, stage and drugs: $name", async ({ name, advice, because }) => {
    const rows = await engine.ask(patientPotassiumAdvice, { public_id: `public ${name}`, as_of: today })

    expect(rows.map((row) => row.advice)).toEqual(advice)
    expect(rows.find((row) => row.advice === "salt-substitute")?.because).toBe(because)
    expect(rows.filter((row) => row.words === "" || row.source === "")).toEqual([])
  })

  it("has every statement hold for somebody", () => {
    const held = new Set(advisedPeople.flatMap(({ advice }) => advice))

    expect(potassiumAdvice.map(({ advice }) => advice).filter((advice) => !held.has(advice))).toEqual([])
  })
})
