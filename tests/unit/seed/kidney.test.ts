import { readFileSync } from "node:fs"
import { describe, expect, it } from "vitest"
import { z } from "zod"
import { creatinineMgDlFor, egfrFor } from "../../../seed/kidney"

const Vectors = z.object({
  vectors: z.array(
    z.object({
      source: z.string(),
      inputs: z.object({
        creatinine_mg_dl: z.number().nullable(),
        age_years: z.number().nullable(),
        sex: z.string().nullable(),
      }),
      expected: z.number().nullable(),
      tolerance: z.number().optional(),
    }),
  ),
})

// Two public implementations of CKD-EPI 2021, named in the file.
const place = new URL("../../fixtures/vectors/egfr-creatinine-2021.json", import.meta.url)
const { vectors } = Vectors.parse(JSON.parse(readFileSync(place, "utf8")))

const exact = vectors.flatMap(({ inputs, expected, tolerance }) => {
  const { creatinine_mg_dl: creatinineMgDl, age_years: ageYears, sex } = inputs
  if (creatinineMgDl === null || ageYears === null || expected === null) return []
  if ((sex !== "female" && sex !== "male") || (tolerance ?? 1) > 1e-6) return []
  return [{ creatinineMgDl, ageYears, sex, expected } as const]
})

describe("creatinine and eGFR of the invented", () => {
  it("gives the eGFR two public implementations of CKD-EPI 2021 give", () => {
    expect(exact.length).toBeGreaterThan(10)
    for (const { expected, ...inputs } of exact) expect(egfrFor(inputs)).toBeCloseTo(expected, 6)
  })

  it("finds the creatinine that belongs to an eGFR", () => {
    for (const { expected, creatinineMgDl, ageYears, sex } of exact) {
      expect(creatinineMgDlFor({ egfr: expected, ageYears, sex })).toBeCloseTo(creatinineMgDl, 6)
    }
  })
})
