import { describe, expect, it } from "vitest"
import { mutantsOf } from "../../mutation/mutate"

function changes(sql: string): string[] {
  return mutantsOf(sql).map((mutant) => mutant.sql)
}

describe("the mutants of a SQL text", () => {
  it.each([
    ["a < b", ["a <= b"]],
    ["a <= b", ["a < b"]],
    ["a > b", ["a >= b"]],
    ["a >= b", ["a > b"]],
    ["a = b", ["a <> b"]],
    ["a <> b", ["a = b"]],
  ])("move or turn each comparison: %s", (sql, expected) => {
    expect(changes(sql)).toEqual(expected)
  })

  it("make a whole number one more and one less, a fraction a hundredth more", () => {
    expect(changes("v.day - 90")).toEqual(["v.day - 91", "v.day - 89"])
    expect(changes("x + 0")).toEqual(["x + 1", "x + (-1)"])
    expect(changes("power(0.9938, age)")).toEqual(["power(1.003738, age)"])
    expect(changes("interval '12' month")).toEqual(["interval '13' month", "interval '11' month"])
  })

  it("turn the boolean words", () => {
    expect(changes("a and b or not c")).toEqual(["a or b or not c", "a and b and not c", "a and b or  c"])
    expect(changes("a is null")).toEqual(["a is not null"])
    expect(changes("a is not null")).toEqual(["a is  null"])
    expect(changes("coalesce(a, false)")).toEqual(["coalesce(a, true)"])
  })

  it("turn least and greatest, first and last", () => {
    expect(changes("least(a, b)")).toEqual(["greatest(a, b)"])
    expect(changes("max(a) over (order by b desc)")).toEqual([
      "min(a) over (order by b desc)",
      "max(a) over (order by b asc)",
    ])
  })

  it("drop each member of a list in turn, and none of a list of one", () => {
    expect(changes("g in ('G4', 'G5')")).toEqual(["g in ('G5')", "g in ('G4')"])
    expect(changes("g in ('G4')")).toEqual([])
    expect(changes("g in (select b.g from b)")).toEqual([])
  })

  it("leave comments, texts, names, parameters, sizes of types and the and of between alone", () => {
    expect(changes("-- a < 3 and b\nselect r.min, word_2 as max from r")).toEqual([])
    expect(changes("'a < 3' || $target_3")).toEqual([])
    expect(changes("cast(a as decimal(32, 6))")).toEqual([])
    expect(changes("a between b and c")).toEqual([])
  })

  it("say where they changed what", () => {
    const [mutant] = mutantsOf("select a\nfrom b\nwhere a < c")

    expect(mutant).toMatchObject({ line: 3, column: 9, from: "<", to: "<=" })
  })
})
