import { describe, expect, test } from "vitest"
import { chosenParts, facetsOf, type Facet } from "../../../app/(clinic)/patients/facets"
import { parsePatientsView, type PatientsView } from "../../../app/(clinic)/patients/search-params"
import { sift } from "../../../app/(clinic)/patients/sift"
import { panelFor } from "../../helpers/panel"

const panel = panelFor([
  {
    patient_id: "high A3",
    pressure: "above target",
    systolic: 150,
    g: "G3b",
    a: "A3",
    class_band: "3 or more",
    cautions: "potassium-high-on-drug;interfering-drug",
    has_potassium_diet_flag: true,
  },
  { patient_id: "high A1", pressure: "above target", systolic: 141, g: "G3b", a: "A1", class_band: "0" },
  {
    patient_id: "good A3",
    pressure: "at target",
    systolic: 120,
    g: "G2",
    a: "A3",
    class_band: "0",
    cautions: "interfering-drug",
  },
  {
    patient_id: "unmeasured",
    pressure: "not measured",
    g: null,
    a: null,
    class_band: "0",
    kidney_known: true,
  },
])

describe("the list is narrowed by every filter at once", () => {
  test("keeps the rows that pass every filter, either word of one filter being enough", () => {
    expect(shown({ pressure: ["above target"] })).toEqual(["high A3", "high A1"])
    expect(shown({ pressure: ["above target", "not measured"], a: ["A1", "unknown"] })).toEqual([
      "high A1",
      "unmeasured",
    ])
  })

  test("a word that the facet does not have stands for no filter", () => {
    expect(shown({ pressure: ["splendid"] })).toHaveLength(4)
  })

  test("takes one cell of the stage grid", () => {
    expect(shown({ cell: ["G3b A3"] })).toEqual(["high A3"])
    expect(shown({ cell: ["unknown unknown"] })).toEqual(["unmeasured"])
  })

  test("finds who lacks a value, each of several lacks by itself", () => {
    expect(shown({ missing: ["pressure"] })).toEqual(["unmeasured"])
    expect(shown({ missing: ["pressure", "kidney"] })).toHaveLength(4)
  })

  test("finds who carries a caution, each of several cautions by itself", () => {
    expect(shown({ caution: ["interfering-drug"] })).toEqual(["high A3", "good A3"])
    expect(shown({ caution: ["potassium-high-on-drug"] })).toEqual(["high A3"])
    expect(shown({ caution: ["potassium-in-the-diet"] })).toEqual(["high A3"])
    expect(shown({ caution: ["two-ras-blockers"] })).toEqual([])
  })

  test("counts each part as it would show while all other filters hold", () => {
    const counts = countsOf({ pressure: ["above target"], a: ["A3"] })

    expect(counts("pressure")).toEqual({ "above target": 1, "at target": 1, "not measured": 0 })
    expect(counts("a")).toEqual({ A1: 1, A2: 0, A3: 1, unknown: 0 })
    expect(counts("classes")).toEqual({ "0": 0, "1 or 2": 0, "3 or more": 1 })
  })

  test("counts only rows that the search found", () => {
    const found = Uint8Array.from([0, 1, 1, 1])

    expect(countsOf({}, found)("pressure")).toEqual({ "above target": 1, "at target": 1, "not measured": 1 })
  })
})

function view(filters: Partial<PatientsView>): PatientsView {
  return { ...parsePatientsView({}), ...filters }
}

function sifted(filters: Partial<PatientsView>, found: Uint8Array | null = null) {
  const facets = facetsOf(panel, null)
  const sieves = facets.map((facet) => ({ facet, chosen: chosenParts(facet, view(filters)) }))
  return { facets, ...sift(panel.length, sieves, found) }
}

function shown(filters: Partial<PatientsView>): (string | null)[] {
  return Array.from(sifted(filters).rows, (row) => panel.text("patient_id", row))
}

function countsOf(filters: Partial<PatientsView>, found: Uint8Array | null = null) {
  const { facets, counts } = sifted(filters, found)
  return (name: Facet["name"]) => {
    const words = facets.find((facet) => facet.name === name)?.words ?? []
    return Object.fromEntries(words.map((word, part) => [word, counts.get(name)?.[part]]))
  }
}
