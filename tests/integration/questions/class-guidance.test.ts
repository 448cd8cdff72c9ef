import { afterAll, beforeAll, describe, expect, it } from "vitest"
import { z } from "zod"
import { classGuidanceRules } from "../../../lib/questions/class-guidance-rules"
import { patientClassGuidance } from "../../../lib/questions/patient-class-guidance"
import { guidedFacts, guidedPeople, today } from "../../fixtures/class-guidance-people"
import { openEngine, type TestEngine } from "../../helpers/open-engine"

let engine: TestEngine

beforeAll(async () => {
  engine = await openEngine(guidedFacts, { today })
})

afterAll(() => engine.close())

const listedRules = {
  sql: "select cast(place as integer) as place, applies_when from class_guidance",
  Row: z.object({ place: z.number(), applies_when: z.string() }),
}

const ask = (name: string) => engine.ask(patientClassGuidance, { public_id: `public ${name}`, as_of: today })

// The borders are those that the statements print: KDIGO 2021 (A2, A3, G1 to G4), KDIGO 2024 (eGFR 20, ACR 200 mg/g,
// potassium 5.5), NICE NG203 (potassium 5.0), product information of finerenone (4.8), AHA/ACC 2025 (eGFR 45); below 3.5 mmol/L
// and below an eGFR of 30: common practice, no source.
describe("what guidance says of drug classes", () => {
  it.each(guidedPeople)("follows the conditions on record: $name", async ({ name, places }) => {
    const rows = await ask(name)

    expect(rows.filter((row) => row.guidance !== "never stopped abruptly").map((row) => row.place)).toEqual(
      places,
    )
  })

  it("says of everybody what is never stopped abruptly", async () => {
    const rows = await ask("nothing on record")

    expect(rows.map((row) => row.guidance)).toEqual(["never stopped abruptly", "never stopped abruptly"])
    expect(rows[0]?.statement).toContain("Clonidine")
    expect(rows[1]?.statement).toContain("Beta blockers")
  })

  it("names the drugs it speaks of that are active", async () => {
    const [dual] = await ask("on losartan")

    expect(dual?.active).toEqual(["losartan"])
  })

  it("has a rule for every condition of the list, and somebody for every statement", async () => {
    const listed = await engine.ask(listedRules)
    const held = new Set(guidedPeople.flatMap(({ places }) => places))

    expect([...new Set(listed.map((row) => row.applies_when))].sort()).toEqual(
      classGuidanceRules.map(({ when }) => when).sort(),
    )
    expect(listed.filter((row) => row.applies_when !== "always" && !held.has(row.place))).toEqual([])
  })
})
