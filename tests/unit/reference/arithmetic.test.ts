import { describe, expect, it } from "vitest"
import { ageInYears, day, dayFromText, dayToText, minusMonths } from "../../reference/day"
import { compare, exact, exactFromText, mean, roundedHalfUp, toNumber } from "../../reference/exact"
import { momentFromText } from "../../reference/instant"
import { ckdEpi2021 } from "../../reference/kidney"
import { fourVariableRisk, slopePerYear } from "../../reference/kidney-failure"
import { t975, wilson } from "../../reference/statistics"

describe("exact numbers", () => {
  it("keep the mean of 0.1, 0.2 and 0.6 at exactly 0.3", () => {
    const third = mean([exact("0.1"), exact("0.2"), exact("0.6")])

    expect(compare(third, exact("0.3"))).toBe(0)
    expect(toNumber(third)).toBe(0.3)
  })

  it("round a half up, also below zero", () => {
    expect(["129.5", "129.49", "0.5", "-0.5", "-1.5"].map((text) => roundedHalfUp(exact(text)))).toEqual([
      130, 129, 1, 0, -1,
    ])
  })

  it("are read only from plain decimal numbers", () => {
    const written = ["5", "+5.50", ".5", "5.", "1e2", "1,000", "", "-", "0x10"]

    expect(written.map((text) => exactFromText(text) !== null)).toEqual([
      ...[true, true, true],
      ...[false, false, false, false, false, false],
    ])
  })
})

describe("days", () => {
  it("clamp to the end of a shorter month", () => {
    expect(dayToText(minusMonths(day("2023-03-31"), 1))).toBe("2023-02-28")
    expect(dayToText(minusMonths(day("2024-03-31"), 1))).toBe("2024-02-29")
    expect(dayToText(minusMonths(day("2024-02-29"), 12))).toBe("2023-02-28")
  })

  it("that are not in the calendar are no days", () => {
    expect(["2025-02-29", "2025-13-01", "2025-1-1", "2025-06-31"].map(dayFromText)).toEqual([
      null,
      null,
      null,
      null,
    ])
  })

  it("put a birthday of 29 February on 1 March in a common year", () => {
    const birth = day("2004-02-29")

    expect(ageInYears(birth, day("2022-02-28"))).toBe(17)
    expect(ageInYears(birth, day("2022-03-01"))).toBe(18)
    expect(ageInYears(birth, day("2024-02-29"))).toBe(20)
  })
})

describe("times", () => {
  const utc = (text: string, timeZone: string) =>
    new Date(momentFromText(text, timeZone)?.instant ?? NaN).toISOString()

  it("without an offset are of the clinic's time zone, and a plain date is noon there", () => {
    expect(utc("2025-06-30T23:30", "America/New_York")).toBe("2025-07-01T03:30:00.000Z")
    expect(utc("2025-06-30", "America/New_York")).toBe("2025-06-30T16:00:00.000Z")
  })

  it("that do not exist or exist twice take the offset before the change", () => {
    expect(utc("2025-03-30T02:30", "Europe/Oslo")).toBe("2025-03-30T01:30:00.000Z")
    expect(utc("2025-10-26T02:30", "Europe/Oslo")).toBe("2025-10-26T00:30:00.000Z")
    expect(utc("2025-10-26T03:30", "Europe/Oslo")).toBe("2025-10-26T02:30:00.000Z")
  })

  it("with an offset belong to the day they have in the clinic's time zone", () => {
    const moment = momentFromText("2025-07-01 03:30:00+00:00", "America/New_York")

    expect(moment && dayToText(moment.day)).toBe("2025-06-30")
  })
})

describe("statistics", () => {
  // Newcombe 1998, Statistics in Medicine 17:857, Table I, method 3.
  it.each([
    [81, 263, 0.2553, 0.3662],
    [15, 148, 0.0624, 0.1605],
    [0, 20, 0, 0.1611],
    [1, 29, 0.0061, 0.1718],
  ])("give the published score interval of %i in %i", (met, all, low, high) => {
    expect(wilson(met, all)).toEqual({ low: expect.closeTo(low, 4), high: expect.closeTo(high, 4) })
  })

  // NIST/SEMATECH e-Handbook of Statistical Methods, section 1.3.6.7.2, upper critical values, 0.975; from memory.
  it.each([
    [1, 12.706],
    [2, 4.303],
    [3, 3.182],
    [6, 2.447],
    [10, 2.228],
    [30, 2.042],
    [100, 1.984],
  ])("give the published t of %i degrees of freedom", (degrees, t) => {
    expect(t975(degrees)).toBeCloseTo(t, 3)
  })
})

describe("CKD-EPI 2021", () => {
  // Printed in the manual and source of the tabletools R package.
  it.each([
    [50, "female", 1.0, 68.6],
    [70, "female", 0.8, 79.2],
    [70, "male", 0.8, 95.2],
  ])("gives the published value at age %i, %s, %f mg/dL", (ageYears, sex, creatinineMgDl, egfr) => {
    expect(ckdEpi2021({ creatinineMgDl, ageYears, sex })).toBeCloseTo(egfr, 1)
  })
})

describe("kidney failure", () => {
  // Computed from the published coefficients (Tangri 2011) and North American baseline survival (Tangri 2016).
  it.each([
    { ageYears: 65, isMale: true, egfr: 19, acrMgG: 30, percent: 9.2838 },
    { ageYears: 70, isMale: false, egfr: 50, acrMgG: 35, percent: 0.2315 },
    { ageYears: 57.28, isMale: false, egfr: 15, acrMgG: 1762.00184, percent: 58.6954 },
  ])("has a 2-year risk of $percent% at an eGFR of $egfr", ({ percent, ...person }) => {
    expect(fourVariableRisk(person) * 100).toBeCloseTo(percent, 4)
  })

  it("falls by 365.25 / 73 a year where it falls by 1 every 73 days", () => {
    const first = day("2022-03-01")
    const days = [0, 1, 2, 3, 4, 5].map((step) => ({ day: first + 73 * step, egfr: 60 - step }))

    const slope = slopePerYear(days, first + 365)

    expect(slope && toNumber(slope)).toBeCloseTo(-365.25 / 73, 12)
    expect(slopePerYear(days.slice(1), first + 365)).toBeNull()
  })
})
