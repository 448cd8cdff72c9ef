import { describe, expect, test } from "vitest"
import {
  count,
  counted,
  day,
  dayInFull,
  instant,
  listed,
  milligrams,
  month,
  oneDecimal,
  percent,
  percentInterval,
  percentTenth,
  points,
  pointsSize,
  pressure,
  sentenceCase,
} from "../../../lib/speech/format"

/** The same words with ordinary blanks, for reading. */
const plain = (words: string) => words.replaceAll("\u00a0", " ")

describe("numbers", () => {
  test("separates thousands", () => {
    expect(count(1204)).toBe("1,204")
    expect(count(998)).toBe("998")
  })

  test("speaks of one person and of several", () => {
    expect(plain(counted(1, "person", "people"))).toBe("1 person")
    expect(plain(counted(0, "person", "people"))).toBe("0 people")
  })

  test("rounds a share half up", () => {
    expect(percent(0.605)).toBe("61%")
    expect(percent(0.6049)).toBe("60%")
  })

  test("gives a slope one decimal and a true minus", () => {
    expect(oneDecimal(-6.25)).toBe("\u22126.3")
    expect(oneDecimal(-0.04)).toBe("0.0")
    expect(oneDecimal(0.84)).toBe("0.8")
  })

  test("gives a risk one decimal, and never calls nothing what is not", () => {
    expect(percentTenth(0.1234)).toBe("12.3%")
    expect(percentTenth(0.0004)).toBe("under 0.1%")
    expect(percentTenth(0)).toBe("0.0%")
  })

  test("never calls a share all or none that is neither", () => {
    expect(percent(0.999)).toBe("over 99%")
    expect(percent(0.0004)).toBe("under 1%")
    expect(percent(1)).toBe("100%")
    expect(percent(0)).toBe("0%")
  })

  test("writes an interval with words between its ends", () => {
    expect(percentInterval({ low: 0.5846, high: 0.6312 })).toBe("58 to 63")
  })

  test("keeps a decimal where both ends of an interval round to one whole", () => {
    expect(percentInterval({ low: 0, high: 0.004 })).toBe("0.0 to 0.4")
    expect(percentInterval({ low: 0, high: 0.005 })).toBe("0 to 1")
  })

  test("signs a difference in points, and drops the sign of none", () => {
    expect(points(0.0141)).toBe("+1.4")
    expect(points(-0.0032)).toBe("\u22120.3")
    expect(points(-0.0004)).toBe("0.0")
    expect(plain(pointsSize(-0.01))).toBe("1.0 point")
  })

  test("keeps the unit on the line of its number", () => {
    expect(milligrams(3139.6)).toBe("3,140\u00a0mg")
    expect(plain(milligrams(-260))).toBe("\u2212260 mg")
  })

  test("writes a pressure as whole numbers", () => {
    expect(pressure(138, 86)).toBe("138/86")
  })
})

describe("days", () => {
  test("never writes a month as a number", () => {
    expect(plain(day("2026-10-31"))).toBe("31 Oct 2026")
    expect(plain(dayInFull("2026-02-01"))).toBe("1 February 2026")
    expect(month("2026-10")).toBe("October 2026")
  })

  test("tells an instant by the clinic's clock", () => {
    expect(plain(instant("2026-11-02T06:10:00Z", "America/Chicago"))).toBe("2 November, 00:10")
    expect(plain(instant("2026-11-02T06:10:00Z", "Europe/Oslo"))).toBe("2 November, 07:10")
  })
})

describe("words", () => {
  test("joins a list with one and", () => {
    expect(listed(["a"])).toBe("a")
    expect(listed(["a", "b", "c"])).toBe("a, b and c")
  })

  test("raises the first letter but leaves eGFR as it is", () => {
    expect(sentenceCase("on dialysis")).toBe("On dialysis")
    expect(sentenceCase("eGFR under 15")).toBe("eGFR under 15")
  })
})
