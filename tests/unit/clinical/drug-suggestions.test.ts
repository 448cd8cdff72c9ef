import { readFileSync } from "node:fs"
import { describe, expect, it } from "vitest"
import { z } from "zod"
import { drugSuggestions } from "../../../lib/questions/drug-suggestions"
import { openDrugs, type DrugMapping } from "../../helpers/open-drugs"

const Texts = z.strictObject({
  about: z.string(),
  texts: z.array(
    z.strictObject({
      case: z.string(),
      text: z.string(),
      suggestions: z.array(
        z.strictObject({ word: z.string(), name: z.string(), ingredients: z.array(z.string()) }),
      ),
    }),
  ),
})

const { texts } = Texts.parse(
  JSON.parse(readFileSync(new URL("../../fixtures/vectors/drug-suggestions.json", import.meta.url), "utf8")),
)

async function suggest(texts: readonly string[], mappings: readonly DrugMapping[] = []) {
  const connection = await openDrugs({ orders: texts.map((drug) => ({ drug })), mappings })
  const reader = await connection.runAndReadAll(drugSuggestions.sql)
  return z.array(drugSuggestions.Row).parse(reader.getRowObjectsJson())
}

describe("a word that misses a known name by one letter", () => {
  it.each(texts)("is suggested what it was meant to be: $case", async ({ text, suggestions }) => {
    const rows = await suggest([text])

    expect(rows.map(({ word, name, ingredients }) => ({ word, name, ingredients }))).toEqual(suggestions)
  })

  it("is suggested every name it is near to", async () => {
    const rows = await suggest(["predniolone"])

    expect(rows.map((row) => row.name)).toContain("prednisolone")
  })

  it("is still mapped to nothing", async () => {
    const connection = await openDrugs({ orders: [{ drug: "ramiprl 5 mg" }] })
    const reader = await connection.runAndReadAll("select ingredients, status from drug_texts")

    expect(reader.getRowsJson()).toEqual([[[], "unmapped"]])
  })
})

describe("no name is suggested", () => {
  it("for what a person has mapped", async () => {
    const mapping = { text: "ramiprl", ingredients: ["ramipril"], isIgnored: false }

    expect(await suggest(["ramiprl 5 mg"], [mapping])).toEqual([])
    expect(await suggest(["ramiprl 5 mg"], [{ ...mapping, ingredients: [], isIgnored: true }])).toEqual([])
  })
})
