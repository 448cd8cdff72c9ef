import type { DuckDBConnection } from "@duckdb/node-api"
import { existsSync } from "node:fs"
import { beforeAll, describe, expect, it } from "vitest"
import { missOf, readVectors, vectorsFile } from "../../helpers/formula-vectors"
import { openFormulas, readFormulas } from "../../helpers/formulas"

const formulas = readFormulas()
let connection: DuckDBConnection

beforeAll(async () => {
  connection = await openFormulas()
})

describe("published and independent check values", () => {
  it.each(formulas)("hold for every row of $name", async (formula) => {
    const file = readVectors(formula)
    const ran: typeof file.vectors = []
    const failures: string[] = []

    for (const vector of file.vectors) {
      for (const number of ["decimal", "double"] as const) {
        const failure = await missOf(connection, { formula, vector, number })
        if (failure !== null) failures.push(failure)
      }
      ran.push(vector)
    }

    expect(file.formula).toBe(formula.name)
    expect(file.vectors.map((vector) => Object.keys(vector.inputs))).toEqual(
      file.vectors.map(() => formula.parameters),
    )
    expect(failures).toEqual([])
    expect(ran).toEqual(file.vectors)
    expect(ran.length).toBeGreaterThanOrEqual(8)
  })

  it("exist for every formula", () => {
    const missing = formulas
      .filter((formula) => !existsSync(vectorsFile(formula)))
      .map((formula) => formula.name)

    expect(missing).toEqual([])
  })

  it("include the absence rule of every formula", () => {
    const without = formulas.filter((formula) => {
      return !readVectors(formula).vectors.some((vector) => vector.expected === null)
    })

    expect(without.map((formula) => formula.name)).toEqual([])
  })
})
