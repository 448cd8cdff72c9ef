import { describe, expect, it } from "vitest"
import { filesOf, handMadeClinics, type HandMadeClinic } from "../../fixtures/clinic"
import { sodiumClinic, sodiumMeans } from "../../fixtures/clinic-diet"
import { differencesOf } from "../../fixtures/clinic-differences"
import { measureIds, type MeasureId } from "../../fixtures/clinic-person"
import { openReference } from "../../reference/compute-reference"
import { filesFromTexts } from "../../reference/csv"

const measuresWithUnknown: readonly MeasureId[] = [
  "bp-at-target",
  "bp-under-140-90",
  "uncontrolled-on-several-classes",
  "untreated-above-target",
  "diet-sodium-within-limit",
  "potassium-high-on-ras",
  "low-pressure-on-drugs",
  "failure-risk",
]

function answerOf(clinic: HandMadeClinic) {
  const open = filesFromTexts(filesOf(clinic))
  return openReference({ open, timeZone: clinic.timeZone, importDay: "2026-01-02" })(clinic.on)
}

describe("the reference", () => {
  it.each(handMadeClinics)("gives every person of $name what was worked out by hand", (clinic) => {
    const differences = differencesOf(clinic.people, answerOf(clinic).patients)

    expect(differences).toEqual([])
  })

  it("gives the mean sodium that was worked out by hand", () => {
    const sodium = answerOf(sodiumClinic).measures.find((measure) => measure.id === "diet-sodium")

    expect(sodium).toEqual({
      id: "diet-sodium",
      n: sodiumMeans.n,
      meanMg: expect.closeTo(sodiumMeans.meanMg, 2),
      low: expect.closeTo(sodiumMeans.low, 1),
      high: expect.closeTo(sodiumMeans.high, 1),
      pairedN: sodiumMeans.pairedN,
      pairedChangeMg: expect.closeTo(sodiumMeans.pairedChangeMg, 6),
    })
  })
})

describe("the hand-made people", () => {
  it("each have a name of their own within a clinic", () => {
    for (const { people } of handMadeClinics) {
      const ids = people.map((person) => person.id)
      expect(new Set(ids).size).toBe(ids.length)
    }
  })

  it("show every standing of every measure that can have it", () => {
    const seen = new Set<string>()
    for (const { people } of handMadeClinics)
      for (const { expect: expected } of people)
        if (expected !== "not in panel")
          for (const [measure, standing] of Object.entries(expected))
            seen.add(`${measure}: ${String(standing)}`)

    const always = ["outside", "excluded", "met", "not met"]
    const all = measureIds.flatMap((measure) => [
      ...always.map((standing) => `${measure}: ${standing}`),
      ...(measuresWithUnknown.includes(measure) ? [`${measure}: unknown`] : []),
    ])
    // The other exceptions are decisions of a clinician, which no extract brings.
    expect([...seen]).toEqual(expect.arrayContaining([...all, "ras-blocker-in-albuminuria: exception"]))
  })
})
