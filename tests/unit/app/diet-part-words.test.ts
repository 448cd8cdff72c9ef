import { describe, expect, it } from "vitest"
import { completenessWords, fallWords } from "../../../app/(clinic)/diet-part-words"
import type { DietPoint } from "../../../lib/questions/patient-diet"

const plain = (text: string | null) => text?.replaceAll("\u00a0", " ")

const urine: DietPoint = {
  ...{ day: "2026-10-01", series: "24-hour urine", method: "urine_24h", sodium_mg: 2299, potassium_mg: null },
  ...{ comparator: null, completeness: "complete", missing: null, creatinine_mmol: 9.5 },
  ...{ creatinine_comparator: null, least_creatinine_mmol: 4, sources: [] },
}

describe("the range of a fall in pressure", () => {
  it.each([
    [{ least: 1.62, most: 6.91 }, "about 2 to 7 mmHg"],
    [{ least: 0.2, most: 1.1 }, "up to 1 mmHg"],
    [{ least: 0.1, most: 0.4 }, "under 1 mmHg"],
    [{ least: 0.6, most: 1.4 }, "about 1 mmHg"],
  ])("is told in whole mmHg: %o", (range, words) => {
    expect(plain(fallWords(range))).toBe(words)
  })
})

describe("the completeness of a 24-hour urine", () => {
  it("names the creatinine and its limit", () => {
    expect(plain(completenessWords(urine))).toBe("complete by its creatinine (9.5 mmol, at least 4)")
    expect(plain(completenessWords({ ...urine, completeness: "doubtful", creatinine_mmol: 3.25 }))).toBe(
      "completeness doubtful (creatinine 3.3 mmol, under the 4 of a complete collection)",
    )
  })

  it.each([
    ["creatinine", { creatinine_mmol: null }, "no creatinine of that day"],
    ["sex", { least_creatinine_mmol: null }, "sex not on record"],
    ["number", { creatinine_mmol: 5, creatinine_comparator: "<" }, "creatinine only known as <5 mmol"],
  ] as const)("says what is missing: %s", (missing, own, words) => {
    const record: DietPoint = { ...urine, completeness: "cannot be judged", missing, ...own }

    expect(plain(completenessWords(record))).toBe(`completeness cannot be judged (${words})`)
  })

  it("is not told of another record", () => {
    expect(completenessWords({ ...urine, completeness: null })).toBeNull()
  })
})
