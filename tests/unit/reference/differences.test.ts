import { describe, expect, it } from "vitest"
import { filesOf } from "../../fixtures/clinic"
import { office, problem } from "../../fixtures/clinic-facts"
import { personSeenOn } from "../../fixtures/clinic-person"
import { openReference } from "../../reference/compute-reference"
import { filesFromTexts } from "../../reference/csv"
import { differencesBetween, measuresOfOneSide } from "../../reference/differences"

const people = [personSeenOn("2025-01-15")("ann", [problem("N18.30"), office("2025-06-02", 129, 79)], {})]
const answer = openReference({
  open: filesFromTexts(filesOf({ people })),
  timeZone: "America/New_York",
  importDay: "2026-01-02",
})("2025-06-30")

describe("the comparison with the reference", () => {
  it("finds nothing between an answer and itself", () => {
    expect(differencesBetween(answer, answer)).toEqual([])
  })

  it("names a value, a standing and a count that differ", () => {
    const patients = answer.patients.map((patient) => ({
      ...patient,
      systolic: 130,
      standings: { ...patient.standings, "bp-at-target": "not met" },
    }))
    const measures = answer.measures.map((measure) => ({
      ...measure,
      ...("met" in measure ? { met: 7 } : {}),
    }))

    const lines = differencesBetween({ patients, measures }, answer)

    expect(lines[0]).toBe("ann: systolic is 130, by the reference 129")
    expect(lines[1]).toBe('ann: bp-at-target is "not met", by the reference "met"')
    expect(lines).toContain("bp-at-target: met is 7, by the reference 1")
  })

  it("names who is missing, who is too many, and a field that is not there", () => {
    const [ann] = answer.patients
    const patients = [{ ...ann, patient_id: "bob" }]
    const withoutField = [{ ...ann, egfr: undefined }]

    expect(differencesBetween({ ...answer, patients }, answer)).toEqual([
      "bob: only the product has it",
      "ann: only the reference has it",
    ])
    expect(differencesBetween({ ...answer, patients: withoutField }, answer)).toEqual([
      "ann: egfr is missing, by the reference null",
    ])
  })

  it("leaves out a measure that one side lacks, and names it", () => {
    const measures = [...answer.measures.slice(1), { id: "a-new-one", met: 1 }]
    const patients = answer.patients.map((patient) => ({
      ...patient,
      standings: { ...patient.standings, [answer.measures[0]?.id ?? ""]: undefined, "a-new-one": "met" },
    }))

    expect(differencesBetween({ patients, measures }, answer)).toEqual([])
    expect(measuresOfOneSide({ measures }, answer)).toEqual(["a-new-one", "bp-at-target"])
  })
})
